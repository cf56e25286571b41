/** Medians, quantiles and the Hodges–Lehmann centre of weighted values. With equal weights they are the plain ones. */

interface Weighted {
  readonly value: number
  readonly weight: number
}

/** The middle of the weight: where the weight below reaches a half, halfway to the next value if it does so exactly. */
export function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  return medianOfSorted(
    values.map((value, i) => ({ value, weight: weights[i] as number })).sort((a, b) => a.value - b.value),
  )
}

function medianOfSorted(sorted: readonly Weighted[]): number {
  const half = sorted.reduce((sum, { weight }) => sum + weight, 0) / 2
  let below = 0
  for (let i = 0; i < sorted.length; i++) {
    below += (sorted[i] as Weighted).weight
    if (Math.abs(below - half) <= 1e-12 * half) {
      const next = sorted.slice(i + 1).find(({ weight }) => weight > 0)
      return ((sorted[i] as Weighted).value + (next ?? (sorted[i] as Weighted)).value) / 2
    }
    if (below > half) return (sorted[i] as Weighted).value
  }
  return (sorted.at(-1) as Weighted).value
}

/**
 * The median of the averages of all pairs, each value with itself included; a pair weighs the product of its weights.
 * J. Hodges & E. Lehmann (1963), Estimates of Location Based on Rank Tests.
 */
export function hodgesLehmann(values: readonly number[], weights: readonly number[]): number {
  const averages: Weighted[] = []
  for (let i = 0; i < values.length; i++) {
    for (let j = i; j < values.length; j++) {
      averages.push({
        value: ((values[i] as number) + (values[j] as number)) / 2,
        weight: (weights[i] as number) * (weights[j] as number),
      })
    }
  }
  return medianOfSorted(averages.sort((a, b) => a.value - b.value))
}

/** How many equal weights would speak as loudly (Kish): the square of the sum over the sum of the squares. */
export function effectiveCount(weights: readonly number[]): number {
  const sum = weights.reduce((a, b) => a + b, 0)
  return sum ** 2 / weights.reduce((a, b) => a + b * b, 0)
}
