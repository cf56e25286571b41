/** The language that the person set in their browser. */
import browser from 'webextension-polyfill'

/** BCP 47 tag of the language in which the browser shows our manifest's own words, so that panel and toolbar agree. */
export function readBrowserLanguage(): string {
  return browser.i18n.getMessage('@@ui_locale').replaceAll('_', '-') || browser.i18n.getUILanguage()
}
