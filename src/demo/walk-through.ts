/**
 * Goes through the main job as a person would, in a browser that nobody watches: open the listing, read the panel, put the
 * message into the page's box, keep the listing, find it on the desk. Writes a picture of each step.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'puppeteer-core'
import { inspectionText } from '../cli/text/inspection-text.ts'
import type { Inspection } from '../domain/inspection.ts'
import type { StartedBrowser } from './browsers.ts'

export interface WalkOptions {
  readonly url: string
  /** A page of results to look at as well. */
  readonly resultsUrl: string | null
  readonly folder: string
}

const PATIENCE_MS = 60_000
const PANEL_WIDTH = 400
const TALLEST_PX = 10_000

export async function walkThrough(started: StartedBrowser, { url, resultsUrl, folder }: WalkOptions): Promise<void> {
  mkdirSync(folder, { recursive: true })
  const picture = async (page: Page, name: string, whole = false) => {
    await page.screenshot({ path: join(folder, `${name}.png`), fullPage: whole })
    console.log(`  ${name}.png`)
  }

  const page = await started.browser.newPage()
  await page.goto(url, { waitUntil: 'load', timeout: PATIENCE_MS })
  const panel = await started.openPanel(page)
  await until(panel, '.panel-main[aria-busy="false"]')
  const phase = await readPhase(panel)
  if (phase !== 'listing') {
    console.log(await panel.evaluate('document.querySelector(".panel-main").innerText'))
    await picture(page, 'page')
    await picturePanel(panel, picture, 'panel')
    return
  }
  // Until every photo was looked at.
  await panel.waitForFunction('document.querySelector(".photo-progress") === null', {
    timeout: PATIENCE_MS,
    polling: 200,
  })
  await pause(500)
  await picture(page, 'page')
  await picturePanel(panel, picture, 'panel')

  if (await press(panel, '.message .button:not(.primary)')) {
    await pause(500)
    await picture(page, 'message')
  }
  await press(panel, '.keep .button.primary')
  await panel.waitForFunction('document.querySelectorAll(".keep .button").length > 1', {
    timeout: PATIENCE_MS,
    polling: 200,
  })

  const inspection = await readKept(panel)
  writeFileSync(join(folder, 'inspection.json'), `${JSON.stringify(inspection, null, 2)}\n`)
  writeFileSync(join(folder, 'inspection.txt'), `${inspectionText(inspection)}\n`)
  console.log('  inspection.txt, inspection.json')

  const desk = await started.openExtensionPage('desk/index.html')
  await until(desk, 'main')
  await pause(800)
  await picture(desk, 'desk')
  await press(desk, '.dossier-row')
  await pause(800)
  await picture(desk, 'dossier', true)

  if (resultsUrl !== null) {
    await page.bringToFront()
    await page.goto(resultsUrl, { waitUntil: 'load', timeout: PATIENCE_MS })
    await until(panel, '.results')
    await pause(500)
    await picture(page, 'results')
    await picturePanel(panel, picture, 'results-panel')
  }
  console.log(`\n${inspectionText(inspection)}`)
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

async function until(page: Page, selector: string): Promise<void> {
  await page.waitForFunction(`document.querySelector(${JSON.stringify(selector)}) !== null`, {
    timeout: PATIENCE_MS,
    polling: 100,
  })
}

async function press(page: Page, selector: string): Promise<boolean> {
  const control = await page.$(selector)
  if (control === null) return false
  await control.click()
  return true
}

async function readPhase(panel: Page): Promise<'listing' | 'other'> {
  return (await panel.$('.stance')) === null ? 'other' : 'listing'
}

/** The whole panel at once: as tall as what it says. */
async function picturePanel(
  panel: Page,
  picture: (page: Page, name: string) => Promise<void>,
  name: string,
): Promise<void> {
  const before = panel.viewport()
  // How tall it is depends on how wide it is.
  await panel.setViewport({ width: PANEL_WIDTH, height: 600 })
  await pause(200)
  const height = Number(await panel.evaluate('document.documentElement.scrollHeight'))
  await panel.setViewport({ width: PANEL_WIDTH, height: Math.min(height, TALLEST_PX) })
  await pause(200)
  await picture(panel, name)
  await panel.setViewport(before)
}

async function readKept(panel: Page): Promise<Inspection> {
  return (await panel.evaluate(`new Promise((resolve, reject) => {
    const opening = indexedDB.open('touchstone')
    opening.onerror = () => reject(opening.error)
    opening.onsuccess = () => {
      const request = opening.result.transaction('dossiers').objectStore('dossiers').getAll()
      request.onsuccess = () => {
        opening.result.close()
        resolve(request.result.sort((a, b) => b.updatedAt.localeCompare(a.updatedAt))[0].inspection)
      }
    }
  })`)) as Inspection
}
