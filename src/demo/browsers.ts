/**
 * Finds an installed browser, or on Debian and Ubuntu installs one when asked to, and starts it with the extension loaded in a
 * profile of its own. Used by the demonstration and by the end-to-end tests; never touches the person's own profile.
 */
import { spawnSync } from 'node:child_process'
import { accessSync, constants, cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import puppeteer, { type Browser, type Page } from 'puppeteer-core'
import { FIREFOX_ID } from '../../manifest.config.ts'

export type Family = 'chromium' | 'firefox'

export interface InstalledBrowser {
  readonly family: Family
  readonly path: string
}

/** Overrides the search, for a browser in an unusual place. */
const VARIABLES: Record<Family, string> = { chromium: 'TOUCHSTONE_CHROMIUM', firefox: 'TOUCHSTONE_FIREFOX' }

const COMMANDS: Record<Family, readonly string[]> = {
  chromium: [
    'chromium',
    'chromium-browser',
    'google-chrome',
    'google-chrome-stable',
    'microsoft-edge',
    'microsoft-edge-stable',
  ],
  firefox: ['firefox', 'firefox-esr'],
}

const PLACES: Partial<Record<NodeJS.Platform, Record<Family, readonly string[]>>> = {
  darwin: {
    chromium: [
      '/Applications/Chromium.app/Contents/MacOS/Chromium',
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
      '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    ],
    firefox: ['/Applications/Firefox.app/Contents/MacOS/firefox'],
  },
  win32: {
    chromium: ['Google\\Chrome\\Application\\chrome.exe', 'Microsoft\\Edge\\Application\\msedge.exe'].flatMap(
      underProgramFiles,
    ),
    firefox: underProgramFiles('Mozilla Firefox\\firefox.exe'),
  },
}

function underProgramFiles(path: string): string[] {
  const { ProgramFiles, 'ProgramFiles(x86)': x86, LOCALAPPDATA } = process.env
  return [ProgramFiles, x86, LOCALAPPDATA].filter((folder) => folder !== undefined).map((folder) => join(folder, path))
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}

export function findBrowser(family: Family): InstalledBrowser | null {
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean)
  const candidates = [
    process.env[VARIABLES[family]],
    ...COMMANDS[family].flatMap((command) => folders.map((folder) => join(folder, command))),
    ...(PLACES[process.platform]?.[family] ?? []),
  ]
  const path = candidates.find((candidate) => candidate !== undefined && isExecutable(candidate))
  return path === undefined ? null : { family, path }
}

const DEBIAN_PACKAGES: Record<Family, string> = { chromium: 'chromium', firefox: 'firefox-esr' }

export function mayInstall(): boolean {
  return process.getuid?.() === 0 && existsSync('/etc/debian_version')
}

/** Installs Debian's own package. `null` when this is no Debian, nobody is root, or the installation fails. */
export function installBrowser(family: Family): InstalledBrowser | null {
  if (!mayInstall()) return null
  const name = DEBIAN_PACKAGES[family]
  console.log(`installing ${name} with apt-get …`)
  const options = {
    stdio: ['ignore', 'ignore', 'inherit'] as ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  }
  // A fresh image has no package lists, or old ones that name files which are gone.
  const steps = [
    ['update', '-qq'],
    ['install', '-y', '-qq', '--no-install-recommends', name],
  ]
  for (const step of steps) spawnSync('apt-get', step, options)
  return findBrowser(family)
}

export interface StartOptions {
  /**
   * Folder of the extension. Chromium makes its id, and so its storage, of this path; where hosts are permitted beforehand its
   * manifest is changed for a moment, so it must be a copy of the built one.
   */
  readonly extension: string
  readonly headless: boolean
  /** Kept between two starts when given; otherwise a fresh one that goes with the browser. */
  readonly profile?: string
  /** BCP 47 tag of the browser's interface. */
  readonly language?: string
  /** Match patterns of hosts that the extension may read from the start, since nobody can press the browser's own question. */
  readonly permitted?: readonly string[]
  /** Reaches no other machine, whatever a page names. */
  readonly isolated?: boolean
  readonly width?: number
  readonly height?: number
}

export interface StartedBrowser {
  readonly family: Family
  readonly browser: Browser
  /** Address of one of the extension's own pages. */
  extensionUrl(path: string): string
  openExtensionPage(path: string): Promise<Page>
  /** Presses the toolbar button on `page` and waits for the panel; where a browser lets nobody reach it, its page in a tab. */
  openPanel(page: Page): Promise<Page>
  close(): Promise<void>
}

/** A slow machine takes a while to draw a first page. */
const PANEL_TIMEOUT_MS = 20_000

export function createProfile(): string {
  return mkdtempSync(join(tmpdir(), 'touchstone-profile-'))
}

export async function startBrowser(installed: InstalledBrowser, options: StartOptions): Promise<StartedBrowser> {
  const profile = options.profile ?? createProfile()
  const { permitted = [] } = options
  if (installed.family === 'chromium' && permitted.length > 0) {
    await permitInChromium(installed.path, profile, options, permitted)
  }
  const started =
    installed.family === 'chromium'
      ? await startChromium(installed.path, profile, options)
      : await startFirefox(installed.path, profile, options)
  if (installed.family === 'firefox' && permitted.length > 0) await permitInFirefox(started, permitted)
  return {
    ...started,
    async close() {
      await started.browser.close()
      if (options.profile === undefined) rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
    },
  }
}

/** A copy of the built extension that may be changed, in a folder of its own. */
export function copyExtension(built: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'touchstone-extension-'))
  cpSync(built, folder, { recursive: true })
  return folder
}

