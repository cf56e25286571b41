/**
 * What a dossier that has ended teaches the weights: which rules were looked at, which were raised, and how it ended.
 * Derived from the dossier and kept beside it in a few hundred bytes, so that thousands are counted in a moment.
 */
import type { Dossier } from './dossier.ts'
import type { Outcome } from './facts.ts'
import type { RuleOutcomes } from './grader-book.ts'

export interface Ending {
  /** Of the dossier. */
  readonly id: string
  readonly outcome: Outcome
  /** Rule ids, joined by blanks: one string is stored and read far faster than seventy. */
  readonly looked: string
  readonly raised: string
  /** Sum of the open concerns' weights when the dossier was kept, in log₁₀; `null`: kept before weights were. */
  readonly log10: number | null
}

/** All endings, counted up. */
export interface OutcomeTally {
  readonly byRule: Readonly<Record<string, RuleOutcomes>>
  /** Ended well or badly; dossiers whose end is not known count for nothing. */
  readonly sound: number
  readonly wrong: number
}

/** `null` where nothing can be learned: still open, end never known, or deleted. */
export function endingOf({ id, outcome, deletedAt, inspection }: Dossier): Ending | null {
  if (outcome === null || outcome === 'never-known' || deletedAt !== null) return null
  const raised = new Set(inspection.concerns.map(({ rule }) => rule))
  for (const line of inspection.trace ?? []) if (line.raised) raised.add(line.rule)
  const looked = new Set([...(inspection.trace ?? []).map(({ rule }) => rule), ...raised])
  return {
    id,
    outcome,
    looked: [...looked].join(' '),
    raised: [...raised].join(' '),
    log10: inspection.weighing?.log10 ?? null,
  }
}

/** Whether an ending may have to be written or taken away: one that was taken back stands in the log. */
export function hasEverEnded({ outcome, log }: Pick<Dossier, 'outcome' | 'log'>): boolean {
  return outcome !== null || log.some(({ event }) => event === 'outcome')
}
