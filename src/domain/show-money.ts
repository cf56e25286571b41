/**
 * An amount as a reader of one language writes it, for the sentences that the core makes. An amount without a known currency,
 * or with a code that `Intl` refuses, stays as it is.
 */
import type { Money } from './money.ts'

/** British English, as the interface's own dates and amounts are. */
const LOCALES: Readonly<Record<string, string>> = { en: 'en-GB', de: 'de-DE' }

/** Making a formatter costs a hundred times what using it does. */
const formatters = new Map<string, Intl.NumberFormat>()

function formatterOf(locale: string, currency: string): Intl.NumberFormat {
  const key = `${locale} ${currency}`
  let formatter = formatters.get(key)
  if (formatter === undefined) {
    formatter = new Intl.NumberFormat(locale, { style: 'currency', currency })
    formatters.set(key, formatter)
  }
  return formatter
}

/** @param language BCP 47 primary tag of the texts around it. */
export function showMoney({ amount, currency }: Money, language: string): string {
  if (currency === null) return amount
  try {
    // `format` takes decimal strings exactly; TypeScript's library types ask for the narrower template type.
    const exact = amount as Intl.StringNumericLiteral
    return formatterOf(LOCALES[language] ?? language, currency).format(exact)
  } catch {
    return `${amount} ${currency}`
  }
}
