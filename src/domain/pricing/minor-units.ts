/** How many digits a currency has after the decimal point: ISO 4217's exponents, as the platform's `Intl` carries them. */
const known = new Map<string, number>()

/** 2 where the currency is open: most currencies have two. */
export function minorUnitDigits(currency: string | null): number {
  if (currency === null) return 2
  let digits = known.get(currency)
  if (digits === undefined) {
    digits = new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2
    known.set(currency, digits)
  }
  return digits
}
