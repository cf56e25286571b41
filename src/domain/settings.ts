/** What the buyer chose, kept in the extension's storage and read by every context. */
import type { Money } from './money.ts'

export interface Settings {
  readonly schemaVersion: 1
  /** `null` until the first-start questions were answered or skipped. */
  readonly setUpAt: string | null
  /** ISO 4217. */
  readonly currency: string
  readonly highValue: Money
  /** Language of the interface; `null` follows the browser. */
  readonly interfaceLanguage: 'en' | 'de' | null
  readonly messageLanguage: 'en' | 'de'
  readonly theme: 'system' | 'light' | 'dark'
}

export const DEFAULT_SETTINGS: Settings = {
  schemaVersion: 1,
  setUpAt: null,
  currency: 'EUR',
  // What a buyer starts from until they say otherwise; ours, no source.
  highValue: { amount: '500', currency: 'EUR' },
  interfaceLanguage: null,
  messageLanguage: 'en',
  theme: 'system',
}
