/**
 * What a card would fetch if it is what its words say. A raw card is judged by its graded sales, since a cheaply priced
 * copy must not slip under a limit, and raw sales are where copies are sold.
 */
import type { Claim } from '../claim.ts'
import type { WorthIfGenuine } from '../valuation.ts'
import { amountsOf, medianAmount } from './exact-amounts.ts'
import { isGraded, type Knowledge, type MatchedSale } from './match-sales.ts'
import { minorUnitDigits } from './minor-units.ts'

export function worthIfGenuine(
  claim: Claim,
  matched: readonly MatchedSale[],
  currency: string | null,
  { graders }: Knowledge,
): WorthIfGenuine | null {
  const graded = matched.filter((match) => match.condition === 'graded')
  const sameGrade = isGraded(claim, graders) ? graded.filter((match) => match.claim.grade === claim.grade) : []
  const [sales, from] =
    sameGrade.length > 0
      ? [sameGrade, 'graded-sales' as const]
      : graded.length > 0
        ? [graded, 'graded-sales' as const]
        : [matched, 'raw-sales' as const]
  const amounts = amountsOf(sales)
  if (amounts.length === 0) return null
  return { amount: medianAmount(amounts).toFixed(minorUnitDigits(currency)), currency, n: amounts.length, from }
}
