/** The languages that the person set in their browser. */
import browser from 'webextension-polyfill'

/** BCP 47 tag of the browser's interface. */
export function readBrowserLanguage(): string {
  return browser.i18n.getUILanguage()
}
