/**
 * Weights from the buyer's own outcomes: how often a rule was raised where something turned out wrong, and where nothing
 * did. Beta-Binomial with the assumed weight as prior; below FEWEST_OUTCOMES it stays called assumed.
 */
import type { RuleOutcomes } from '../grader-book.ts'
import type { Weight } from '../inspection.ts'

/** Fewer outcomes than this say too little to be called learned; ours, a round number. */
export const FEWEST_OUTCOMES = 20

/** A ratio of two shares needs some of both: so many that ended badly and so many that ended well; ours, no source. */
export const FEWEST_OF_EACH = 5

/**
 * The assumed weight counts as this many earlier outcomes of each kind: enough that a handful of real ones does not
 * overturn it, few enough that twenty do show. Ours, no source.
 */
export const PRIOR_OUTCOMES = 10

/** Share of sound listings in which a sign is assumed to be raised anyway; ours, no source. */
export const ASSUMED_FALSE_RATE = 0.05

export interface Beta {
  readonly a: number
  readonly b: number
}

/** Successes and failures added to a Beta prior. */
export function updateBeta(prior: Beta, successes: number, failures: number): Beta {
  return { a: prior.a + successes, b: prior.b + failures }
}

export function meanOf({ a, b }: Beta): number {
  return a / (a + b)
}

export function deviationOf({ a, b }: Beta): number {
  return Math.sqrt((a * b) / ((a + b) ** 2 * (a + b + 1)))
}

/** The two rates whose ratio is the assumed weight, as priors. */
export function priorOf(assumed: number): { readonly raisedWhereWrong: Beta; readonly raisedWhereSound: Beta } {
  // A rate ends below 1: a very strong sign is rarer among sound listings, not certain among the others.
  const wrong = Math.min(assumed * ASSUMED_FALSE_RATE, 0.9)
  const beta = (rate: number): Beta => ({ a: rate * PRIOR_OUTCOMES, b: (1 - rate) * PRIOR_OUTCOMES })
  return { raisedWhereWrong: beta(wrong), raisedWhereSound: beta(wrong / assumed) }
}

export function weighRule(assumed: number, outcomes: RuleOutcomes | null): Weight {
  const count = outcomes === null ? 0 : Object.values(outcomes).reduce((sum, n) => sum + n, 0)
  if (outcomes === null || count === 0) return { likelihoodRatio: assumed, basis: 'assumed', count: 0 }
  // A sign that was never seen has taught nothing about itself, however many dossiers ended without it.
  if (outcomes.raisedWrong + outcomes.raisedSound === 0) return { likelihoodRatio: assumed, basis: 'assumed', count }
  const prior = priorOf(assumed)
  const wrong = updateBeta(prior.raisedWhereWrong, outcomes.raisedWrong, outcomes.silentWrong)
  const sound = updateBeta(prior.raisedWhereSound, outcomes.raisedSound, outcomes.silentSound)
  const likelihoodRatio = meanOf(wrong) / meanOf(sound)
  const ofEach = Math.min(outcomes.raisedWrong + outcomes.silentWrong, outcomes.raisedSound + outcomes.silentSound)
  const learned = count >= FEWEST_OUTCOMES && ofEach >= FEWEST_OF_EACH
  return { likelihoodRatio, basis: learned ? 'learned' : 'assumed', count }
}
