/** What needs the person today, over all dossiers: what is over or near, what nobody answered, what waits to be checked. Pure. */
import type { DossierSummary } from '../dossier-summary.ts'
import type { DeadlineState } from './derive-state.ts'

/** Days ahead that count as near. Ours, no source. */
const NEAR_DAYS = 3
/** Days without an answer after which a question is worth repeating. Ours, no source. */
const PATIENCE_DAYS = 3
const DAY_MS = 86_400_000

export const DUE_REASONS = ['over', 'near', 'to-check', 'no-answer', 'answered'] as const
export type DueReason = (typeof DUE_REASONS)[number]

export interface Due {
  readonly summary: DossierSummary
  readonly reason: DueReason
  readonly deadline: Pick<DeadlineState, 'id' | 'kind' | 'at' | 'zone'> | null
  /** ISO 8601 in UTC: of the deadline, or since when it waits. */
  readonly at: string
}

/** One line a dossier, by its most urgent reason; most urgent first, and within a reason the longest waiting. */
export function dueToday(summaries: readonly DossierSummary[], now: string): Due[] {
  return summaries
    .flatMap((summary) => dueOf(summary, now) ?? [])
    .sort(
      (a, b) =>
        DUE_REASONS.indexOf(a.reason) - DUE_REASONS.indexOf(b.reason) || (a.at < b.at ? -1 : a.at > b.at ? 1 : 0),
    )
}

function dueOf(summary: DossierSummary, now: string): Due | null {
  const { life } = summary
  if (life === undefined || summary.deletedAt !== null || life.stage === 'closed') return null
  const [first] = life.deadlines
  if (first !== undefined && first.at <= now) return { summary, reason: 'over', deadline: first, at: first.at }
  if (first !== undefined && Date.parse(first.at) - Date.parse(now) <= NEAR_DAYS * DAY_MS)
    return { summary, reason: 'near', deadline: first, at: first.at }
  if (life.decision === 'declined' || life.decision === 'lost') return null
  const { stage, since, waitingSince } = life
  if (stage === 'arrived' && since !== null) return { summary, reason: 'to-check', deadline: null, at: since }
  if (waitingSince !== null && Date.parse(now) - Date.parse(waitingSince) >= PATIENCE_DAYS * DAY_MS)
    return { summary, reason: 'no-answer', deadline: null, at: waitingSince }
  if ((stage === 'answered' || stage === 'answered-in-part') && since !== null && waitingSince === null)
    return { summary, reason: 'answered', deadline: null, at: since }
  return null
}
