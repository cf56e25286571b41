/** Every listing of the fictional market in a real browser, with real layout: what a careful buyer finds, and nothing more. */
import type { Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { EXPECTATIONS } from '../../src/demo/expected/expectations.ts'
import { COVERED_RULES } from '../../src/demo/expected/expected-inspection.ts'
import { LISTINGS } from '../../src/demo/market/market-data.ts'
import { FAMILIES, openConcerns, openWorld, type World, wordsOf } from './harness/world.ts'

const STANCE_WORDS = { wait: 'Wait before paying', ask: 'Ask first', 'nothing-open': 'Nothing is open' } as const

// Layout and reading differ little between the browsers, and the flows run in both; the whole market takes one of them a minute.
const family = FAMILIES[0]!

describe(`the market in ${family}`, () => {
  let world: World
  beforeAll(async () => {
    world = await openWorld({ family })
  })
  afterAll(() => world?.close())

  it.each(LISTINGS.map(({ id, title }) => [id, title] as const))('%s %s', async (id) => {
    const page = await world.openListing(id)
    const panel = await world.openPanel(page)
    const { concerns, needsPixels, stance } = EXPECTATIONS[id]!
    const expected = concerns.filter((rule) => world.permitted || !needsPixels.includes(rule))
    const raised = async (of: Page) => {
      const open = await openConcerns(of)
      // On a clean listing no rule at all may raise anything.
      return concerns.length === 0 ? open : open.filter((rule) => (COVERED_RULES as readonly string[]).includes(rule))
    }
    // A page that is filled by its own script is read again when it has settled.
    await expect.poll(() => raised(panel), { timeout: 8_000 }).toEqual([...expected].sort())
    if (expected.length === concerns.length) expect(await wordsOf(panel, '.stance')).toContain(STANCE_WORDS[stance])
    await page.close()
  })
})
