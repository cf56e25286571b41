/**
 * The ledger of sales at 5,000, 50,000 and 500,000 sales, in a real Chromium's IndexedDB: finding and valuing one claim cold (a window
 * just opened) and warm, adding 200 sales, listing and searching, and a CSV file of 100,000 lines. Medians over several cards.
 * Run: `npm run bench -- ledger`; `LEDGER_SIZES=5000,50000` names other sizes.
 */
import { existsSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { resolve } from 'node:path'
import { chromium } from 'playwright-core'
import { build } from 'vite'

const SIZES = (process.env.LEDGER_SIZES ?? '5000,50000,500000').split(',').map(Number)
const CHROMIUM = [process.env.CHROMIUM, process.env.CHROMIUM_PATH, '/usr/bin/chromium', '/usr/bin/google-chrome'].find(
  (path) => path && existsSync(path),
)
if (!CHROMIUM) throw new Error('no Chromium was found; CHROMIUM names one')

const entry = resolve(import.meta.dirname, 'scenes/ledger-page.ts')
const built = await build({
  configFile: false,
  logLevel: 'error',
  build: { write: false, minify: true, lib: { entry, formats: ['iife'], name: 'ledgerBench' } },
})
const output = (Array.isArray(built) ? built[0] : built) as { output: { code?: string }[] }
const code = output.output[0]!.code!

const browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] })
console.log(
  `Chromium ${browser.version()}, ms of wall time; load of the machine before: ${loadavg()[0]!.toFixed(1)} on ${cpus().length} processors`,
)
const columns = ['fill (s)', 'cold', 'warm', 'matched', 'add 200', 'list', 'search', 'CSV 100k (s)', 'peak MB']
console.log(`${'sales'.padEnd(10)}${columns.map((name) => name.padStart(14)).join('')}`)
for (const size of SIZES) {
  const context = await browser.newContext()
  await context.route('http://localhost/*', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<!doctype html>' }),
  )
  const open = async () => {
    const page = await context.newPage()
    await page.goto('http://localhost/')
    await page.evaluate(`${code};window.bench = ledgerBench; 1`)
    return page
  }
  const median = (times: number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!
  const filler = await open()
  const filled = (await filler.evaluate(`bench.fill(${size})`)) as number
  await filler.close()
  const cold: number[] = []
  const warm: number[] = []
  let matched = 0
  for (let card = 0; card < 7; card++) {
    const page = await open()
    const seen = (await page.evaluate(`bench.valueOne(${size}, ${card})`)) as {
      cold: number
      warm: number
      matched: number
    }
    cold.push(seen.cold)
    warm.push(seen.warm)
    matched = Math.max(matched, seen.matched)
    await page.close()
  }
  const page = await open()
  const rest = (await page.evaluate(`bench.measureRest(${size})`)) as Record<string, number>
  const cells = [
    (filled / 1000).toFixed(1),
    `${median(cold).toFixed(0)} (${Math.max(...cold).toFixed(0)})`,
    `${median(warm).toFixed(0)} (${Math.max(...warm).toFixed(0)})`,
    String(matched),
    rest.add!.toFixed(0),
    rest.list!.toFixed(0),
    rest.search!.toFixed(0),
    (rest.csv! / 1000).toFixed(1),
    rest.peak!.toFixed(0),
  ]
  console.log(`${String(size).padEnd(10)}${cells.map((cell) => cell.padStart(14)).join('')}`)
  await context.close()
}
console.log('cold, warm: median over seven cards (slowest in brackets); matched: the most sales of one of them.')
await browser.close()