/** A host that an older manifest of the same extension asked for stays permitted when the newer one makes it optional. */
async function permitInChromium(
  path: string,
  profile: string,
  options: StartOptions,
  permitted: readonly string[],
): Promise<void> {
  const file = join(options.extension, 'manifest.json')
  const manifest = readFileSync(file, 'utf8')
  writeFileSync(file, JSON.stringify({ ...JSON.parse(manifest), host_permissions: permitted }))
  try {
    // Only an extension from the command line leaves its permissions behind in the profile.
    const browser = await launchChromium(path, profile, { ...options, headless: true }, [
      `--load-extension=${options.extension}`,
      `--disable-extensions-except=${options.extension}`,
    ])
    await browser.waitForTarget((target) => target.type() === 'service_worker', { timeout: PANEL_TIMEOUT_MS })
    await browser.close()
  } finally {
    writeFileSync(file, manifest)
  }
}

/** Firefox is told to ask nobody, but wants a real press all the same. */
async function permitInFirefox(started: Started, permitted: readonly string[]): Promise<void> {
  const page = await started.openExtensionPage('panel/index.html')
  await page.evaluate(`
    const button = document.createElement('button')
    button.id = 'permit'
    button.textContent = 'permit'
    button.style = 'position: fixed; inset: 0; z-index: 9'
    button.onclick = () => {
      globalThis.permitted = browser.permissions.request({ origins: ${JSON.stringify(permitted)} })
    }
    document.body.append(button)
  `)
  await page.click('#permit')
  const granted = await page.evaluate('globalThis.permitted')
  await page.close()
  if (granted !== true) throw new Error('Firefox did not permit the hosts')
}

type Started = Omit<StartedBrowser, 'close'>

function launchChromium(path: string, profile: string, options: StartOptions, more: string[] = []): Promise<Browser> {
  const { headless, language, isolated = false, width = 1360, height = 900 } = options
  return puppeteer.launch({
    executablePath: path,
    headless,
    pipe: true,
    enableExtensions: true,
    userDataDir: profile,
    defaultViewport: null,
    args: [
      '--no-first-run',
      '--no-default-browser-check',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--disable-search-engine-choice-screen',
      '--password-store=basic',
      `--window-size=${width},${height}`,
      ...(language ? [`--lang=${language}`, `--accept-lang=${language}`] : []),
      ...(isolated ? ['--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'] : []),
      // Chromium's sandbox refuses root, which is what a fresh container has.
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      ...(headless ? ['--disable-gpu', '--force-color-profile=srgb'] : []),
      ...more,
    ],
    env: { ...process.env, ...(language ? { LANGUAGE: language } : {}) },
  })
}

