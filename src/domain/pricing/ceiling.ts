/**
 * The most that is sensible to pay: from what the card is worth to the buyer, less the margin, to the largest bid whose all-in cost stays
 * within it. For a raw or doubtful card the worth is an average over outcomes by the buyer's own probabilities. Exact decimals; it
 * makes no probability and no rate of its own.
 */
import { Decimal } from 'decimal.js'
import { allInCost, type CostLine, costLines, type Increment, largestBid, type Terms } from './all-in-cost.ts'
import { expectedWorth, type Outcome } from './expected-worth.ts'
import { minorUnitDigits } from './minor-units.ts'

/** What a venue and a country cost, as the buyer wrote it down; kept by name. */
export interface CostPreset {
  readonly name: string
  /** `afterwards` is the sum of `grading`; kept apart so that each can be seen. */
  readonly terms: Omit<Terms, 'afterwards'>
  readonly grading: { readonly fee: string; readonly shipping: string }
  /** Per cent of the worth that is to be left over. */
  readonly marginPercent: string
  readonly increments: readonly Increment[]
  /** ISO 8601 date on which tax and duty were last looked up. */
  readonly ratesOf: string
}

export interface Ceiling {
  /** All-in cost that must not be passed. */
  readonly limit: Decimal
  /** `null`: even the smallest bid costs more. */
  readonly bid: Decimal | null
  readonly lines: readonly CostLine[]
  readonly allIn: Decimal | null
}

/** Tax and duty change by law, mostly at a year's turn: rates older than this are worth a look. In days; ours. */
const RATES_OLD_AFTER = 365

export function termsOf({ terms, grading }: CostPreset): Terms {
  return { ...terms, afterwards: new Decimal(grading.fee).plus(grading.shipping).toFixed() }
}

/** @param worth decimal string in the terms' currency. */
export function ceilingOf(worth: Decimal | string, preset: CostPreset): Ceiling {
  const terms = termsOf(preset)
  const digits = minorUnitDigits(terms.currency)
  const value = new Decimal(worth)
  // Rounded down: a ceiling that is a coin too high is none.
  const limit = value
    .minus(value.abs().times(preset.marginPercent).dividedBy(100))
    .toDecimalPlaces(digits, Decimal.ROUND_FLOOR)
  const bid = limit.isPositive() ? largestBid(limit, terms, preset.increments) : null
  return {
    limit,
    bid,
    lines: bid === null ? [] : costLines(bid, terms),
    allIn: bid === null ? null : allInCost(bid, terms),
  }
}

/** The outcomes with another probability for the first, the others keeping their proportions to each other. */
export function withFirst(outcomes: readonly Outcome[], probability: Decimal): readonly Outcome[] {
  const [first, ...others] = outcomes
  if (!first) return outcomes
  const rest = others.reduce((total, other) => total.plus(other.probability), new Decimal(0))
  const left = new Decimal(1).minus(probability)
  let given = new Decimal(0)
  return [
    { ...first, probability: probability.toFixed() },
    ...others.map((other, i) => {
      // The last takes what rounding left, so that all add up to one exactly.
      const last = i === others.length - 1
      const share = rest.isZero() ? left.dividedBy(others.length) : left.times(other.probability).dividedBy(rest)
      const own = last ? left.minus(given) : share.toDecimalPlaces(12)
      given = given.plus(own)
      return { ...other, probability: own.toFixed() }
    }),
  ]
}

export interface SensitivityPoint {
  /** Of the first outcome, 0–1. */
  readonly probability: number
  /** The largest sensible bid, 0 where there is none. */
  readonly bid: number
}

/** How the ceiling moves with the probability of the first outcome. @param steps at least one. */
export function ceilingSensitivity(outcomes: readonly Outcome[], preset: CostPreset, steps = 20): SensitivityPoint[] {
  return Array.from({ length: steps + 1 }, (_, i) => {
    const probability = new Decimal(i).dividedBy(steps)
    const { bid } = ceilingOf(expectedWorth(withFirst(outcomes, probability)), preset)
    return { probability: probability.toNumber(), bid: bid?.toNumber() ?? 0 }
  })
}

/**
 * The smallest probability of the first outcome, in steps of a tenth of a per cent, at which the price is still sensible.
 * @returns `null` where not even certainty makes it so.
 */
export function breakEvenFor(price: string, outcomes: readonly Outcome[], preset: CostPreset): Decimal | null {
  const cost = allInCost(new Decimal(price), termsOf(preset))
  const sensible = (thousandths: number) =>
    ceilingOf(
      expectedWorth(withFirst(outcomes, new Decimal(thousandths).dividedBy(1000))),
      preset,
    ).limit.greaterThanOrEqualTo(cost)
  if (!sensible(1000)) return null
  let [low, high] = [0, 1000]
  while (low < high) {
    const middle = (low + high) >> 1
    if (sensible(middle)) high = middle
    else low = middle + 1
  }
  return new Decimal(low).dividedBy(1000)
}

/**
 * Where the weighing of the open concerns would move the buyer's own starting probability of the first outcome: odds divided by the
 * likelihood ratio, with its halved and doubled weights as the range. Assumed weights make an assumed range, and whoever shows it
 * must say so.
 */
export function suggestRange(
  start: number,
  weighing: { readonly log10: number; readonly sensitivity: { readonly halved: number; readonly doubled: number } },
): { readonly low: number; readonly middle: number; readonly high: number } | null {
  if (!(start > 0 && start < 1)) return null
  const moved = (log10: number) => {
    const odds = (start / (1 - start)) * 10 ** -log10
    return odds / (1 + odds)
  }
  const all = [weighing.sensitivity.halved, weighing.log10, weighing.sensitivity.doubled].map(moved)
  return { low: Math.min(...all), middle: moved(weighing.log10), high: Math.max(...all) }
}

export interface ReturnDates {
  /** ISO 8601 dates. */
  readonly arrives: string
  readonly returnEnds: string | null
  readonly gradedBack: string | null
  /** Days by which grading outlasts the return window, 0 or less where it does not; `null` where one date is not known. */
  readonly tooLateBy: number | null
}

/** Both ends: that of the return window, which runs from arrival, and the day on which a submitted card is expected back. */
export function returnDates(
  bought: string,
  days: { readonly shipping: number; readonly returns: number | null; readonly grading: number | null },
): ReturnDates {
  const after = (count: number) =>
    new Date(Date.parse(`${bought}T00:00:00Z`) + count * 86_400_000).toISOString().slice(0, 10)
  const { shipping, returns, grading } = days
  return {
    arrives: after(shipping),
    returnEnds: returns === null ? null : after(shipping + returns),
    gradedBack: grading === null ? null : after(shipping + grading),
    tooLateBy: returns === null || grading === null ? null : grading - returns,
  }
}

/** The buyer's tax and duty rates were looked up long ago. */
export function areRatesOld({ ratesOf }: CostPreset, today: string): boolean {
  return (Date.parse(today) - Date.parse(ratesOf)) / 86_400_000 > RATES_OLD_AFTER
}
