/**
 * A trend that single odd values cannot bend: the median of the slopes between all pairs, with Sen's interval.
 * P. K. Sen (1968), Estimates of the Regression Coefficient Based on Kendall's Tau, JASA 63.
 */
import { probit, quantileSorted } from 'simple-statistics'

export interface Trend {
  readonly slope: number
  readonly low: number
  readonly high: number
}

/**
 * @param level of the interval, such as 0.9. Its ranks are rounded outwards.
 * @returns `null` where fewer than two different times are at hand.
 */
export function theilSen(x: readonly number[], y: readonly number[], level: number): Trend | null {
  const slopes: number[] = []
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      const run = (x[j] as number) - (x[i] as number)
      if (run !== 0) slopes.push(((y[j] as number) - (y[i] as number)) / run)
    }
  }
  if (slopes.length === 0) return null
  slopes.sort((a, b) => a - b)
  const half = (probit((1 + level) / 2) * Math.sqrt(kendallVariance(x))) / 2
  const low = Math.floor(slopes.length / 2 - half)
  const high = Math.ceil(slopes.length / 2 + half + 1)
  return {
    slope: quantileSorted(slopes, 0.5),
    low: slopes[low - 1] ?? Number.NEGATIVE_INFINITY,
    high: slopes[high - 1] ?? Number.POSITIVE_INFINITY,
  }
}

/** Variance of Kendall's S, ties among the times taken into account. */
function kendallVariance(x: readonly number[]): number {
  const term = (n: number) => n * (n - 1) * (2 * n + 5)
  const counts = new Map<number, number>()
  for (const value of x) counts.set(value, (counts.get(value) ?? 0) + 1)
  return [...counts.values()].reduce((sum, ties) => sum - term(ties), term(x.length)) / 18
}
