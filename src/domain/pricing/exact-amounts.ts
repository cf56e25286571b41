/** Amounts of money as exact decimals. */
import { Decimal } from 'decimal.js'
import type { MatchedSale } from './match-sales.ts'

/** The median of amounts, exact. @param amounts at least one */
export function medianAmount(amounts: readonly Decimal[]): Decimal {
  const sorted = [...amounts].sort((a, b) => a.comparedTo(b))
  const upper = sorted[Math.floor(sorted.length / 2)] as Decimal
  const lower = sorted[Math.ceil(sorted.length / 2) - 1] as Decimal
  return lower.plus(upper).dividedBy(2)
}

export function amountsOf(sales: readonly MatchedSale[]): Decimal[] {
  return sales.filter(({ sale }) => !sale.bestOffer).map(({ amount }) => new Decimal(amount))
}
