/** A picture of the visible part of a page, for the dossier. */
import browser from 'webextension-polyfill'

/** PNG bytes; `null` where the browser refuses, as it does without a click on this page. */
export async function takeScreenshot(windowId: number | null): Promise<Uint8Array<ArrayBuffer> | null> {
  try {
    const address = await browser.tabs.captureVisibleTab(windowId ?? undefined, { format: 'png' })
    return new Uint8Array(await (await fetch(address)).arrayBuffer())
  } catch {
    return null
  }
}
