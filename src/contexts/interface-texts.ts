/** The interface's texts in the language of this window: chosen by the buyer, else the browser's, else English. */
import deRules from '../../assets/_locales/de/rules.json' with { type: 'json' }
import deViews from '../../assets/_locales/de/views.json' with { type: 'json' }
import enRules from '../../assets/_locales/en/rules.json' with { type: 'json' }
import enViews from '../../assets/_locales/en/views.json' with { type: 'json' }
import type { Settings } from '../domain/settings.ts'
import { createTranslate, type Translate } from '../domain/translate.ts'
import { UI_CATALOGUES } from '../ui/catalogues.ts'

const CATALOGUES = {
  en: { ...UI_CATALOGUES.en, ...enRules, ...enViews },
  de: { ...UI_CATALOGUES.de, ...deRules, ...deViews },
} as const

export type InterfaceLanguage = keyof typeof CATALOGUES

export interface InterfaceTexts {
  readonly language: InterfaceLanguage
  readonly catalogue: Readonly<Record<string, string>>
  readonly translate: Translate
}

/** `browserLanguage` is a BCP 47 tag. */
export function chooseLanguage(settings: Settings, browserLanguage: string): InterfaceLanguage {
  return settings.interfaceLanguage ?? (/^de\b/i.test(browserLanguage) ? 'de' : 'en')
}

export function interfaceTexts(language: InterfaceLanguage): InterfaceTexts {
  const catalogue: Readonly<Record<string, string>> = CATALOGUES[language]
  return { language, catalogue, translate: createTranslate(catalogue, language) }
}
