/** When the extension was installed, updated or started with the browser. */
import browser from 'webextension-polyfill'

export function onInstalled(listener: (first: boolean) => void): void {
  browser.runtime.onInstalled.addListener(({ reason }) => listener(reason === 'install'))
}

export function onBrowserStart(listener: () => void): void {
  browser.runtime.onStartup.addListener(listener)
}
