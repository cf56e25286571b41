/**
 * The buyer's ended dossiers counted up for the weights, and set against what the weights had led one to expect. A check of the
 * weights over many dossiers; nothing here says anything about one card.
 */
import type { Ending, OutcomeTally } from '../ending.ts'
import { countOutcomes, forecastEnds } from './count-outcomes.ts'
import { type BrierScore, scoreBrier } from './score-brier.ts'

/** Rows of the reliability table: fifths can be read at a glance, and thirty outcomes still fill them. Ours, no source. */
const RELIABILITY_BINS = 5

const words = (ids: string): string[] => (ids === '' ? [] : ids.split(' '))

export function tallyEndings(endings: readonly Ending[]): OutcomeTally {
  const wrong = endings.filter(({ outcome }) => outcome !== 'genuine').length
  return {
    byRule: countOutcomes(
      endings.map(({ outcome, looked, raised }) => ({ outcome, looked: words(looked), raised: words(raised) })),
    ),
    sound: endings.length - wrong,
    wrong,
  }
}

/** `null` without an ending whose weights were kept. */
export function scoreEndings(endings: readonly Ending[]): BrierScore | null {
  const weighed = endings.flatMap(({ outcome, log10 }) => (log10 === null ? [] : [{ outcome, log10 }]))
  return scoreBrier(forecastEnds(weighed), RELIABILITY_BINS)
}
