/** A window of ours that could not start says so, in words and with what to do, rather than stay empty. */

import { DEFAULT_SETTINGS } from '../domain/settings.ts'
import { readBrowserLanguage } from '../platform/interface-language.ts'
import { toFault } from '../ui/fault.ts'
import { chooseLanguage, interfaceTexts } from './interface-texts.ts'

export function showStartFault(error: unknown): void {
  console.error(error)
  const { code, detail } = toFault(error)
  const { language, translate } = interfaceTexts(chooseLanguage(DEFAULT_SETTINGS, readBrowserLanguage()))
  const lines = [translate(`fault.${code}`), translate(`fault.${code}.remedy`), detail].map((words) => {
    const line = document.createElement('p')
    line.textContent = words
    return line
  })
  document.documentElement.lang = language
  const app = document.querySelector('#app')
  app?.setAttribute('role', 'alert')
  app?.replaceChildren(...lines)
}
