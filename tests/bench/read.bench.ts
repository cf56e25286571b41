/**
 * How long reading a page takes, by size. In Node: parsing (which everybody needs) and reading apart, beside general-purpose
 * extractors of the same page. In Chromium: main-thread time of the bundled reader, cold (first call in a fresh page) and warm, with
 * the number of layouts it caused. Medians. Run: `npm run bench -- read`.
 *
 * `microdata-node` is a development dependency. `metascraper` and `web-auto-extractor` are not: their trees (more than 150 packages,
 * one of them a global polyfill) are no company for this house. Where a folder with them is named in `BENCH_WITH`, they run too.
 */
import { existsSync } from 'node:fs'
import { createRequire } from 'node:module'
import { cpus } from 'node:os'
import { resolve } from 'node:path'
import { JSDOM } from 'jsdom'
import { createStaticProbe } from '../../src/page/layout-probe.ts'
import { readPage } from '../../src/page/read-page.ts'
import { makeListingPage } from './make-page.ts'

const SIZES = [3_000, 30_000, 200_000] as const
const URL_OF_PAGE = 'https://quayside.example/lot/14'
const NOW = '2026-11-18T12:00:00Z'
const median = (times: number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!
const ms = (time: number | null): string => (time === null ? '–' : time.toFixed(1)).padStart(10)

async function timed(run: () => unknown, repeats: number): Promise<{ first: number; median: number }> {
  const times: number[] = []
  for (let i = 0; i < repeats; i += 1) {
    const start = performance.now()
    await run()
    times.push(performance.now() - start)
  }
  return { first: times[0]!, median: median(times) }
}

const load = createRequire(import.meta.url)
const others: { name: string; run: (html: string) => unknown }[] = [
  { name: 'microdata-node', run: (html) => (load('microdata-node') as { toJson(html: string): string }).toJson(html) },
]
const folder = process.env.BENCH_WITH
if (folder && existsSync(folder)) {
  const loadThere = createRequire(resolve(folder, 'index.js'))
  const WebAutoExtractor = loadThere('web-auto-extractor').default
  others.push({ name: 'web-auto-extractor', run: (html) => WebAutoExtractor().parse(html) })
  const metascraper = loadThere('metascraper')([
    loadThere('metascraper-title')(),
    loadThere('metascraper-image')(),
    loadThere('metascraper-description')(),
  ])
  others.push({ name: 'metascraper', run: (html) => metascraper({ html, url: 'https://www.example.com/lot/14' }) })
} else console.log('left out: metascraper and web-auto-extractor (no folder in BENCH_WITH)')

console.log(`machine: ${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} cores, Node ${process.version}`)
console.log('\nNode, ms (others parse and extract in one; ours reads a document that is parsed)')
console.log(
  `${'elements'.padEnd(10)}${['jsdom parse', 'read first', 'read median', ...others.map((other) => other.name)].map((name) => name.padStart(20)).join('')}`,
)
for (const size of process.env.BENCH_ONLY === 'chromium' ? [] : SIZES) {
  const html = makeListingPage(size)
  const repeats = size > 100_000 ? 1 : size > 10_000 ? 3 : 9
  const parse = await timed(() => new JSDOM(html, { url: URL_OF_PAGE }), Math.min(repeats, 3))
  const { document } = new JSDOM(html, { url: URL_OF_PAGE }).window
  const reading = readPage(document, { url: URL_OF_PAGE, now: NOW, probe: createStaticProbe(document) })
  if (reading.kind !== 'listing' || reading.price?.amount !== '212.00')
    throw new Error('the bench page is no longer read right')
  const read = await timed(
    () => readPage(document, { url: URL_OF_PAGE, now: NOW, probe: createStaticProbe(document) }),
    repeats,
  )
  const rest: number[] = []
  for (const other of others) rest.push((await timed(() => other.run(html), Math.min(repeats, 3))).median)
  console.log(
    `${String(size).padEnd(10)}${[parse.median, read.first, read.median, ...rest].map((time) => ms(time).padStart(20)).join('')}`,
  )
}

const CHROMIUM = [
  process.env.CHROMIUM_PATH,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
].find((path) => path && existsSync(path))
if (!CHROMIUM) console.log('\nleft out: Chromium (none found)')
else {
  const { build } = await import('vite')
  const { chromium } = await import('playwright-core')
  const entry = 'virtual:reader'
  const parts = ['layout-probe', 'read-page', 'read-page-in-pieces'].map((name) =>
    JSON.stringify(resolve(import.meta.dirname, `../../src/page/${name}.ts`)),
  )
  const built = await build({
    configFile: false,
    logLevel: 'error',
    plugins: [
      {
        name: 'reader',
        resolveId: (id) => (id.endsWith(entry) ? `\0${entry}` : null),
        load: (id) => (id === `\0${entry}` ? parts.map((part) => `export * from ${part}`).join('\n') : null),
      },
    ],
    build: { write: false, minify: true, lib: { entry, formats: ['iife'], name: 'touchstoneBench' } },
  })
  const output = (Array.isArray(built) ? built[0] : built) as { output: { code?: string }[] }
  const code = output.output[0]!.code!
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] })
  console.log(`\nChromium ${browser.version()}, ms of the main thread's own processor time`)
  console.log(
    `${'elements'.padEnd(10)}${['cold', 'warm', 'layouts', 'styles', 'cut', 'pieces', 'longest'].map((name) => name.padStart(10)).join('')}`,
  )
  for (const size of SIZES) {
    const html = makeListingPage(size)
    const colds: number[] = []
    const warms: number[] = []
    let layouts = 0
    let styles = 0
    let cut = false
    for (let round = 0; round < (size > 100_000 ? 1 : 5); round += 1) {
      const page = await browser.newPage()
      await page.setContent(html, { waitUntil: 'domcontentloaded' })
      const session = await page.context().newCDPSession(page)
      // Thread time: what else runs on the machine must not count.
      await session.send('Performance.enable', { timeDomain: 'threadTicks' })
      // The page has been laid out before anybody clicks.
      await page.evaluate('document.body.getBoundingClientRect()')
      const measure = async (): Promise<{ busy: number; layouts: number; styles: number }> => {
        const { metrics } = await session.send('Performance.getMetrics')
        const metric = (name: string): number => metrics.find((each) => each.name === name)!.value
        return {
          busy: metric('TaskDuration') * 1000,
          layouts: metric('LayoutCount'),
          styles: metric('RecalcStyleCount'),
        }
      }
      // As text: a bundler's helpers in a function would not exist in the page.
      await page.evaluate(
        `${code};window.read = () => touchstoneBench.readPage(document, { url: ${JSON.stringify(URL_OF_PAGE)}, now: ${JSON.stringify(NOW)}, probe: touchstoneBench.createLayoutProbe(window) }); 1`,
      )
      const once = async (): Promise<number> => {
        const before = await measure()
        await page.evaluate('void read()')
        const after = await measure()
        layouts = Math.max(layouts, after.layouts - before.layouts)
        styles = Math.max(styles, after.styles - before.styles)
        return after.busy - before.busy
      }
      const cold = await once()
      const warm: number[] = []
      for (let i = 0; i < 7; i += 1) warm.push(await once())
      const result = (await page.evaluate(
        '(() => { const reading = read(); return { right: reading.price?.amount === "212.00", cut: reading.partlyRead } })()',
      )) as { right: boolean; cut: boolean }
      if (!result.right) throw new Error('the bench page is no longer read right in Chromium')
      cut = result.cut
      colds.push(cold)
      warms.push(median(warm))
      await page.close()
    }
    // As the content script reads: in pieces, cold, each piece by the clock.
    const page = await browser.newPage()
    await page.setContent(html, { waitUntil: 'domcontentloaded' })
    await page.evaluate('document.body.getBoundingClientRect()')
    const pieces = (await page.evaluate(`${code};(async () => {
      const pieces = []
      let begun = performance.now()
      await touchstoneBench.readPageInPieces(
        document,
        { url: ${JSON.stringify(URL_OF_PAGE)}, now: ${JSON.stringify(NOW)}, probe: touchstoneBench.createLayoutProbe(window) },
        {
          time: () => performance.now(),
          loadLabels: async () => {},
          pause: async () => {
            pieces.push(performance.now() - begun)
            await new Promise((resolve) => setTimeout(resolve, 0))
            begun = performance.now()
          },
        },
      )
      pieces.push(performance.now() - begun)
      return pieces
    })()`)) as number[]
    await page.close()
    console.log(
      `${String(size).padEnd(10)}${ms(median(colds))}${ms(median(warms))}${String(layouts).padStart(10)}${String(styles).padStart(10)}${String(cut).padStart(10)}${String(pieces.length).padStart(10)}${ms(Math.max(...pieces))}`,
    )
  }
  await browser.close()
}
