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

const drawing = (name: string, card: string) => ({
  name,
  mimeType: 'image/svg+xml',
  buffer: Buffer.from(
    `<svg xmlns="http://www.w3.org/2000/svg" width="600" height="840"><rect width="600" height="840" fill="#6b675e"/><rect x="60" y="60" width="480" height="720" fill="#e9dfc6"/><rect x="96" y="96" width="408" height="560" fill="${card}"/><circle cx="300" cy="330" r="110" fill="#d9b48a"/><path d="M130 656c20-180 320-180 340 0z" fill="#8a3f2f"/><path d="M150 718h300" stroke="#3a3324" stroke-width="26"/></svg>`,
  ),
})

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
    'desk-compare',
    1280,
    'verdict',
    async (page) => {
      const files = page.locator('input[type="file"]')
      await files.nth(0).setInputFiles(drawing('exemplar.svg', '#557a82'))
      await files.nth(1).setInputFiles(drawing('questioned.svg', '#6d7a76'))
      await page.getByRole('button', { name: /^Place on the exemplar/ }).press('ArrowUp')
      await page.getByLabel('four corners').nth(1).check()
      await page.getByRole('button', { name: 'Compare', exact: true }).click()
    },
  ],
  [
    'desk-compare',
    400,
    'border',
    async (page) => {
      await page.getByLabel('What to compare').selectOption('border-width')
      await page.getByLabel('Size of the card').selectOption('other')
      await page.getByLabel('Width, mm', { exact: true }).fill('6')
      await page.locator('input[type="file"]').nth(0).setInputFiles(drawing('exemplar.svg', '#557a82'))
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
    (page) =>
      page
        .locator('input[type="file"]')
        .setInputFiles({ name: 'sales.csv', mimeType: 'text/csv', buffer: Buffer.from('x') }),
  ],
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

const PANEL = ['listing', 'clean', 'unseen', 'progress', 'reading', 'none', 'forbidden', 'failed', 'results']

const DESK = [
  'desk-dossiers',
  'desk-dossier',
  'desk-empty',
  'desk-compare',
  'desk-sales',
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
    await page.goto(`http://127.0.0.1:${port}/tests/ui-gallery/index.html?state=${state}&lang=${lang}&theme=${theme}`)
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
