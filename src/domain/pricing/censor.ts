/**
 * Sales of which only an upper bound is known, in an estimate: left-censored values. Each bound's weight is handed to the exact
 * values below it, in proportion to what they weigh by then. B. Efron (1967), The two sample problem with censored data, Proc. 5th
 * Berkeley Symposium, section 7, mirrored from right to left; what comes out are the steps of the Kaplan–Meier estimator.
 */

export interface Censored {
  readonly value: number
  readonly weight: number
  /** The value is at most this. */
  readonly bound: boolean
}

/**
 * @returns the weight of each value after redistribution: 0 for a bound. A bound with no exact value below it says nothing that
 * could be handed on and drops out.
 */
export function redistribute(values: readonly Censored[]): number[] {
  const weights = values.map(({ weight }) => weight)
  // From the highest bound down. At a tie the exact value lies above: an accepted offer went for less than was asked.
  const order = values
    .map((_, i) => i)
    .sort((a, b) => {
      const [left, right] = [values[a] as Censored, values[b] as Censored]
      return right.value - left.value || Number(left.bound) - Number(right.bound)
    })
  order.forEach((place, rank) => {
    const { bound } = values[place] as Censored
    if (!bound) return
    const below = order.slice(rank + 1)
    const total = below.reduce((sum, i) => sum + (weights[i] as number), 0)
    const hasExact = below.some((i) => !(values[i] as Censored).bound)
    if (hasExact && total > 0) {
      const share = (weights[place] as number) / total
      for (const i of below) weights[i] = (weights[i] as number) * (1 + share)
    }
    weights[place] = 0
  })
  return weights
}
