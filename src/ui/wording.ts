/**
 * Texts, dates and money in the interface's language. Everything that a screen says goes through here.
 * Must not hold texts of its own: catalogues are handed in by the context, from `assets/_locales`.
 */
import { createContext } from 'preact'
import { useContext } from 'preact/hooks'
import type { Money } from '../domain/money.ts'
import { createTranslate, type Translate } from '../domain/translate.ts'

export type InterfaceLanguage = 'en' | 'de'

export interface Wording {
  readonly language: InterfaceLanguage
  readonly t: Translate
  money(money: Money): string
  number(value: number, options?: Intl.NumberFormatOptions): string
  /** `0.54` as `54 %`. */
  percent(share: number): string
  /** Of an ISO 8601 time or date. Words that are neither come back as they are. */
  date(iso: string): string
  dateTime(iso: string): string
  /** "in 2 days", "3 hours ago": the largest unit that fits. */
  relative(iso: string, now: string): string
  list(items: readonly string[]): string
  /** The language's own name of a language. */
  languageName(tag: string): string
}

const UNITS: readonly (readonly [Intl.RelativeTimeFormatUnit, number])[] = [
  ['day', 86_400_000],
  ['hour', 3_600_000],
  ['minute', 60_000],
]

/** A date without a time means that day, wherever the reader sits. */
const isDateAlone = (iso: string) => /^\d{4}-\d{2}-\d{2}$/.test(iso)

export function createWording(
  language: InterfaceLanguage,
  catalogue: Readonly<Record<string, string>>,
  /** IANA name; left out, the reader's own. Tests and pictures set it. */
  timeZone?: string,
): Wording {
  const t = createTranslate(catalogue, language)
  const locale = language === 'en' ? 'en-GB' : 'de-DE'
  const day = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeZone })
  const dayInUtc = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeZone: 'UTC' })
  const moment = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short', timeZone })
  const relative = new Intl.RelativeTimeFormat(locale, { numeric: 'auto' })
  const list = new Intl.ListFormat(locale, { type: 'conjunction' })
  const names = new Intl.DisplayNames([locale], { type: 'language' })

  const formatDate = (iso: string): string => {
    const time = Date.parse(iso)
    if (Number.isNaN(time)) return iso
    return isDateAlone(iso) ? dayInUtc.format(time) : day.format(time)
  }

  return {
    language,
    t,
    money({ amount, currency }) {
      // `format` takes decimal strings exactly; TypeScript's library types ask for the narrower template type.
      const exact = amount as Intl.StringNumericLiteral
      if (currency === null) return t('money.no-currency', { amount: new Intl.NumberFormat(locale).format(exact) })
      try {
        return new Intl.NumberFormat(locale, { style: 'currency', currency }).format(exact)
      } catch {
        return `${amount} ${currency}`
      }
    },
    number: (value, options) => new Intl.NumberFormat(locale, options).format(value),
    percent: (share) => new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 0 }).format(share),
    date: formatDate,
    dateTime(iso) {
      const time = Date.parse(iso)
      if (Number.isNaN(time)) return iso
      return isDateAlone(iso) ? formatDate(iso) : moment.format(time)
    },
    relative(iso, now) {
      const distance = Date.parse(iso) - Date.parse(now)
      if (Number.isNaN(distance)) return ''
      const [unit, size] = UNITS.find(([, milliseconds]) => Math.abs(distance) >= milliseconds) ?? ['minute', 60_000]
      return relative.format(Math.trunc(distance / size), unit)
    },
    list: (items) => list.format(items),
    languageName: (tag) => names.of(tag) ?? tag,
  }
}

export const WordingContext = createContext<Wording | null>(null)

export function useWording(): Wording {
  const wording = useContext(WordingContext)
  if (wording === null) throw new Error('no wording: wrap the screen in WordingContext.Provider')
  return wording
}
