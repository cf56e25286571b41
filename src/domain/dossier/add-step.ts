/** One more step in a dossier's log. Pure: time and id come from the caller. */
import type { Dossier, LifeStep } from '../dossier.ts'
import { deriveState } from './derive-state.ts'
import { entryName } from './standing-entries.ts'

/** No such entry, or it can no longer be taken back. */
export class NothingToUndo extends Error {
  override readonly name = 'NothingToUndo'
}

/**
 * The dossier's fields after one more step. `outcome` is kept beside the log for lists and weights, always as the log has it.
 * Throws `NothingToUndo` where an `undone` names no entry before it, or the first, without which there is no dossier.
 */
export function addStep(
  dossier: Pick<Dossier, 'log' | 'outcome'>,
  step: LifeStep,
  stamp: { readonly at: string; readonly id: string },
): Pick<Dossier, 'log' | 'outcome'> {
  if (step.event === 'undone') {
    const index = dossier.log.findIndex((_, place) => entryName(dossier.log, place) === step.entry)
    if (index < 1) throw new NothingToUndo(step.entry)
  }
  const log = [...dossier.log, { ...step, ...stamp }]
  return { log, outcome: deriveState(log).outcome }
}
