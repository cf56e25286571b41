/** A price that was not read is pointed at on the page, read from there, and the place is remembered where the buyer can see and delete it. */
import type { Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type SmallPage, serveSmallPage } from './harness/small-page.ts'
import { FAMILIES, openWorld, press, type World, wordsOf } from './harness/world.ts'

/** Nothing here says that the figure is a price. */
const BODY = `
  <h1>Odo Marrable 1931, Skerryball Stars No. 7</h1>
  <div><em class="figure">340 EUR</em> <small>340 were printed for the northern stalls, as the company wrote</small></div>`

describe.each(FAMILIES)('in %s', (family) => {
  let world: World
  let small: SmallPage
  let page: Page
  let panel: Page
  beforeAll(async () => {
    world = await openWorld({ family })
    small = await serveSmallPage(BODY)
    page = await world.started.browser.newPage()
    await page.goto(small.url)
    panel = await world.openPanel(page)
  })
  afterAll(async () => {
    await world?.close()
    await small?.close()
  })

  it('the price is read from where the buyer points', async () => {
    expect(await wordsOf(panel)).not.toContain('340')
    await press(panel, 'Point at the price')
    await page.bringToFront()
    await expect.poll(() => page.evaluate('document.querySelectorAll("touchstone-layer").length')).toBe(1)
    await new Promise((resolve) => setTimeout(resolve, 300))
    await page.click('.figure')
    await expect.poll(() => wordsOf(panel), { timeout: 10_000 }).toContain('340')
  })

  it('and the place stands in the settings', async () => {
    const desk = await world.started.openExtensionPage('desk/index.html#settings')
    await expect.poll(() => wordsOf(desk), { timeout: 10_000 }).toMatch(/127\.0\.0\.1\s*: Price/)
    await desk.close()
  })
})
