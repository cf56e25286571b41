/** WCAG 2.2 A and AA by axe-core on every page of the extension, light and dark. */
import type { Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { findViolations } from './harness/check-accessibility.ts'
import { FAMILIES, openWorld, type World } from './harness/world.ts'

// Colours and markup are the same in both browsers; one is enough, and which one is said.
const [family] = FAMILIES

describe.each(['light', 'dark'] as const)(`in ${family}, %s`, (theme) => {
  let world: World
  beforeAll(async () => {
    world = await openWorld({ family: family!, settings: { theme } })
  })
  afterAll(() => world?.close())

  async function check(page: Page): Promise<void> {
    await expect.poll(() => page.evaluate('document.documentElement.dataset.theme')).toBe(theme)
    // Transitions change colours for a moment.
    await new Promise((resolve) => setTimeout(resolve, 300))
    expect(await findViolations(page)).toEqual([])
  }

  it.each(['q01', 'q02', 'q04'])('the panel beside %s', async (id) => {
    const page = await world.openListing(id)
    await check(await world.openPanel(page))
    await page.close()
  })

  it('the panel beside a results page', async () => {
    const page = await world.started.browser.newPage()
    await page.goto(`${world.market.origins.quayside}/`)
    await check(await world.openPanel(page))
    await page.close()
  })

  it.each(['desk/index.html', 'desk/index.html#graders', 'desk/index.html#settings', 'setup/index.html'])(
    '%s',
    async (path) => {
      const page = await world.started.openExtensionPage(path)
      await check(page)
      await page.close()
    },
  )
})
