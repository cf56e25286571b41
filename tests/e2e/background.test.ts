/** What the background must survive and refuse: being ended at any moment, pages that nobody may read, strangers' messages. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  FAMILIES,
  highlightedWords,
  openConcerns,
  openWorld,
  press,
  type World,
  waitForPhase,
  wordsOf,
} from './harness/world.ts'

const CALL = (method: string, params: unknown) =>
  `(globalThis.browser ?? chrome).runtime.sendMessage(${JSON.stringify({ touchstone: 'panel-to-background', method, params })})`

describe.each(FAMILIES)('the background in %s', (family) => {
  let world: World
  beforeAll(async () => {
    world = await openWorld({ family, permitted: true })
  })
  afterAll(() => world?.close())

  it.runIf(family === 'chromium')('is ended while the panel is open, and nobody notices', async () => {
    const page = await world.openListing('q04')
    const panel = await world.openPanel(page)
    expect(await openConcerns(panel)).toContain('unknown-grader')
    const target = await world.started.browser.waitForTarget((each) => each.type() === 'service_worker')
    await (await target.worker())?.close()
    await press(panel, 'Read the page again')
    await waitForPhase(panel)
    await expect.poll(() => openConcerns(panel)).toContain('unknown-grader')
    await page.close()
  })

  it.runIf(family === 'chromium')('says of the browser’s own pages that nobody may read them', async () => {
    const page = await world.started.browser.newPage()
    await page.goto('chrome://version')
    const panel = await world.openPanel(page)
    await expect.poll(() => wordsOf(panel), { timeout: 10_000 }).toContain('This page cannot be read')
    await page.close()
  })

  it('answers what it does not know, and what is not well said, with an error', async () => {
    const page = await world.started.openExtensionPage('desk/index.html')
    const code = (answer: unknown) => (answer as { fault?: { code: string } }).fault?.code
    expect(code(await page.evaluate(CALL('fetchEverything', null)))).toBe('unknown-method')
    expect(code(await page.evaluate(CALL('attach', { windowId: 'x', tabId: null })))).toBe('bad-params')
    expect(code(await page.evaluate(CALL('alwaysOnSite', { origin: 'javascript:1', photoOrigins: [] })))).toBe(
      'bad-params',
    )
    await page.close()
  })

  it('keeps a switched-on site over a restart, and lets go of it with its permission', async () => {
    const site = { origin: 'http://127.0.0.1:9', photoOrigins: ['http://127.0.0.1:10'] }
    const registered = `(globalThis.browser ?? chrome).scripting.getRegisteredContentScripts().then((all) => all.flatMap((script) => script.matches))`
    const permitted = `(globalThis.browser ?? chrome).permissions.contains({ origins: ['http://127.0.0.1/*'] })`
    let page = await world.started.openExtensionPage('desk/index.html')
    expect(
      await page.evaluate(CALL('alwaysOnSite', { origin: 'https://elsewhere.example', photoOrigins: [] })),
    ).toEqual({
      ok: true,
      value: { registered: false },
    })
    expect(await page.evaluate(CALL('alwaysOnSite', site))).toEqual({ ok: true, value: { registered: true } })
    expect(await page.evaluate(registered)).toEqual(['http://127.0.0.1/*'])

    await world.restart()
    page = await world.started.openExtensionPage('desk/index.html')
    await expect.poll(() => page.evaluate(registered)).toEqual(['http://127.0.0.1/*'])
    expect(await page.evaluate(CALL('sites', null))).toEqual({ ok: true, value: { origins: [site.origin] } })

    await page.evaluate(CALL('neverOnSite', { origin: site.origin }))
    expect(await page.evaluate(registered)).toEqual([])
    expect(await page.evaluate(permitted)).toBe(false)
  })
})

describe.each(FAMILIES)('a switched-on site in %s, with no panel open,', (family) => {
  let world: World
  beforeAll(async () => {
    world = await openWorld({ family, permitted: true })
  })
  afterAll(() => world?.close())

  it('is marked by its words, and no other page is', async () => {
    const desk = await world.started.openExtensionPage('desk/index.html')
    const before = await world.openListing('q04')
    await new Promise((resolve) => setTimeout(resolve, 1_000))
    expect(await highlightedWords(before)).toEqual([])
    await before.close()

    const { origin } = new URL(world.market.origins.quayside)
    expect(await desk.evaluate(CALL('alwaysOnSite', { origin, photoOrigins: [] }))).toMatchObject({ ok: true })
    const page = await world.openListing('q04')
    await expect.poll(() => highlightedWords(page), { timeout: 15_000 }).toContain('ZWY')
    const results = await world.started.browser.newPage()
    await results.goto(`${origin}/find?q=skerryball`)
    await expect
      .poll(() => results.evaluate('document.querySelectorAll("touchstone-layer").length'), { timeout: 15_000 })
      .toBe(1)
    for (const each of [page, results, desk]) await each.close()
  })
})
