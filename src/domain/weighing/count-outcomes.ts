/**
 * From the buyer's finished dossiers to counts for each rule: was it raised, and was something wrong in the end?
 * Dossiers whose end is not known count for nothing.
 */
import type { Outcome } from '../facts.ts'
import type { RuleOutcomes } from '../grader-book.ts'

export interface EndedDossier {
  readonly outcome: Outcome | null
  /** Rules raised when the dossier was kept. */
  readonly raised: readonly string[]
  /** Rules looked at then: a rule that did not exist yet was not silent. */
  readonly looked: readonly string[]
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
