/**
 * The stance from what is open, by one table. Monotone: adding an open concern or view never relaxes it, settling one
 * never tightens it. Must not weigh: strengths are the rules' business.
 *
 * | open                                              | stance         |
 * | ------------------------------------------------- | -------------- |
 * | a strong concern                                  | `wait`         |
 * | else any concern, or a needed view not shown      | `ask`          |
 * | nothing                                           | `nothing-open` |
 */
import type { Concern, Stance } from '../inspection.ts'
import type { Translate } from '../translate.ts'
import type { ViewFinding } from '../views.ts'

/** Least cautious first. */
export const STANCES: readonly Stance[] = ['nothing-open', 'ask', 'wait']

export interface StanceTaken {
  readonly stance: Stance
  /** One sentence in the interface's language. */
  readonly reason: string
}

/** @param views the needed ones only. */
export function takeStance(
  concerns: readonly Pick<Concern, 'strength' | 'settledBy'>[],
  views: readonly Pick<ViewFinding, 'status'>[],
  translate: Translate,
): StanceTaken {
  const open = concerns.filter((concern) => concern.settledBy === null)
  const strong = open.filter((concern) => concern.strength === 'strong').length
  if (strong > 0) return { stance: 'wait', reason: translate('stance_wait', { count: strong }) }
  const unseen = views.filter((view) => view.status !== 'shown').length
  if (open.length > 0) return { stance: 'ask', reason: translate('stance_ask', { count: open.length }) }
  if (unseen > 0) return { stance: 'ask', reason: translate('stance_ask_views', { count: unseen }) }
  return { stance: 'nothing-open', reason: translate('stance_nothing_open') }
}
