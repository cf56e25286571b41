/**
 * Differences that have a plain explanation: a print that sits off the middle of its stock makes one border narrow and the one
 * across from it wide; fading takes chroma and gives lightness; old stock tones. What the person says outranks both.
 */
import type { Exemplar, Explanation, PointComparison } from '../domain/exemplar.ts'

export interface PersonsWord {
  /** What the person sees at points that only a person judges, by point. */
  readonly judged?: Readonly<Record<string, 'agrees' | 'differs' | 'cannot-tell'>>
  /** Why a difference is none that matters, by point, in the person's words. */
  readonly explained?: Readonly<Record<string, string>>
  /** Points that do not apply to this piece: a holder covers the edge, a variation lacks the mark. */
  readonly notApplicable?: readonly string[]
}

const ACROSS_FROM = { left: 'right', right: 'left', top: 'bottom', bottom: 'top' } as const
// Fading goes one way; beyond this many tolerances it is another ink. Ours.
const MOST_FADING = 2
const MOST_TONING = 2

export function explainDifferences(
  exemplar: Exemplar,
  comparisons: readonly PointComparison[],
  word: PersonsWord = {},
): PointComparison[] {
  return comparisons.map((comparison): PointComparison => {
    const { point: id, verdict } = comparison
    if (word.notApplicable?.includes(id)) {
      return { ...comparison, verdict: 'not-applicable', reason: 'set aside by the person', cause: null }
    }
    const judged = comparison.kind === 'judged' ? word.judged?.[id] : undefined
    if (judged !== undefined) return { ...comparison, verdict: judged, reason: 'judged by the person', cause: null }
    if (verdict !== 'differs') return comparison
    const words = word.explained?.[id]
    if (words !== undefined) return explain(comparison, { code: 'by-the-person', words })
    const code = findExplanation(exemplar, comparison, comparisons)
    return code ? explain(comparison, { code, words: '' }) : comparison
  })
}

function explain(comparison: PointComparison, explanation: Explanation): PointComparison {
  return { ...comparison, verdict: 'differs-explained', explanation }
}

function findExplanation(
  exemplar: Exemplar,
  comparison: PointComparison,
  all: readonly PointComparison[],
): Explanation['code'] | null {
  const point = exemplar.points.find(({ id }) => id === comparison.point)
  const { figures, tolerance } = comparison
  if (point?.kind === 'border-width' && !point.opposite) {
    const across = exemplar.points.find(
      (other) =>
        other.kind === 'border-width' &&
        !other.opposite &&
        other.side === point.side &&
        other.edge === ACROSS_FROM[point.edge],
    )
    const beside = all.find((other) => other.point === across?.id)
    if (beside?.value == null || beside.exemplar === null || comparison.value === null || comparison.exemplar === null)
      return null
    const [own, other] = [comparison.value - comparison.exemplar, beside.value - beside.exemplar]
    const allowed = Math.hypot(comparison.uncertainty ?? 0, beside.uncertainty ?? 0) + tolerance
    return own * other < 0 && Math.abs(own + other) <= allowed ? 'off-centre' : null
  }
  if (comparison.kind === 'tint' && comparison.value !== null && figures) {
    const { deltaL = 0, deltaChroma = 0 } = figures
    return deltaL > 0 && deltaChroma < 0 && comparison.value <= MOST_FADING * tolerance ? 'fading' : null
  }
  if (comparison.kind === 'paper-tone' && comparison.value !== null && comparison.exemplar !== null) {
    const yellower = comparison.value - comparison.exemplar
    return yellower > 0 && yellower <= MOST_TONING * tolerance ? 'toning' : null
  }
  return null
}
