/**
 * From the buyer's finished dossiers to counts for each rule: was it raised, and was something wrong in the end?
 * Dossiers whose end is not known count for nothing.
 */
import type { Outcome } from '../facts.ts'
import type { RuleOutcomes } from '../grader-book.ts'
import { updateProbability } from './combine-evidence.ts'
import type { Forecast } from './score-brier.ts'

export interface EndedDossier {
  readonly outcome: Outcome | null
  /** Rules raised when the dossier was kept. */
  readonly raised: readonly string[]
  /** Rules looked at then: a rule that did not exist yet was not silent. */
  readonly looked: readonly string[]
}

/**
 * What the weights would have said of dossiers that have ended, for the Brier score: the buyer's own share of bad ends,
 * moved by each dossier's weight. A check of the weights over many dossiers, never a statement about one.
 * @param dossiers with the sum of their open concerns in log₁₀, as the inspection of then gives it.
 */
export function forecastEnds(
  dossiers: readonly { readonly outcome: Outcome | null; readonly log10: number }[],
): Forecast[] {
  const ended = dossiers.filter(({ outcome }) => outcome !== null && outcome !== 'never-known')
  const bad = ended.filter(({ outcome }) => outcome !== 'genuine').length
  // One of each kind added, so that a share of none or all does not silence every weight (Laplace).
  const prior = (bad + 1) / (ended.length + 2)
  return ended.map(({ outcome, log10 }) => ({
    probability: updateProbability(prior, 10 ** log10),
    happened: outcome !== 'genuine',
  }))
}

export function countOutcomes(dossiers: readonly EndedDossier[]): Record<string, RuleOutcomes> {
  const counts: Record<string, { -readonly [K in keyof RuleOutcomes]: number }> = {}
  for (const { outcome, raised, looked } of dossiers) {
    if (outcome === null || outcome === 'never-known') continue
    const wrong = outcome !== 'genuine'
    const wasRaised = new Set(raised)
    for (const rule of looked) {
      counts[rule] ??= { raisedWrong: 0, silentWrong: 0, raisedSound: 0, silentSound: 0 }
      const count = counts[rule]
      if (wasRaised.has(rule)) count[wrong ? 'raisedWrong' : 'raisedSound'] += 1
      else count[wrong ? 'silentWrong' : 'silentSound'] += 1
    }
  }
  return counts
}
