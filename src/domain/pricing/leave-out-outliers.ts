/** Sales whose price stands apart from the rest, by the median and 3 × the scaled MAD of their logarithms. */
import type { Excluded, MatchedSale } from './match-sales.ts'
import { median, scaledMad } from './statistics/robust.ts'

// 3 scaled MADs, from five values on: the trade's rule of thumb; Iglewicz & Hoaglin use 3.5 on the modified z-score.
const LIMIT_IN_MADS = 3
const LEAST_SALES = 5

export function leaveOutOutliers(sales: readonly MatchedSale[]): {
  kept: readonly MatchedSale[]
  excluded: Excluded[]
} {
  if (sales.length < LEAST_SALES) return { kept: sales, excluded: [] }
  const logs = sales.map(({ sale }) => Math.log(Number(sale.price.amount)))
  const centre = median(logs)
  const spread = scaledMad(logs)
  const stands = (i: number) => spread === 0 || Math.abs((logs[i] as number) - centre) <= LIMIT_IN_MADS * spread
  return {
    kept: sales.filter((_, i) => stands(i)),
    excluded: sales
      .filter((_, i) => !stands(i))
      .map(({ sale }) => ({ sale, why: 'its price lies more than 3 scaled MADs from the median of the rest' })),
  }
}
