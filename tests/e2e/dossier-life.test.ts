/**
 * The life of one dossier: seen, kept, asked, answered in part, asked again, bought, arrived, differs. One browser is enough:
 * the desk is a page like any other.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { ElementHandle, Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { findListing } from '../../src/demo/market/market-data.ts'
import { readPhoto } from '../../src/demo/market/photo-host.ts'
import { FAMILIES, openWorld, press, type World, wordsOf } from './harness/world.ts'

/** Views as the demo's drawn photos show them, of a card like the one in question. */
const ANSWERED = ['back', 'corners', 'edges'] as const

describe.runIf(FAMILIES.includes('chromium'))('the life of a dossier', () => {
  let world: World
  let folder: string
  let desk: Page
  beforeAll(async () => {
    world = await openWorld({ family: 'chromium', permitted: true })
    folder = mkdtempSync(join(tmpdir(), 'reply-'))
  })
  afterAll(async () => {
    await world?.close()
    rmSync(folder, { recursive: true, force: true })
  })

  const stage = () => wordsOf(desk, '.life-stage.is-present')
  const asks = () => wordsOf(desk, '.next-message .quiet')

  it('is kept from the page', async () => {
    const page = await world.openListing('b02')
    const panel = await world.openPanel(page)
    await press(panel, 'Keep this listing')
    await expect.poll(() => wordsOf(panel, '.keep'), { timeout: 20_000 }).toContain('Kept on')
    desk = await world.started.openExtensionPage('desk/index.html')
    await desk.waitForSelector('.dossier-row', { timeout: 15_000 })
    await desk.click('.dossier-row')
    await expect.poll(stage, { timeout: 10_000 }).toContain('Kept')
    await expect.poll(asks, { timeout: 10_000 }).toContain('Back')
  })

  it('is asked, word for word', async () => {
    await press(desk, 'I sent this')
    await expect.poll(stage).toContain('Asked')
    expect(await wordsOf(desk, '.exchange')).toContain('Back')
  })

  it('is answered in part: what the photos show ticks itself off, and the next message asks for the rest', async () => {
    const files: string[] = []
    for (const { view, file } of findListing('q03').photos) {
      if (!(ANSWERED as readonly string[]).includes(view)) continue
      const path = join(folder, `${view}.jpg`)
      writeFileSync(path, (await readPhoto(`/full/${file}`))!)
      files.push(path)
    }
    await press(desk, 'Enter an answer')
    const field = (await desk.waitForSelector('.photo-pick input[type="file"]')) as ElementHandle<HTMLInputElement>
    await field.uploadFile(...files)
    await expect.poll(() => desk.$$('.picked-photos li').then((all) => all.length)).toBe(files.length)
    await press(desk, 'Keep this answer')
    await expect.poll(stage, { timeout: 60_000 }).toContain('Answered in part')
    const exchange = await wordsOf(desk, '.exchange')
    expect(exchange).toMatch(/Now shown: .*Back/)
    // The next message is written once the judgement is in.
    await expect.poll(asks).not.toBe('')
    expect(await asks()).not.toContain('Back')
    const message = () => desk.$eval('.next-message textarea', (box) => (box as HTMLTextAreaElement).value)
    await expect.poll(message).toContain('Thank you')
  })

  it('is asked again, bought, and has arrived', async () => {
    await press(desk, 'I sent this')
    await expect.poll(() => desk.$$('.exchange-line.is-asked').then((all) => all.length)).toBe(2)
    await press(desk, 'I bought it')
    await expect.poll(stage).toContain('Bought')
    await press(desk, 'It arrived')
    await expect.poll(stage).toContain('Arrived')
  })

  it('differs on arrival, which concludes nothing by itself', async () => {
    const [, differs] = await desk.$$('.arrival li:first-child input[type="radio"]')
    await differs!.click()
    await press(desk, 'Keep these findings')
    await expect.poll(stage).toContain('Checked')
    expect(await wordsOf(desk, '.life-differs')).toContain('The parcel')
    expect(await desk.$eval('#purchase-heading ~ .field select', (box) => (box as HTMLSelectElement).value)).toBe('')
  })

  it('takes a step back by a step of its own', async () => {
    const before = (await desk.$$('.log li')).length
    await press(desk, 'Undo')
    await expect.poll(stage).toContain('Arrived')
    expect((await desk.$$('.log li')).length).toBe(before + 1)
  })

  it('keeps a deadline through a restart, and says it first thing in the morning', async () => {
    await press(desk, 'Add a deadline')
    await desk.select('select:has(option[value="return"])', 'return')
    await press(desk, '14 days from arrival')
    await expect.poll(() => wordsOf(desk, '.deadlines')).toContain('Return ends')
    await world.restart()
    desk = await world.started.openExtensionPage('desk/index.html')
    await expect.poll(() => wordsOf(desk, '.today'), { timeout: 15_000 }).toContain('Arrived, to be checked')
  })

  it('can begin without a page', async () => {
    // The browser started with another tab in front, and a page that nobody sees draws nothing.
    await desk.bringToFront()
    await press(desk, 'Begin without a page')
    await desk.type(
      '.new-dossier textarea',
      'Odo Marrable 1931-32 Pellwick #17, reprint, 40 EUR, found at the pier market',
    )
    await press(desk, 'Begin the dossier')
    await expect.poll(() => wordsOf(desk, '.dossier'), { timeout: 15_000 }).toContain('Odo Marrable')
    expect(await wordsOf(desk, '.dossier')).toMatch(/reprint/i)
  })
})
