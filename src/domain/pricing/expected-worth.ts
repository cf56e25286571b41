/**
 * A raw or doubtful card: what it is worth on average over the outcomes that the buyer thinks possible, by the buyer's own
 * probabilities. Exact decimals. It makes no probability of its own.
 */
import { Decimal } from 'decimal.js'

export interface Outcome {
  readonly name: string
  /** Decimal string, 0–1. */
  readonly probability: string
  /** What is left after selling in this outcome, decimal string; may be negative. */
  readonly net: string
}

/** Σ p · net. @throws RangeError where the probabilities do not add up to one. */
export function expectedWorth(outcomes: readonly Outcome[]): Decimal {
  const sum = outcomes.reduce((total, { probability }) => total.plus(probability), new Decimal(0))
  const impossible = outcomes.some(({ probability }) => new Decimal(probability).isNegative())
  if (impossible || !sum.equals(1)) throw new RangeError(`the probabilities add up to ${sum.toString()}, not to 1`)
  return outcomes.reduce(
    (total, { probability, net }) => total.plus(new Decimal(probability).times(net)),
    new Decimal(0),
  )
}

/** Σ p · net − costs − margin. @throws RangeError where the probabilities do not add up to one. */
export function expectedCeiling(outcomes: readonly Outcome[], costs: string, margin: string): Decimal {
  return expectedWorth(outcomes).minus(costs).minus(margin)
}

/**
 * The probability of the first outcome at which the ceiling equals the price, the others keeping their proportions to each other.
 * @returns `null` where no probability between 0 and 1 does.
 */
export function breakEven(outcomes: readonly Outcome[], costs: string, margin: string, price: string): Decimal | null {
  const [first, ...others] = outcomes
  if (!first) return null
  const rest = others.reduce((total, { probability }) => total.plus(probability), new Decimal(0))
  if (rest.isZero()) return null
  const otherwise = others
    .reduce((total, { probability, net }) => total.plus(new Decimal(probability).times(net)), new Decimal(0))
    .dividedBy(rest)
  const gain = new Decimal(first.net).minus(otherwise)
  if (gain.isZero()) return null
  const needed = new Decimal(price).plus(costs).plus(margin).minus(otherwise).dividedBy(gain)
  return needed.isNegative() || needed.greaterThan(1) ? null : needed
}
