/** How envelopes travel between the contexts of a real extension. */
import browser from 'webextension-polyfill'
import type { Receiver, Transport } from './messaging.ts'

export function browserReceiver(): Receiver {
  return {
    id: browser.runtime.id,
    ownOrigin: browser.runtime.getURL(''),
    listen: (listener) => browser.runtime.onMessage.addListener(listener as never),
    unlisten: (listener) => browser.runtime.onMessage.removeListener(listener as never),
  }
}

/** To the extension's own contexts. */
export const toExtension: Transport = (envelope) => browser.runtime.sendMessage(envelope)

/** To the content script in the top frame of one tab. */
export function toTab(tabId: number): Transport {
  return (envelope) => browser.tabs.sendMessage(tabId, envelope, { frameId: 0 })
}
