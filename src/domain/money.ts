/**
 * Money as every part of Touchstone passes it around: a decimal string and an ISO 4217 code, never a float.
 * Reading amounts out of text lives in `parse-money.ts`; arithmetic in `pricing/`.
 */

export interface Money {
  /** Decimal string with `.` as separator, no grouping: `"1234.50"`. */
  readonly amount: string
  /** ISO 4217 alphabetic code, or `null` where the page leaves the currency open. */
  readonly currency: string | null
}
