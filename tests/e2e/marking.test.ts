/** Marks on pages that make it hard: strict policy, shadow roots, results that must not move, pointing by mouse and by key. */
import type { Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type SmallPage, serveSmallPage } from './harness/small-page.ts'
import { FAMILIES, highlightedWords, openWorld, ownMarkup, type World } from './harness/world.ts'

const BODY = `
  <h1>Odo Marrable 1931, not a <b>reprint</b></h1>
  <div class="shell"><template shadowrootmode="open"><p>sold as is</p></template></div>
  <ul><li class="row">Row one</li><li class="row" data-n="2">Row two</li></ul>
  <p>Asked: <span class="asking">120 EUR</span></p>
  <form><textarea maxlength="30"></textarea><button>Send</button></form>`

/** The side panel slides in beside the page: what is compared is a page that has stopped moving. */
async function atRest<T>(look: () => Promise<T>): Promise<T> {
  let last = await look()
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, 500))
    const next = await look()
    if (next === last) return next
    last = next
  }
}

describe.each(FAMILIES)('in %s, on a page with a strict policy', (family) => {
  let world: World
  let small: SmallPage
  let page: Page
  let panel: Page
  let tabId: number
  beforeAll(async () => {
    world = await openWorld({ family })
    small = await serveSmallPage(BODY)
    page = await world.started.browser.newPage()
    await page.goto(small.url)
    panel = await world.openPanel(page)
    tabId = Number(
      await panel.evaluate(`(async () => {
        const asked = new URL(location.href).searchParams.get('tab')
        return asked ?? (await chrome.tabs.query({ active: true, lastFocusedWindow: true }))[0].id
      })()`),
    )
  })
  afterAll(async () => {
    await world?.close()
    await small?.close()
  })

  /** Calls the content script as the panel does. */
  async function call(method: string, params: unknown): Promise<unknown> {
    const envelope = JSON.stringify({ touchstone: 'panel-to-page', method, params })
    const answer = (await panel.evaluate(
      `(globalThis.browser ?? chrome).tabs.sendMessage(${tabId}, ${envelope}, { frameId: 0 })`,
    )) as { ok: boolean; value: unknown; fault?: { code: string } }
    if (!answer.ok) throw new Error(JSON.stringify(answer.fault))
    return answer.value
  }

  it('words are found across elements and in shadow roots, and nothing of the page changes', async () => {
    const before = await ownMarkup(page)
    const items = [
      { id: 'a', quote: 'not a reprint', where: 'h1' },
      { id: 'b', quote: 'sold as is', where: null },
      { id: 'c', quote: 'never there', where: null },
    ]
    const mark = { where: 'h1', title: null, stance: 'ask', label: '2 open', description: 'Touchstone: 2 open' }
    expect(await call('highlight', { items, mark })).toEqual({ found: ['a', 'b'] })
    expect(await highlightedWords(page)).toEqual(['not a reprint', 'sold as is'])
    expect(await ownMarkup(page)).toBe(before)
  })

  it('marks on rows move nothing', async () => {
    const boxes = () =>
      page.evaluate('JSON.stringify([...document.querySelectorAll("body *")].map((e) => e.getBoundingClientRect()))')
    const before = await atRest(boxes)
    const marks = [
      { where: 'li.row', label: '1 concern', detail: 'RP', kind: 'concerns' },
      { where: 'li[data-n="2"]', label: 'in your dossiers', detail: '', kind: 'kept' },
      { where: 'li[', label: 'no selector', detail: '', kind: 'kept' },
    ]
    expect(await call('markRows', { marks })).toEqual({ marked: 2 })
    expect(await boxes()).toBe(before)
  })

  it('a message that the box cannot hold is not put there, one that fits is', async () => {
    expect(await call('fillMessage', { text: 'x'.repeat(31) })).toEqual({ filled: false, reason: 'too-long' })
    expect(await page.$eval('textarea', (box) => (box as HTMLTextAreaElement).value)).toBe('')
    expect(await call('fillMessage', { text: 'Could you show the back?' })).toEqual({ filled: true, reason: null })
    expect(await page.$eval('textarea', (box) => (box as HTMLTextAreaElement).value)).toBe('Could you show the back?')
  })

  it('the price is pointed at with the mouse, and the page hears no click', async () => {
    await page.bringToFront()
    await page.evaluate('globalThis.heard = 0; addEventListener("click", () => globalThis.heard++)')
    const picking = call('pickElement', { prompt: 'Press the price' })
    await expect.poll(() => page.evaluate('document.querySelectorAll("touchstone-layer").length')).toBe(1)
    await new Promise((resolve) => setTimeout(resolve, 300))
    await page.click('.asking')
    expect(await picking).toMatchObject({ text: '120 EUR', selectors: expect.arrayContaining(['span.asking']) })
    expect(await page.evaluate('globalThis.heard')).toBe(0)
    await page.click('.asking')
    expect(await page.evaluate('globalThis.heard')).toBe(1)
  })

  it('or with the keys, and Escape gives up', async () => {
    await page.bringToFront()
    const picking = call('pickElement', { prompt: 'Press the price' })
    await new Promise((resolve) => setTimeout(resolve, 300))
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('Enter')
    expect(await picking).toMatchObject({ selectors: expect.arrayContaining([expect.stringContaining('h1')]) })
    const again = call('pickElement', { prompt: 'Press the price' })
    await new Promise((resolve) => setTimeout(resolve, 300))
    await page.keyboard.press('Escape')
    expect(await again).toBeNull()
  })

  it('everything of ours leaves at the panel’s word', async () => {
    await call('clear', null)
    expect(await page.evaluate('document.querySelectorAll("touchstone-layer").length')).toBe(0)
    expect(await highlightedWords(page)).toEqual([])
    expect(await page.evaluate('document.adoptedStyleSheets.length')).toBe(0)
  })
})
