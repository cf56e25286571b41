/** A German browser gets a German panel; the page's own words stay as they are. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { FAMILIES, openWorld, type World, wordsOf } from './harness/world.ts'

describe.each(FAMILIES)('in a German %s', (family) => {
  let world: World
  beforeAll(async () => {
    // Firefox speaks German only with a language pack, which no test can download: there the buyer has chosen it.
    world = await openWorld(
      family === 'chromium' ? { family, language: 'de' } : { family, settings: { interfaceLanguage: 'de' } },
    )
  })
  afterAll(() => world?.close())

  it('the panel speaks German about a German page', async () => {
    const page = await world.openListing('m02')
    const panel = await world.openPanel(page)
    expect(await panel.evaluate('document.documentElement.lang')).toBe('de')
    const words = await wordsOf(panel)
    expect(words).toContain('Schreibtisch')
    expect(words).not.toMatch(/Wait before paying|Ask first|What is offered|Message to the seller/)
  })
})
