/**
 * An amount as a reader of one language writes it, for the sentences that the core makes. An amount without a known currency,
 * or with a code that `Intl` refuses, stays as it is.
 */
import type { Money } from './money.ts'

/** British English, as the interface's own dates and amounts are. */
const LOCALES: Readonly<Record<string, string>> = { en: 'en-GB', de: 'de-DE' }

/** @param language BCP 47 primary tag of the texts around it. */
export function showMoney({ amount, currency }: Money, language: string): string {
  if (currency === null) return amount
  try {
    // `format` takes decimal strings exactly; TypeScript's library types ask for the narrower template type.
    const exact = amount as Intl.StringNumericLiteral
    return new Intl.NumberFormat(LOCALES[language] ?? language, { style: 'currency', currency }).format(exact)
  } catch {
    return `${amount} ${currency}`
  }
}
