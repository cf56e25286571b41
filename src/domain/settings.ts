/** What the buyer chose, kept in the extension's storage and read by every context. */
import { CARD_SIZES } from './card-sizes.ts'
import type { DrawnKind } from './exemplar.ts'
import type { Money } from './money.ts'
import type { MessageTone } from './request/message-style.ts'

const [COMMONEST_SIZE] = CARD_SIZES

/** Those in which a message pack is there. */
export const MESSAGE_LANGUAGES = ['en', 'de', 'fr', 'es', 'it'] as const
export type MessageLanguage = (typeof MESSAGE_LANGUAGES)[number]

export interface Settings {
  readonly schemaVersion: 1
  /** `null` until the first-start questions were answered or skipped. */
  readonly setUpAt: string | null
  /** ISO 4217. */
  readonly currency: string
  readonly highValue: Money
  /** Language of the interface; `null` follows the browser. */
  readonly interfaceLanguage: 'en' | 'de' | null
  readonly messageLanguage: MessageLanguage
  readonly messageTone: MessageTone
  readonly theme: 'system' | 'light' | 'dark'
  /** A message asks for no more than so many views, the best ones; `null`: for all that are open. */
  readonly messageMostViews: number | null
  /** What was compared last, so that a row of photos of one issue is not set up anew each time. */
  readonly comparison: LastComparison
  /** ISO 8601 in UTC: when everything was last saved to a file; absent or `null`: never. */
  readonly lastBackupAt?: string | null
  /** ISO 8601 in UTC: when the reminder of it was put off. */
  readonly backupLaterAt?: string | null
}

export interface LastComparison {
  readonly kind: DrawnKind
  /** Id of a `CardSize`, or `other`. */
  readonly sizeId: string
  /** In millimetres. */
  readonly nominalSize: { readonly widthMm: number; readonly heightMm: number }
}

export const DEFAULT_SETTINGS: Settings = {
  schemaVersion: 1,
  setUpAt: null,
  currency: 'EUR',
  // What a buyer starts from until they say otherwise; ours, no source.
  highValue: { amount: '500', currency: 'EUR' },
  interfaceLanguage: null,
  messageLanguage: 'en',
  messageTone: 'plain',
  theme: 'system',
  messageMostViews: null,
  comparison: {
    kind: 'tint',
    sizeId: COMMONEST_SIZE.id,
    nominalSize: { widthMm: COMMONEST_SIZE.widthMm, heightMm: COMMONEST_SIZE.heightMm },
  },
}
