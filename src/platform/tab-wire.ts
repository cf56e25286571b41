/** How an envelope travels to the content script of a tab. For the extension's own pages: a content script knows no tabs. */
import browser from 'webextension-polyfill'
import type { Transport } from './messaging.ts'

/** To the top frame of one tab. */
export function toTab(tabId: number): Transport {
  return (envelope) => browser.tabs.sendMessage(tabId, envelope, { frameId: 0 })
}
