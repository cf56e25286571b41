/**
 * How well stated probabilities did: Brier score with Murphy's decomposition, and the reliability table behind it.
 * Forecasts are grouped by their value, or by equal bins; in bins each forecast counts as its bin's mean.
 */
export interface Forecast {
  /** 0–1. */
  readonly probability: number
  readonly happened: boolean
}

export interface ReliabilityRow {
  /** Mean forecast of the group. */
  readonly forecast: number
  /** Share that happened. */
  readonly observed: number
  readonly count: number
}

export interface BrierScore {
  /** Mean of (forecast − outcome)²; 0 is perfect, 1 always wrong. */
  readonly score: number
  /** score = reliability − resolution + uncertainty; in bins the score is that of the bins' means, so that it stays exact. */
  readonly reliability: number
  readonly resolution: number
  readonly uncertainty: number
  readonly rows: readonly ReliabilityRow[]
}

/** `null` without forecasts. @param bins number of equal bins; absent: one group a distinct value. Source: Murphy 1973. */
export function scoreBrier(forecasts: readonly Forecast[], bins?: number): BrierScore | null {
  const total = forecasts.length
  if (total === 0) return null
  const groups = new Map<number, Forecast[]>()
  for (const forecast of forecasts) {
    const key = bins === undefined ? forecast.probability : Math.min(Math.floor(forecast.probability * bins), bins - 1)
    const group = groups.get(key)
    if (group) group.push(forecast)
    else groups.set(key, [forecast])
  }
  const rows = [...groups.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, group]) => ({
      forecast: meanOf(group.map((item) => item.probability)),
      observed: meanOf(group.map((item) => Number(item.happened))),
      count: group.length,
    }))
  const base = meanOf(forecasts.map((item) => Number(item.happened)))
  const weighted = (value: (row: ReliabilityRow) => number) =>
    rows.reduce((sum, row) => sum + row.count * value(row), 0) / total
  return {
    // By the means of the groups: grouped by value that is the score itself, in bins it keeps the three parts adding up.
    score: weighted((row) => row.observed * (row.forecast - 1) ** 2 + (1 - row.observed) * row.forecast ** 2),
    reliability: weighted((row) => (row.forecast - row.observed) ** 2),
    resolution: weighted((row) => (row.observed - base) ** 2),
    uncertainty: base * (1 - base),
    rows,
  }
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
