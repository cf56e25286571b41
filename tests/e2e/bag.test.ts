/** An evidence bag made on the desk in a real browser, checked by others' programs; and a browser that is full. */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { bundleHarness } from './harness/bundle-harness.ts'
import { FAMILIES, openWorld, press, type World, wordsOf } from './harness/world.ts'

const run = (program: string, args: string[], cwd: string) => spawnSync(program, args, { cwd, encoding: 'utf8' })
const has = (program: string) => {
  const present = spawnSync(program, ['--help']).error === undefined
  if (!present) console.log(`left out: ${program} is not installed here`)
  return present
}
async function typePassphrase(page: Page): Promise<void> {
  const field = await page.waitForSelector('aria/Passphrase of the file (optional)', { timeout: 10_000 })
  await field?.type('mire beetle')
}
const TOUCHSTONE = ['--import', 'tsx', 'src/cli/main.ts']
const ROOT = join(import.meta.dirname, '../..')

// Downloads can be sent to a folder of the test's own in Chromium only.
describe.skipIf(!FAMILIES.includes('chromium'))('evidence in chromium', () => {
  let world: World
  let harness = ''
  const folder = mkdtempSync(join(tmpdir(), 'touchstone-downloads-'))
  beforeAll(async () => {
    harness = await bundleHarness()
    world = await openWorld({ family: 'chromium' })
    const browser = await world.started.browser.target().createCDPSession()
    await browser.send('Browser.setDownloadBehavior', { behavior: 'allow', downloadPath: folder })
  })
  afterAll(async () => {
    await world?.close()
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 })
  })

  async function openDesk(place = ''): Promise<Page> {
    const page = await world.started.openExtensionPage(`desk/index.html${place}`)
    await page.evaluate(harness)
    return page
  }

  it('a bag is made at a press and signed; unzip, coreutils and our own command accept it, and name a changed byte', async () => {
    const writer = await openDesk()
    await writer.evaluate('storageHarness.keepOne("bagged-0")')
    await writer.close()
    const desk = await openDesk('#dossiers/bagged-0')
    await press(desk, 'Sign it with the key of this browser')
    await press(desk, 'Make evidence bag')
    const made = () => readdirSync(folder).find((name) => /^touchstone-[\d-]+-bagged-0\.zip$/.test(name))
    await expect.poll(made, { timeout: 30_000 }).toBeDefined()
    expect(await wordsOf(desk)).toContain('The bag is made')
    await desk.close()

    const zip = join(folder, made()!)
    const verdict = run(process.execPath, [...TOUCHSTONE, 'bag', '--verify', zip], ROOT)
    expect(verdict).toMatchObject({ status: 0, stdout: expect.stringContaining('Signed') })
    if (has('unzip') && has('sha256sum')) {
      expect(run('unzip', ['-t', zip], folder)).toMatchObject({
        status: 0,
        stdout: expect.stringContaining('No errors'),
      })
      expect(run('unzip', ['-q', zip], folder).status).toBe(0)
      const bag = join(folder, made()!.slice(0, -4))
      expect(existsSync(join(bag, 'data/report.html'))).toBe(true)
      for (const size of ['256', '512'])
        for (const list of [`manifest-sha${size}.txt`, `tagmanifest-sha${size}.txt`])
          expect(run(`sha${size}sum`, ['-c', '--quiet', list], bag)).toMatchObject({ status: 0, stdout: '' })
      const photo = join(bag, 'data/photos/01.jpg')
      const name = existsSync(photo) ? 'data/photos/01.jpg' : 'data/dossier.json'
      const bytes = readFileSync(join(bag, name))
      bytes[7]! ^= 1
      writeFileSync(join(bag, name), bytes)
      expect(run('sha512sum', ['-c', 'manifest-sha512.txt'], bag).stdout).toContain(`${name}: FAILED`)
      const changed = run(process.execPath, [...TOUCHSTONE, 'bag', '--verify', bag], ROOT)
      expect(changed).toMatchObject({ status: 1, stdout: expect.stringContaining(`${name} was changed`) })
    }
  })

  it('everything goes out closed with a passphrase and comes back into an empty profile', async () => {
    const desk = await openDesk('#settings')
    await typePassphrase(desk)
    await press(desk, 'Export everything')
    const made = () => readdirSync(folder).find((name) => name.endsWith('.zip.sealed'))
    await expect.poll(made, { timeout: 60_000 }).toBeDefined()
    await desk.close()

    const other = await openWorld({ family: 'chromium' })
    try {
      const page = await other.started.openExtensionPage('desk/index.html#settings')
      const field = await page.waitForSelector('input[type=file][accept*=".sealed"]')
      await (field as unknown as { uploadFile(path: string): Promise<void> }).uploadFile(join(folder, made()!))
      await expect.poll(() => wordsOf(page), { timeout: 20_000 }).toContain('damaged')
      await typePassphrase(page)
      const again = await page.waitForSelector('input[type=file][accept*=".sealed"]')
      await (again as unknown as { uploadFile(path: string): Promise<void> }).uploadFile(join(folder, made()!))
      await expect.poll(() => wordsOf(page), { timeout: 30_000 }).toMatch(/[1-9]\d* added/)
      await page.evaluate(harness)
      expect(await page.evaluate('storageHarness.audit("bagged")')).toEqual([{ id: 'bagged-0', last: 0, faults: [] }])
    } finally {
      await other.close()
    }
  })

  it('a full browser loses nothing, and the desk says what takes most of the room', async () => {
    const page = await openDesk()
    const { usage } = (await page.evaluate('navigator.storage.estimate()')) as { usage: number }
    const session = await page.createCDPSession()
    // A URL object knows no origin of an extension.
    const origin = page.url().split('/').slice(0, 3).join('/')
    await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: usage + 12e6 })
    const { fault, kept } = (await page.evaluate('storageHarness.fill("full", 700000)')) as {
      fault: string
      kept: number
    }
    expect(fault).toBe('StorageFull')
    const audited = (await page.evaluate('storageHarness.audit("full")')) as { faults: string[] }[]
    expect(audited).toHaveLength(kept)
    expect(audited.flatMap(({ faults }) => faults)).toEqual([])
    await page.goto(world.started.extensionUrl('desk/index.html#settings'))
    await expect.poll(() => wordsOf(page), { timeout: 10_000 }).toContain('that the browser gives')
    await session.send('Storage.overrideQuotaForOrigin', { origin })
    await page.close()
  })
})
