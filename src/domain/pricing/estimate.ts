/**
 * From sales of one card at one level to a centre and a prediction interval for the next one: all in logarithms, since prices
 * vary by factors. What was done is recorded, so that it can be said in words.
 */
import { redistribute } from './censor.ts'
import { findOddSellers, type OddSeller } from './find-odd-sellers.ts'
import type { Observation } from './observation.ts'
import { conformalRank } from './statistics/conformal-rank.ts'
import { findOutliers } from './statistics/generalized-esd.ts'
import { scaledMad } from './statistics/robust.ts'
import { studentQuantile } from './statistics/student-t.ts'
import { type Trend, theilSen } from './statistics/theil-sen.ts'
import { effectiveCount, hodgesLehmann, weightedMedian } from './statistics/weighted.ts'
import { weighSales } from './weigh-sales.ts'

export interface Estimate {
  /** Logarithms. */
  readonly centre: number
  readonly low: number
  readonly high: number
  readonly method: 'conformal' | 't-in-logs'
  /** Slope of the logarithm a year; `null` where too few sales over too short a time are at hand. */
  readonly trend: (Trend & { readonly applied: boolean }) | null
  /** Places of the sales that were left out. */
  readonly outliers: readonly number[]
  readonly oddSellers: readonly OddSeller[]
  readonly cappedSellers: readonly string[]
  /** The centre is that of all pairs; else the weighted median. */
  readonly pairs: boolean
}

/** Coverage aimed at. */
export const LEVEL = 0.9
// Rosner's test: one honest sale in some five hundred markets is left out. A larger level cuts honest tails off, and the
// interval with them: at 0.05 it covered 86 % of calm markets with 20 to 49 sales instead of 90 (bench, seed 1).
const OUTLIER_ALPHA = 0.002
// More than a quarter would no longer be outliers but another market. Ours.
const MOST_OUTLIERS_SHARE = 0.25
const MOST_OUTLIERS = 60
const OUTLIERS_FROM = 5
// A trend needs this many sales over this long, and an interval without zero. Ours.
const TREND_FROM_SALES = 8
const TREND_FROM_YEARS = 0.5
const TREND_LEVEL = 0.9
// Nineteen equal sales: the 90 % rank is the eighteenth distance, so that a single one does not set the interval.
const CONFORMAL_FROM = 19
// Pairs grow with the square: above this many sales the centre is their weighted median, and the trend is taken from as
// many of them, evenly chosen.
const MOST_FOR_PAIRS = 400

/**
 * @param sales at least two of them exact. Bounds move weight among the exact ones and are no part of anything else.
 * @param moveError standard error that the logarithms carry from being moved between grades; widens the interval.
 */
export function estimate(sales: readonly Observation[], moveError = 0): Estimate {
  const ages = sales.map(({ age }) => age)
  const logs = sales.map(({ log }) => log)
  const exact = sales.map((_, i) => i).filter((i) => !sales[i]?.bound)
  const trend = findTrend(
    exact.map((i) => ages[i] as number),
    exact.map((i) => logs[i] as number),
  )
  const level = (i: number) => (logs[i] as number) + (trend?.applied ? trend.slope * (ages[i] as number) : 0)
  const levels = sales.map((_, i) => level(i))
  const oddSellers = findOddSellers(
    exact.map((i) => sales[i] as Observation),
    exact.map((i) => levels[i] as number),
  ).map((odd) => ({ ...odd, places: odd.places.map((k) => exact[k] as number) }))
  const left = new Set(oddSellers.flatMap(({ places }) => places))
  const outliers = outliersAmong(
    levels,
    exact.filter((i) => !left.has(i)),
  )
  for (const i of outliers) left.add(i)
  const kept = sales.map((_, i) => i).filter((i) => !left.has(i))
  const weighed = weighSales(kept.map((i) => sales[i] as Observation))
  const { capped } = weighed
  const shared = redistribute(
    kept.map((i, k) => ({
      value: levels[i] as number,
      weight: weighed.weights[k] as number,
      bound: sales[i]?.bound ?? false,
    })),
  )
  const speaking = kept.map((_, k) => k).filter((k) => !sales[kept[k] as number]?.bound)
  const values = speaking.map((k) => levels[kept[k] as number] as number)
  const weights = speaking.map((k) => shared[k] as number)
  const centre = centreOf(values, weights)
  const reach = reachOf(values, weights, centre)
  const by = Math.hypot(reach.by, studentQuantile((1 + LEVEL) / 2, Math.max(1, values.length - 1)) * moveError)
  return {
    centre,
    low: centre - by,
    high: centre + by,
    method: reach.method,
    trend,
    outliers,
    oddSellers,
    cappedSellers: capped,
    pairs: values.length <= MOST_FOR_PAIRS,
  }
}

