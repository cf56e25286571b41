/**
 * How long does a buyer with many dossiers wait? The built extension in Chromium, its desk over COUNT dossiers (20,000): first list, whole
 * list, search, keeping one with twelve photos, summaries made anew. Needs `npm run build`; DIST names another folder than dist/chromium.
 */
import { rmSync } from 'node:fs'
import { resolve } from 'node:path'
import type { Page } from 'puppeteer-core'
import { copyExtension, createProfile, findBrowser, startBrowser } from '../../src/demo/browsers.ts'
import { bundleHarness } from '../e2e/harness/bundle-harness.ts'

const COUNT = Number(process.env.COUNT ?? 20_000)
const ROUNDS = 7
/** Bytes of one photo: a phone's twelve megapixels as a marketplace passes them on. */
const PHOTO_BYTES = 1_500_000
const DIST = resolve(process.env.DIST ?? 'dist/chromium')

const installed = findBrowser('chromium')
if (installed === null) {
  console.log('left out: chromium is not installed here')
  process.exit(0)
}
const harness = await bundleHarness()
const profile = createProfile()
const extension = copyExtension(DIST)
const started = await startBrowser(installed, { extension, headless: true, isolated: true, profile })

function median(values: number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1]!
}
const report = (what: string, values: number[], aim: string) =>
  console.log(
    `${what.padEnd(58)} median ${median(values).toFixed(0).padStart(6)} ms, worst ${Math.max(...values)
      .toFixed(0)
      .padStart(6)} ms, aim ${aim}`,
  )

/** Milliseconds since the page began to load, as the page saw it, until what the expression asks for is drawn. */
const WATCH = `
  globalThis.seen = {}
  globalThis.longest = 0
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) longest = Math.max(longest, entry.duration)
  }).observe({ type: 'longtask', buffered: true })
  const look = () => {
    if (!seen.first && document.querySelector('.dossier-row')) seen.first = performance.now()
    if (!seen.whole && document.querySelector('[aria-setsize="${COUNT}"]')) seen.whole = performance.now()
    requestAnimationFrame(look)
  }
  requestAnimationFrame(look)
`

async function openDesk(): Promise<Page> {
  const page = await started.browser.newPage()
  await page.evaluateOnNewDocument(WATCH)
  await page.goto(started.extensionUrl('desk/index.html'))
  await page.waitForFunction('globalThis.seen.whole', { polling: 50, timeout: 60_000 })
  return page
}

try {
  const writer = await started.openExtensionPage('desk/index.html')
  await writer.evaluate(harness)
  await writer.evaluate(`storageHarness.seed(${COUNT})`)
  await writer.close()

  const first: number[] = []
  const whole: number[] = []
  const longest: number[] = []
  for (let round = 0; round < ROUNDS; round++) {
    const page = await openDesk()
    const seen = (await page.evaluate('({ ...seen, longest })')) as { first: number; whole: number; longest: number }
    first.push(seen.first)
    whole.push(seen.whole)
    longest.push(seen.longest)
    await page.close()
  }
  console.log(`${COUNT} dossiers, ${installed.path}`)
  report('opening the desk: first list', first, '400')
  report('opening the desk: all dossiers in the list', whole, '3,000')
  report('longest time that the window stood still meanwhile', longest, 'none stated')

  const page = await openDesk()
  const searches: number[] = []
  for (const query of ['petrel', 'lantern 1940', 'hawker_12', 'nothing of the kind', 'maiden beetle #7', 'mire', '']) {
    searches.push(
      (await page.evaluate(`new Promise((done) => {
        const box = document.querySelector('input[type=search]')
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(box, ${JSON.stringify(query)})
        const started = performance.now()
        const list = document.querySelector('.dossiers-list')
        const watch = new MutationObserver(() => { watch.disconnect(); done(performance.now() - started) })
        watch.observe(list, { subtree: true, childList: true, characterData: true, attributes: true })
        box.dispatchEvent(new Event('input', { bubbles: true }))
      })`)) as number,
    )
  }
  report('search, from a key pressed to the list changed', searches, '30')
  await page.close()

  const keeper = await started.openExtensionPage('desk/index.html')
  await keeper.evaluate(harness)
  const kept: { stored: number; stoodStill: number }[] = []
  for (let round = 0; round < ROUNDS; round++)
    kept.push((await keeper.evaluate(`storageHarness.timeKeeping(${PHOTO_BYTES})`)) as (typeof kept)[number])
  report(
    `keeping one with 12 photos of ${PHOTO_BYTES / 1e6} MB`,
    kept.map(({ stored }) => stored),
    '300',
  )
  report(
    'longest time that the page stood still meanwhile',
    kept.map(({ stoodStill }) => stoodStill),
    '50',
  )

  const { made, milliseconds } = (await keeper.evaluate('storageHarness.timeRefreshing()')) as {
    made: number
    milliseconds: number
  }
  console.log(`summaries made anew: ${made} in ${(milliseconds / 1000).toFixed(1)} s, in steps that may be cut off`)
} finally {
  await started.close()
  for (const path of [profile, extension]) rmSync(path, { recursive: true, force: true, maxRetries: 5 })
}
