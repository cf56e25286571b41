/**
 * Gives the extension what the demo's buyer knows: grader book, risky issues, sales and settings. Written straight into the
 * extension's database from one of its own pages, since nobody wants to type it in for a demonstration.
 */
import { readFileSync } from 'node:fs'
import type { Page } from 'puppeteer-core'
import { parseSalesCsv } from '../domain/pricing/parse-sales-csv.ts'
import type { Settings } from '../domain/settings.ts'
import type { StartedBrowser } from './browsers.ts'
import { DEMO_GRADERS, DEMO_RISKY_ISSUES, DEMO_SETTINGS } from './expected/demo-book.ts'

const SEEDED_AT = '2026-11-20T18:00:00.000Z'

function asRecords<Item extends object>(store: string, items: readonly Item[]) {
  return items.map((item, index) => ({
    id: `demo-${store}-${index}`,
    ...item,
    revision: 1,
    createdAt: SEEDED_AT,
    updatedAt: SEEDED_AT,
    deletedAt: null,
  }))
}

export async function seedBook(started: StartedBrowser, settings: Partial<Settings> = {}): Promise<void> {
  const { sales } = parseSalesCsv(readFileSync(new URL('sales.csv', import.meta.url), 'utf8'))
  const records = {
    graders: asRecords('graders', DEMO_GRADERS),
    riskyIssues: asRecords('riskyIssues', DEMO_RISKY_ISSUES),
    sales: asRecords('sales', sales),
  }
  // Any page of the extension that opens the database will do.
  const page = await started.openExtensionPage('panel/index.html')
  try {
    await writeRecords(page, records, { ...DEMO_SETTINGS, ...settings })
  } finally {
    await page.close()
  }
  // The buyer of the demo answered the first-start questions long ago.
  const firstStart = started.extensionUrl('setup/')
  for (const open of await started.browser.pages()) if (open.url().startsWith(firstStart)) await open.close()
}

async function writeRecords(page: Page, records: Record<string, readonly object[]>, settings: Settings): Promise<void> {
  await page.waitForFunction(
    'indexedDB.databases().then((all) => all.some(({ name, version }) => name === "touchstone" && version > 0))',
    // A tab behind another one draws no frames, so it must not wait for one.
    { polling: 100 },
  )
  await page.evaluate(
    (stores: string, chosen: string) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('touchstone')
        opening.onerror = () => reject(opening.error)
        opening.onsuccess = () => {
          const database = opening.result
          const content = JSON.parse(stores) as Record<string, object[]>
          const transaction = database.transaction([...Object.keys(content), 'settings'], 'readwrite')
          for (const [store, items] of Object.entries(content)) {
            for (const item of items) transaction.objectStore(store).put(item)
          }
          transaction.objectStore('settings').put(JSON.parse(chosen), 'settings')
          transaction.oncomplete = () => {
            database.close()
            resolve()
          }
          transaction.onerror = () => reject(transaction.error)
        }
      }),
    JSON.stringify(records),
    JSON.stringify(settings),
  )
}
