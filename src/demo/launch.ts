/**
 * `npm run demo`: builds, finds a browser, serves the fictional market on a free port of this machine and opens a listing with
 * the extension loaded and the panel open. Without a display it goes through the main job by itself and writes pictures.
 */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import {
  copyExtension,
  createProfile,
  type Family,
  findBrowser,
  type InstalledBrowser,
  installBrowser,
  startBrowser,
} from './browsers.ts'
import { buildDemoExemplar, DEMO_EXEMPLAR_IDS } from './market/exemplars.ts'
import { findListing } from './market/market-data.ts'
import { seedBook } from './seed-book.ts'
import { serveSavedPage } from './serve-saved-page.ts'
import { startMarket } from './server.ts'
import { walkThrough } from './walk-through.ts'

const ROOT = resolve(import.meta.dirname, '../..')
const OUT = join(ROOT, 'demo-out')
/** The one with the most to say. */
const FIRST_LISTING = 'q01'

const FAMILIES: readonly Family[] = ['chromium', 'firefox']

const HELP = `npm run demo [-- OPTIONS]
  --page FILE           show a saved page instead of the fictional market
  --photos DIR          photos of that page, matched by file name
  --browser NAME        chromium or firefox; left out: whichever is found first
  --headless            go through the main job without a window, as where there is no display`

class BadInput extends Error {}

interface Destination {
  readonly url: string
  readonly resultsUrl: string | null
  close(): Promise<void>
}

async function main(): Promise<void> {
  const options = readOptions()
  if (options.help) return console.log(HELP)
  const browser = chooseBrowser(options.browser)
  const headless = options.headless || !hasDisplay()
  build(browser.family)
  const destination = options.page === null ? await openMarket() : await openSaved(options.page, options.photos)
  const extension = copyExtension(join(ROOT, 'dist', browser.family))
  const profile = createProfile()
  try {
    const started = await startBrowser(browser, {
      extension,
      profile,
      headless,
      // Nobody is there to answer the browser's question; and a saved page must not call home.
      isolated: headless,
      permitted: headless || browser.family === 'firefox' ? ['http://127.0.0.1/*'] : [],
      width: 1440,
      height: 940,
    })
    await seedBook(started)
    rmSync(OUT, { recursive: true, force: true })
    await writeExemplars()
    if (headless) {
      console.log(`no display: going through the main job in ${browser.path}; pictures in demo-out/`)
      await walkThrough(started, { ...destination, folder: OUT })
      await started.close()
      return
    }
    const page = await started.browser.newPage()
    await page.goto(destination.url)
    await started.openPanel(page)
    console.log(`open in ${browser.path}: ${destination.url}`)
    console.log(
      'Close the browser to end. On any other page, press the Touchstone button of the toolbar, or Alt+Shift+T.',
    )
    await new Promise<void>((done) => started.browser.once('disconnected', () => done()))
  } finally {
    await destination.close()
    for (const path of [extension, profile]) rmSync(path, { recursive: true, force: true, maxRetries: 5 })
  }
}

/** Two known-genuine pieces as the files that a friend would send: brought in on the desk, at Exemplars. */
async function writeExemplars(): Promise<void> {
  mkdirSync(OUT, { recursive: true })
  for (const id of DEMO_EXEMPLAR_IDS) writeFileSync(join(OUT, `${id}.zip`), await buildDemoExemplar(id))
  console.log(
    `two exemplars to bring in on the desk: ${DEMO_EXEMPLAR_IDS.map((id) => `demo-out/${id}.zip`).join(', ')}`,
  )
}

function readOptions() {
  try {
    const { values } = parseArgs({
      options: {
        page: { type: 'string' },
        photos: { type: 'string' },
        browser: { type: 'string' },
        headless: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    })
    const { page = null, photos = null, headless, help } = values
    const browser = FAMILIES.find((family) => family === values.browser) ?? null
    if (values.browser !== undefined && browser === null) {
      throw new BadInput(`--browser takes chromium or firefox, not "${values.browser}"`)
    }
    if (photos !== null && page === null) throw new BadInput('--photos needs --page')
    if (page !== null && !existsSync(page)) throw new BadInput(`--page: there is no file ${page}`)
    if (photos !== null && !statSync(photos, { throwIfNoEntry: false })?.isDirectory()) {
      throw new BadInput(`--photos: there is no folder ${photos}`)
    }
    return { page, photos, browser, headless, help }
  } catch (error) {
    throw error instanceof BadInput ? error : new BadInput((error as Error).message)
  }
}

function chooseBrowser(wanted: Family | null): InstalledBrowser {
  const families = wanted === null ? FAMILIES : [wanted]
  for (const family of families) {
    const found = findBrowser(family)
    if (found !== null) return found
  }
  const installed = installBrowser(families[0]!)
  if (installed !== null) return installed
  throw new BadInput(
    'no browser was found: install Chromium, Chrome, Edge or Firefox (on Debian or Ubuntu: apt-get install chromium)',
  )
}

function hasDisplay(): boolean {
  return process.platform !== 'linux' || Boolean(process.env.DISPLAY || process.env.WAYLAND_DISPLAY)
}

function build(family: Family): void {
  console.log('building …')
  const vite = join(ROOT, 'node_modules/vite/bin/vite.js')
  const run = spawnSync(process.execPath, [vite, 'build', '--mode', family, '--logLevel', 'error'], {
    cwd: ROOT,
    encoding: 'utf8',
  })
  if (run.status !== 0) throw new Error(`the build failed:\n${run.stdout}${run.stderr}`)
}

async function openMarket(): Promise<Destination> {
  const market = await startMarket()
  const { market: name, path } = findListing(FIRST_LISTING)
  const { quayside } = market.origins
  return { url: market.origins[name] + path, resultsUrl: `${quayside}/find?q=skerryball`, close: market.close }
}

async function openSaved(page: string, photos: string | null): Promise<Destination> {
  const served = await serveSavedPage(page, photos)
  const { unnamedPhotos } = served
  if (unnamedPhotos.length > 0) console.log(`the page names no photo called ${unnamedPhotos.join(', ')}`)
  return { url: served.url, resultsUrl: null, close: served.close }
}

try {
  await main()
} catch (error) {
  if (error instanceof BadInput) {
    console.error(error.message)
    process.exit(2)
  }
  throw error
}