async function startChromium(path: string, profile: string, options: StartOptions): Promise<Started> {
  const browser = await launchChromium(path, profile, options)
  const id = await browser.installExtension(options.extension)
  const extensionUrl = (page: string) => `chrome-extension://${id}/${page}`
  // A button pressed before the worker listens is a press that nobody heard.
  await browser.waitForTarget((t) => t.type() === 'service_worker' && t.url().startsWith(extensionUrl('')), {
    timeout: PANEL_TIMEOUT_MS,
  })
  return {
    family: 'chromium',
    browser,
    extensionUrl,
    async openExtensionPage(path) {
      const page = await browser.newPage()
      await page.goto(extensionUrl(path))
      return page
    },
    async openPanel(page) {
      const extension = (await browser.extensions()).get(id)
      if (extension === undefined) throw new Error('the extension is not loaded')
      await page.bringToFront()
      await page.triggerExtensionAction(extension)
      const target = await browser.waitForTarget((t) => t.url().startsWith(extensionUrl('panel/index.html')), {
        timeout: PANEL_TIMEOUT_MS,
      })
      return target.asPage()
    },
  }
}

/** Fixed for the profile, so that the extension's pages have an address that we know. */
const FIREFOX_UUID = '5d3f0b52-6a1e-4d5b-9a43-0c1d2e3f4a5b'

async function startFirefox(path: string, profile: string, options: StartOptions): Promise<Started> {
  const { headless, language, isolated = false, width = 1360, height = 900 } = options
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath: path,
    headless,
    userDataDir: profile,
    defaultViewport: null,
    args: ['--remote-allow-system-access', `--width=${width}`, `--height=${height}`],
    extraPrefsFirefox: {
      'extensions.webextensions.uuids': JSON.stringify({ [FIREFOX_ID]: FIREFOX_UUID }),
      'extensions.webextOptionalPermissionPrompts': false,
      // A proxy that is not there, for all but this machine.
      ...(isolated
        ? {
            'network.proxy.type': 1,
            'network.proxy.http': '127.0.0.1',
            'network.proxy.http_port': 9,
            'network.proxy.ssl': '127.0.0.1',
            'network.proxy.ssl_port': 9,
            'network.proxy.no_proxies_on': '127.0.0.1, localhost',
          }
        : {}),
      ...(language ? { 'intl.locale.requested': language, 'intl.accept_languages': language } : {}),
    },
  })
  await browser.installExtension(options.extension)
  const extensionUrl = (page: string) => `moz-extension://${FIREFOX_UUID}/${page}`
  async function openExtensionPage(path: string): Promise<Page> {
    const page = await browser.newPage()
    // Firefox never tells that such a page has loaded.
    await page.goto(extensionUrl(path), { waitUntil: [] })
    await page.waitForFunction('document.readyState === "complete"', { timeout: PANEL_TIMEOUT_MS, polling: 100 })
    return page
  }
  return {
    family: 'firefox',
    browser,
    extensionUrl,
    openExtensionPage,
    async openPanel(page) {
      // The sidebar itself is out of reach: its page stands in a tab, and is told which tab it stands beside.
      const panel = await openExtensionPage('panel/index.html')
      await page.bringToFront()
      const tabId = await panel.evaluate(
        'browser.tabs.query({ active: true, currentWindow: true }).then(([tab]) => tab.id)',
      )
      await panel.goto(extensionUrl(`panel/index.html?tab=${tabId}`), { waitUntil: [] })
      return panel
    },
  }
}
