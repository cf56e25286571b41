/** One browser with the built extension, one fictional market, and the ways of a person between them. */
import { rmSync } from 'node:fs'
import { join, resolve } from 'node:path'
import type { Page } from 'puppeteer-core'
import {
  copyExtension,
  createProfile,
  type Family,
  findBrowser,
  type StartedBrowser,
  startBrowser,
} from '../../../src/demo/browsers.ts'
import { findListing } from '../../../src/demo/market/market-data.ts'
import { seedBook } from '../../../src/demo/seed-book.ts'
import { type RunningMarket, startMarket } from '../../../src/demo/server.ts'
import type { Settings } from '../../../src/domain/settings.ts'

const DIST = resolve(import.meta.dirname, '../../../dist')

/** What `run.ts` found; alone, a test file tries both. */
export const FAMILIES = (process.env.TOUCHSTONE_E2E_BROWSERS ?? 'chromium,firefox').split(',') as Family[]

export interface World {
  readonly family: Family
  /** Whether the photos' hosts may be read. */
  readonly permitted: boolean
  readonly market: RunningMarket
  /** Changes with `restart`. */
  readonly started: StartedBrowser
  openListing(id: string): Promise<Page>
  /** The panel beside `page`, once it shows what it read. */
  openPanel(page: Page): Promise<Page>
  /** The same profile in a new browser, as after a night. */
  restart(): Promise<void>
  close(): Promise<void>
}

export interface WorldOptions {
  readonly family: Family
  readonly language?: string
  /**
   * The market's hosts are permitted already, as on a site that the buyer has switched on. Always so in Firefox, where no test
   * can press the toolbar button that permits one page.
   */
  readonly permitted?: boolean
  readonly settings?: Partial<Settings>
}

export async function openWorld({ family, language, permitted = false, settings }: WorldOptions): Promise<World> {
  const installed = findBrowser(family)
  if (installed === null) throw new Error(`${family} is not installed`)
  const market = await startMarket()
  const profile = createProfile()
  const extension = copyExtension(join(DIST, family))
  const mayReadPhotos = permitted || family === 'firefox'
  const start = () =>
    startBrowser(installed, {
      extension,
      headless: true,
      isolated: true,
      profile,
      language,
      permitted: mayReadPhotos ? ['http://127.0.0.1/*'] : [],
    })
  let started = await start()
  const titles = new WeakMap<Page, string>()
  await seedBook(started, settings)

  return {
    family,
    permitted: mayReadPhotos,
    market,
    get started() {
      return started
    },
    async openListing(id) {
      const { market: name, path, title } = findListing(id)
      const page = await started.browser.newPage()
      titles.set(page, title)
      // Its photos are drawn while we wait; its words are there before.
      await page.goto(market.origins[name] + path, { waitUntil: 'domcontentloaded' })
      return page
    },
    async openPanel(page) {
      const panel = await started.openPanel(page)
      await waitForPhase(panel)
      // A panel that was open already still shows the page before, for a moment.
      const title = titles.get(page)
      if (title !== undefined) {
        await panel.waitForFunction(
          `document.querySelector('.panel-main').textContent.includes(${JSON.stringify(title)})`,
          { timeout: 20_000, polling: 100 },
        )
      }
      return panel
    },
    async restart() {
      await started.close()
      started = await start()
    },
    async close() {
      await started.close()
      await market.close()
      for (const path of [profile, extension]) rmSync(path, { recursive: true, force: true, maxRetries: 5 })
    },
  }
}

/** The panel has read the page and says what came of it. */
export async function waitForPhase(panel: Page): Promise<void> {
  await panel.waitForFunction('document.querySelector(".panel-main")?.getAttribute("aria-busy") === "false"', {
    timeout: 20_000,
    polling: 100,
  })
}

/** The words as a person sees them. */
export async function wordsOf(page: Page, selector = 'body'): Promise<string> {
  return (await page.evaluate(`document.querySelector(${JSON.stringify(selector)})?.innerText ?? ''`)) as string
}

/** Ids of the rules whose concerns the panel shows as open. */
export async function openConcerns(panel: Page): Promise<string[]> {
  return (await panel.evaluate(
    '[...document.querySelectorAll(".concern-list [data-rule]")].map((item) => item.dataset.rule).sort()',
  )) as string[]
}

/** The words that are highlighted on a page. */
export async function highlightedWords(page: Page): Promise<string[]> {
  return (await page.evaluate(
    '[...(CSS.highlights.get("touchstone-evidence") ?? [])].map((range) => range.toString().replace(/\\s+/g, " "))',
  )) as string[]
}

/** All of a page's own nodes and attributes, ours left out. */
export async function ownMarkup(page: Page): Promise<string> {
  return (await page.evaluate(`(() => {
    const copy = document.documentElement.cloneNode(true)
    for (const layer of copy.querySelectorAll('touchstone-layer')) layer.remove()
    return copy.outerHTML
  })()`)) as string
}

/** Presses the one control of that name, as a person or a screen reader would find it. */
export async function press(page: Page, name: string): Promise<void> {
  const control = await page.waitForSelector(`aria/${name}`, { timeout: 10_000 })
  if (control === null) throw new Error(`nothing is called ${name}`)
  await control.click()
}
