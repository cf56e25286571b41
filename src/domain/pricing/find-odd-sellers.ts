/**
 * Sellers whose sales as a whole lie apart from everybody else's: related parties, bundles, a crowd of their own. One odd price is
 * an outlier; a seller's steady oddness hides among the rest and is looked for apart. Says nothing of a motive.
 */
import { mean } from 'simple-statistics'
import type { Observation } from './observation.ts'
import { median, scaledMad } from './statistics/robust.ts'
import { studentQuantile } from './statistics/student-t.ts'

const LEAST_OWN_SALES = 3
const LEAST_OTHER_SALES = 8
// One false alarm in a hundred markets, shared among the sellers that are looked at (Bonferroni). Ours.
const ALPHA = 0.01
// Less than this is no other market, however steady: a fifth in price. Ours.
const LEAST_APART = Math.log(1.2)

export interface OddSeller {
  readonly seller: string
  readonly places: readonly number[]
  /** Mean distance of its sales from the others' median, in logarithms. */
  readonly apart: number
}

/** @param levels logarithms of the prices, a trend taken off. */
export function findOddSellers(sales: readonly Observation[], levels: readonly number[]): OddSeller[] {
  const bySeller = new Map<string, number[]>()
  sales.forEach(({ seller }, i) => {
    if (seller !== null) bySeller.set(seller, [...(bySeller.get(seller) ?? []), i])
  })
  const looked = [...bySeller].filter(
    ([, places]) => places.length >= LEAST_OWN_SALES && sales.length - places.length >= LEAST_OTHER_SALES,
  )
  return looked.flatMap(([seller, places]) => {
    const own = new Set(places)
    const others = levels.filter((_, i) => !own.has(i))
    const apart = mean(places.map((i) => levels[i] as number)) - median(others)
    // π/2: the variance of a median against a mean's, for a normal distribution.
    const error = scaledMad(others) * Math.sqrt(1 / places.length + Math.PI / (2 * others.length))
    const limit = studentQuantile(1 - ALPHA / (2 * looked.length), others.length - 1) * error
    return Math.abs(apart) > Math.max(limit, LEAST_APART) ? [{ seller, places, apart }] : []
  })
}
