/**
 * Pictures of every state, and axe-core over each: `npx tsx tests/ui-gallery/shoot.ts OUT_DIR [STATE…]`.
 * Exits 1 when axe-core finds a violation or a page throws. Needs Chromium (`CHROMIUM` names another binary).
 */
import { mkdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import preact from '@preact/preset-vite'
import { chromium } from 'playwright-core'
import { createServer } from 'vite'

interface Shot {
  readonly state: string
  readonly width: number
  readonly theme: 'light' | 'dark'
  readonly lang: 'en' | 'de'
}

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
  'desk-settings',
  'setup',
]

const shots: Shot[] = [
  ...DESK.map((state): Shot => ({ state, width: 1280, theme: 'light', lang: 'en' })),
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
  for (const { state, width, theme, lang } of shots) {
    if (only.length > 0 && !only.includes(state)) continue
    const page = await browser.newPage({ viewport: { width, height: width < 700 ? 800 : 900 } })
    page.on('pageerror', (error) => {
      faults += 1
      console.error(`${state}: ${error.message}`)
    })
    await page.goto(`http://127.0.0.1:${port}/tests/ui-gallery/index.html?state=${state}&lang=${lang}&theme=${theme}`)
    await page.waitForSelector('main', { timeout: 20_000 })
    await page.evaluate(() => document.fonts.ready)
    await page.waitForTimeout(250)
    const name = `${state}-${width}-${theme}-${lang}`
    await page.screenshot({ path: join(out, `${name}.png`), fullPage: true })
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
