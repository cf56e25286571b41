/**
 * Nothing is lost: the service worker, a page of ours or the whole browser is ended in the midst of writing, again and again, and afterwards
 * every record is whole and every write that was reported as done is there. `KILLS` sets how often (20); seeds are fixed.
 */
import { rmSync } from 'node:fs'
import { join, resolve } from 'node:path'
import type { Browser, CDPSession, Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  copyExtension,
  createProfile,
  findBrowser,
  type StartedBrowser,
  startBrowser,
} from '../../src/demo/browsers.ts'
import { bundleHarness } from './harness/bundle-harness.ts'
import { FAMILIES } from './harness/world.ts'
import type { Audited } from './harness/write-sequences.ts'

const KILLS = Number(process.env.KILLS ?? 20)
const SEED = Number(process.env.SEED ?? 20_261_125)
/** Milliseconds of writing before the end: from the first transaction to the middle of the third dossier or so. */
const LONGEST_WRITING = 500
const ROOT = resolve(import.meta.dirname, '../..')
const WAYS = ['service worker', 'page', 'browser process'] as const

function createRandom(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

// Storage is the browser's own in both families, but only Chromium lets a test end its worker and its process by name.
describe.skipIf(!FAMILIES.includes('chromium'))('writing that is cut off in chromium', () => {
  const installed = findBrowser('chromium')
  const profile = createProfile()
  const extension = copyExtension(join(ROOT, 'dist/chromium'))
  let harness = ''
  let started: StartedBrowser
  const start = async () => {
    if (installed === null) throw new Error('chromium is not installed')
    started = await startBrowser(installed, { extension, headless: true, isolated: true, profile })
  }
  beforeAll(async () => {
    harness = await bundleHarness()
    await start()
  })
  afterAll(async () => {
    await started?.close().catch(() => {})
    for (const path of [profile, extension]) rmSync(path, { recursive: true, force: true, maxRetries: 5 })
  })

  /** The desk's page with the harness in it. */
  async function openPage(): Promise<Page> {
    const page = await started.openExtensionPage('desk/index.html')
    await page.evaluate(harness)
    return page
  }

  async function openWorker(browser: Browser): Promise<CDPSession> {
    // It may be asleep, or have been ended by the round before: a message of ours wakes it.
    const page = await started.openExtensionPage('desk/index.html')
    await page.evaluate('chrome.runtime.sendMessage({ touchstone: "wake" }).catch(() => {})')
    const target = await browser.waitForTarget((one) => one.type() === 'service_worker', { timeout: 20_000 })
    const client = await target.createCDPSession()
    await client.send('Runtime.enable')
    await client.send('Runtime.evaluate', { expression: harness })
    await page.close()
    return client
  }

  const pause = (milliseconds: number) => new Promise((done) => setTimeout(done, milliseconds))

  /** The number of the last write reported as done, by dossier. */
  async function writeAndKill(way: (typeof WAYS)[number], round: string, seed: number, after: number) {
    const done = new Map<string, number>()
    const hear = (text: string) => {
      const [, id, number] = /^acknowledged (\S+) (\d+)$/.exec(text) ?? []
      if (id !== undefined) done.set(id, Number(number))
    }
    const call = `void storageHarness.write(${JSON.stringify(round)}, ${seed}).catch((error) => console.log(String(error)))`
    if (way === 'service worker') {
      const worker = await openWorker(started.browser)
      worker.on('Runtime.consoleAPICalled', ({ args }) => hear(String(args[0]?.value)))
      await worker.send('Runtime.evaluate', { expression: call })
      await pause(after)
      const browserSession = await started.browser.target().createCDPSession()
      const running = async () => {
        const { targetInfos } = await browserSession.send('Target.getTargets')
        return targetInfos.filter(({ type }) => type === 'service_worker')
      }
      for (const { targetId } of await running()) await browserSession.send('Target.closeTarget', { targetId })
      // One that went on writing would make the audit meaningless.
      await expect.poll(async () => (await running()).length, { timeout: 10_000 }).toBe(0)
      await browserSession.detach()
    } else {
      const page = await openPage()
      page.on('console', (message) => hear(message.text()))
      await page.evaluate(call)
      await pause(after)
      if (way === 'page') await page.close()
      else {
        const process = started.browser.process()
        const ended = new Promise((resolve) => process?.once('exit', resolve))
        process?.kill('SIGKILL')
        await ended
        await start()
      }
    }
    return done
  }

  it(`loses nothing in ${KILLS} kills`, { timeout: 60_000 + KILLS * 15_000 }, async () => {
    const random = createRandom(SEED)
    const lost: string[] = []
    const counts = Object.fromEntries(WAYS.map((way) => [way, 0]))
    let acknowledged = 0
    let dossiers = 0
    for (let kill = 0; kill < KILLS; kill++) {
      const way = WAYS[kill % WAYS.length]!
      const round = `r${kill}`
      const done = await writeAndKill(way, round, Math.floor(random() * 2 ** 31), 5 + random() * LONGEST_WRITING)
      const page = await openPage()
      const audited = (await page.evaluate(`storageHarness.audit(${JSON.stringify(round)})`)) as Audited[]
      await page.close()
      counts[way]!++
      const last = new Map(audited.map((one) => [one.id, one.last]))
      for (const { id, faults } of audited) for (const fault of faults) lost.push(`${way}: ${id}: ${fault}`)
      for (const [id, number] of done) {
        acknowledged += number + 1
        if ((last.get(id) ?? -1) < number) lost.push(`${way}: ${id}: write ${number} was done and is not there`)
      }
      dossiers += audited.length
    }
    console.log(
      `${KILLS} kills (${WAYS.map((way) => `${way} ${counts[way]}`).join(', ')}): ${dossiers} dossiers, ` +
        `at least ${acknowledged} finished writes, ${lost.length} lost or torn`,
    )
    expect(lost).toEqual([])
    // A run in which nothing was written would prove nothing.
    expect(acknowledged).toBeGreaterThan(KILLS)
  })

  it('an audit sees what is torn', async () => {
    const page = await openPage()
    await page.evaluate('storageHarness.keepOne("torn-0")')
    expect(await page.evaluate('storageHarness.audit("torn")')).toEqual([{ id: 'torn-0', last: 0, faults: [] }])
    await page.evaluate('storageHarness.tear("torn-0")')
    const [{ faults } = { faults: [] }] = (await page.evaluate('storageHarness.audit("torn")')) as Audited[]
    expect(faults).toEqual([
      expect.stringContaining('lines of log'),
      expect.stringContaining('does not begin'),
      expect.stringContaining('summary'),
      expect.stringContaining('is gone'),
    ])
    await page.evaluate('storageHarness.forget("torn-0")')
    await page.close()
  })

  it('two pages and the worker change one dossier at once, and no change is lost', async () => {
    const [first, second, worker] = [await openPage(), await openPage(), await openWorker(started.browser)]
    await first.evaluate('storageHarness.keepOne("shared")')
    await Promise.all([
      first.evaluate('storageHarness.change("shared", "panel", 60)'),
      second.evaluate('storageHarness.change("shared", "desk", 60)'),
      worker.send('Runtime.evaluate', {
        expression: 'storageHarness.change("shared", "worker", 60)',
        awaitPromise: true,
      }),
    ])
    const lines = (await first.evaluate(`new Promise((done) => {
      const opening = indexedDB.open('touchstone')
      opening.onsuccess = () => {
        const get = opening.result.transaction('dossiers').objectStore('dossiers').get('shared')
        get.onsuccess = () => { opening.result.close(); done(get.result.log.map((entry) => entry.detail)) }
      }
    })`)) as string[]
    expect(lines).toHaveLength(181)
    for (const writer of ['panel', 'desk', 'worker'])
      expect(lines.filter((line) => line.startsWith(writer)).map((line) => Number(line.split(' ')[1]))).toHaveLength(60)
    await first.close()
    await second.close()
  })
})
