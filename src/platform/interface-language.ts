/** The language that the person set in their browser. */
import browser from 'webextension-polyfill'

/** BCP 47 tag of the `messages.json` that the browser chose, so that panel and toolbar speak the same language. */
export function readBrowserLanguage(): string {
  return browser.i18n.getMessage('languageTag')
}
