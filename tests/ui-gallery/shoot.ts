/**
 * Pictures of every state, and axe-core over each: `npx tsx tests/ui-gallery/shoot.ts OUT_DIR [STATE…]`.
 * Exits 1 when axe-core finds a violation or a page throws. Needs Chromium (`CHROMIUM` names another binary).
 */
import { mkdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import preact from '@preact/preset-vite'
import { chromium, type Page } from 'playwright-core'
import { createServer } from 'vite'

interface Shot {
  readonly state: string
  readonly width: number
  readonly theme: 'light' | 'dark'
  readonly lang: 'en' | 'de'
  /** What a person did first, and what the picture is called after. */
  readonly act?: readonly [name: string, act: (page: Page) => Promise<void>]
}

/** Of many concerns only the strong ones stand open. */
async function openConcern(page: Page, title: string): Promise<void> {
  const more = page.locator('.concern', { hasText: title }).locator('details.concern-more:not([open]) > summary')
  if ((await more.count()) > 0) await more.first().click()
}

/** Forms that are open, answers that came, explanations that hang over the page. */
const ACTS: readonly (readonly [state: string, width: number, name: string, act: (page: Page) => Promise<void>])[] = [
  ['listing', 400, 'source', (page) => page.getByRole('button', { name: 'ZWY' }).first().focus()],
  ['listing', 320, 'source', (page) => page.getByRole('button', { name: '€610.00' }).focus()],
  [
    'listing',
    400,
    'settling',
    async (page) => {
      await openConcern(page, 'Screw-down holder')
      await page.getByRole('button', { name: 'Settle it: Screw-down holder' }).click()
      await page.getByLabel('Why is this settled?').fill('seller sent photos out of the holder')
    },
  ],
  [
    'listing',
    400,
    'settled',
    async (page) => {
      await openConcern(page, 'Screw-down holder')
      await page.getByRole('button', { name: 'Settle it: Screw-down holder' }).click()
      await page.getByLabel('Why is this settled?').fill('seller sent photos out of the holder')
      await page.keyboard.press('Enter')
    },
  ],
  [
    'listing',
    320,
    'teaching',
    async (page) => {
      await page.getByRole('button', { name: 'With conditions' }).click()
      await page.getByRole('button', { name: /list of risky ones/ }).click()
    },
  ],
  [
    'desk-exemplar',
    1280,
    'point',
    async (page) => {
      await page.getByRole('button', { name: /^2 Sails/ }).click()
      await page.getByRole('button', { name: 'Another kind' }).click()
    },
  ],
  [
    'photos-done',
    400,
    'corners',
    async (page) => {
      await page.getByRole('button', { name: 'corners on photo 1' }).first().click()
      await page.getByRole('button', { name: /top left/ }).focus()
    },
  ],
  ['desk-exemplar', 1280, 'outline', (page) => page.getByRole('button', { name: 'Outline' }).click()],
  ['desk-exemplar', 1280, 'ruler', (page) => page.getByRole('button', { name: 'Ruler' }).click()],
  ['desk-table', 1280, 'point', (page) => page.getByRole('button', { name: /Sails/ }).click()],
  [
    'desk-table',
    1280,
    'wipe',
    async (page) => {
      await page.getByRole('button', { name: 'Wipe' }).click()
      await page.getByRole('button', { name: 'Loupe' }).click()
    },
  ],
  [
    'desk-table',
    400,
    'colour',
    async (page) => {
      await page.getByRole('button', { name: 'Colour' }).click()
      await page.getByRole('button', { name: 'Grid' }).click()
    },
  ],
  [
    'desk-table',
    1280,
    'edge',
    async (page) => {
      await page.getByRole('button', { name: 'Edge', exact: true }).click()
      const box = (await page.locator('.plate-glass').first().boundingBox())!
      await page.mouse.move(box.x + box.width * 0.1, box.y + box.height * 0.5)
      await page.mouse.down()
      await page.mouse.move(box.x + box.width * 0.3, box.y + box.height * 0.5, { steps: 5 })
      await page.mouse.up()
    },
  ],
  ['listing', 400, 'enlarged', (page) => page.getByRole('button', { name: 'Enlarge photo 1' }).first().click()],
  [
    'listing',
    400,
    'real-pixels',
    async (page) => {
      await page.getByRole('button', { name: 'Enlarge photo 1' }).first().click()
      await page.getByRole('button', { name: 'Pixel for pixel' }).click()
    },
  ],
  ['desk-dossier', 1280, 'enlarged', (page) => page.getByRole('button', { name: 'Enlarge photo 2' }).last().click()],
  [
    'desk-sales',
    1280,
    'checked',
    async (page) => {
      await page.getByRole('button', { name: 'From a CSV file' }).click()
      await page
        .locator('input[type="file"]')
        .setInputFiles({ name: 'sales.csv', mimeType: 'text/csv', buffer: Buffer.from('x') })
      await page.getByLabel('which comes first').selectOption('day-first')
      await page.getByRole('button', { name: 'Check every row' }).click()
    },
  ],
  ['desk-sales', 1280, 'opened', (page) => page.locator('.ledger-row').nth(3).click()],
  ['desk-value', 1280, 'time', (page) => page.getByRole('button', { name: 'Over time' }).click()],
  ['desk-graders', 1280, 'editing', (page) => page.getByRole('button', { name: 'Edit: Old Lantern Quorum' }).click()],
  ['desk-rules', 1280, 'editing', (page) => page.getByRole('button', { name: /^Edit: Smoke-free/ }).click()],
  ['desk-rules', 320, 'editing', (page) => page.getByRole('button', { name: /^Edit: Smoke-free/ }).click()],
  [
    'desk-rules',
    1280,
    'new',
    async (page) => {
      await page.getByRole('button', { name: 'Write a rule' }).click()
      await page.getByRole('button', { name: 'A fact' }).click()
      await page.getByRole('button', { name: 'Several together' }).click()
      await page.getByRole('button', { name: 'Save the rule' }).click()
    },
  ],
  ['desk-dossier', 1600, 'deleted', (page) => page.getByRole('button', { name: 'Delete', exact: true }).click()],
  ['desk-dossier', 1600, 'open', async () => {}],
  ['setup', 1280, 'done', (page) => page.getByRole('button', { name: 'Done' }).click()],
]

const PANEL = [
  'listing',
  'clean',
  'unseen',
  'progress',
  'photos-working',
  'photos-done',
  'reading',
  'none',
  'none-remembered',
  'record',
  'forbidden',
  'failed',
  'results',
]

const DESK = [
  'desk-dossiers',
  'desk-dossier',
  'desk-empty',
  'desk-exemplars',
  'desk-exemplars-empty',
  'desk-exemplar',
  'desk-light-table',
  'desk-alone',
  'desk-table',
  'desk-blind',
  'desk-sales',
  'desk-value',
  'desk-wants',
  'desk-graders',
  'desk-risky-issues',
  'desk-rules',
  'desk-outcomes',
  'desk-no-outcomes',
  'desk-settings',
  'setup',
]

const shots: Shot[] = [
  ...ACTS.map(([state, width, ...act]): Shot => ({ state, width, theme: 'light', lang: 'en', act })),
  ...DESK.map((state): Shot => ({ state, width: 1280, theme: 'light', lang: 'en' })),
  ...DESK.map((state): Shot => ({ state, width: 1280, theme: 'dark', lang: 'en' })),
  ...DESK.map((state): Shot => ({ state, width: 320, theme: 'light', lang: 'de' })),
  ...DESK.map((state): Shot => ({ state, width: 320, theme: 'dark', lang: 'de' })),
  ...PANEL.map((state): Shot => ({ state, width: 400, theme: 'light', lang: 'en' })),
  ...PANEL.map((state): Shot => ({ state, width: 320, theme: 'dark', lang: 'de' })),
]

const [out = 'demo-out/gallery', ...only] = process.argv.slice(2)
mkdirSync(out, { recursive: true })
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const root = join(import.meta.dirname, '../..')
const server = await createServer({
  configFile: false,
  root,
  logLevel: 'error',
  plugins: [preact()],
  cacheDir: join(root, 'node_modules/.cache/ui-gallery'),
  server: { host: '127.0.0.1', port: 0, hmr: false, watch: null },
})
await server.listen()
const address = server.httpServer!.address()
const port = typeof address === 'object' && address !== null ? address.port : 0
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
})
let faults = 0
try {
  for (const { state, width, theme, lang, act } of shots) {
    if (only.length > 0 && !only.includes(state)) continue
    const page = await browser.newPage({ viewport: { width, height: width < 700 ? 800 : 900 } })
    page.setDefaultTimeout(5_000)
    page.on('pageerror', (error) => {
      faults += 1
      console.error(`${state}: ${error.message}`)
    })
    await page.goto(`http://127.0.0.1:${port}/tests/ui-gallery/index.html?state=${state}&lang=${lang}&theme=${theme}`, {
      timeout: 30_000,
    })
    await page.waitForSelector('main', { timeout: 20_000 })
    await page.evaluate(() => document.fonts.ready)
    // Pictures inside come from promises, and what is seen late is seen after 150 ms.
    await page.waitForTimeout(250)
    if (act !== undefined) {
      // An act that cannot be done is a fault of that picture; the others are still taken.
      await act[1](page).catch((error: Error) => {
        faults += 1
        console.error(`${state}, ${act[0]}: ${error.message}`)
      })
      await page.waitForTimeout(250)
    }
    const name = [state, act?.[0], width, theme, lang].filter(Boolean).join('-')
    // What lies over the page is as large as the window.
    const covered = (await page.locator('dialog[open]').count()) > 0
    await page.screenshot({ path: join(out, `${name}.png`), fullPage: !covered })
    const tooWide = await page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth)
    if (tooWide) {
      faults += 1
      console.error(`${name}: scrolls sideways`)
    }
    await page.evaluate(axeSource)
    const violations = await page.evaluate(async () => {
      interface Violation {
        readonly id: string
        readonly help: string
        readonly nodes: readonly { readonly html: string; readonly any: readonly { readonly message: string }[] }[]
      }
      interface Axe {
        run(root: Document, options: object): Promise<{ readonly violations: readonly Violation[] }>
      }
      const { axe } = window as unknown as { axe: Axe }
      const result = await axe.run(document, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      })
      return result.violations.flatMap(({ id, help, nodes }) =>
        nodes.slice(0, 3).map(({ html, any }) => `${id}: ${html.slice(0, 200)} – ${any[0]?.message ?? help}`),
      )
    })
    for (const violation of violations) {
      faults += 1
      console.error(`${name}: ${violation}`)
    }
    await page.close()
  }
} finally {
  await browser.close()
  await server.close()
}
console.log(`${faults} faults`)
process.exit(faults === 0 ? 0 : 1)