function outliersAmong(levels: readonly number[], places: readonly number[]): number[] {
  if (places.length < OUTLIERS_FROM) return []
  const most = Math.min(MOST_OUTLIERS, Math.max(1, Math.floor(places.length * MOST_OUTLIERS_SHARE)))
  return findOutliers(
    places.map((i) => levels[i] as number),
    OUTLIER_ALPHA,
    most,
  ).map((k) => places[k] as number)
}

function findTrend(ages: readonly number[], logs: readonly number[]): Estimate['trend'] {
  const span = Math.max(...ages) - Math.min(...ages)
  if (ages.length < TREND_FROM_SALES || span < TREND_FROM_YEARS) return null
  const places = evenly(ages.length, MOST_FOR_PAIRS)
  const found = theilSen(
    places.map((i) => -(ages[i] as number)),
    places.map((i) => logs[i] as number),
    TREND_LEVEL,
  )
  return found && { ...found, applied: found.low > 0 || found.high < 0 }
}

/** At most `most` places out of n, evenly. */
function evenly(n: number, most: number): number[] {
  const step = Math.max(1, n / most)
  return Array.from({ length: Math.min(n, most) }, (_, i) => Math.floor(i * step))
}

function centreOf(values: readonly number[], weights: readonly number[]): number {
  return values.length <= MOST_FOR_PAIRS ? hodgesLehmann(values, weights) : weightedMedian(values, weights)
}

function reachOf(
  values: readonly number[],
  weights: readonly number[],
  centre: number,
): { by: number; method: Estimate['method'] } {
  const n = effectiveCount(weights)
  const distances = values.map((value) => Math.abs(value - centre))
  if (n >= CONFORMAL_FROM) {
    const by = weightedReach(distances, weights)
    if (by !== null) return { by, method: 'conformal' }
  }
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const squares = values.reduce((sum, value, i) => sum + (weights[i] as number) * (value - centre) ** 2, 0) / total
  const spread = Math.max(Math.sqrt((squares * n) / (n - 1)), n >= 8 ? scaledMad(values) : 0)
  return { by: studentQuantile((1 + LEVEL) / 2, n - 1) * spread * Math.sqrt(1 + 1 / n), method: 't-in-logs' }
}

/** The conformal rank among weighted distances, the next sale counting as the newest (weight 1). */
function weightedReach(distances: readonly number[], weights: readonly number[]): number | null {
  const equal = weights.every((weight) => weight === weights[0])
  const sorted = distances
    .map((distance, i) => ({ distance, weight: weights[i] as number }))
    .sort((a, b) => a.distance - b.distance)
  if (equal) {
    const rank = conformalRank(distances.length, 1 - LEVEL)
    return rank === null ? null : (sorted[rank - 1]?.distance ?? null)
  }
  const total = weights.reduce((sum, weight) => sum + weight, 0) + 1
  let below = 0
  for (const { distance, weight } of sorted) {
    below += weight
    if (below >= LEVEL * total) return distance
  }
  return null
}
