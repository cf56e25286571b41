/**
 * Which views to ask for, most informative first: by the strength of the strongest open concern that the view would
 * settle, then by the bother of asking, then by the order of the checklist. Also the next best question.
 */
import type { Concern, Strength } from '../inspection.ts'
import type { ViewPack } from '../views/view-pack.ts'
import { VIEW_IDS, type ViewFinding, type ViewId } from '../views.ts'

const RANK: Readonly<Record<Strength, number>> = { strong: 3, medium: 2, weak: 1 }

type Asking = Pick<Concern, 'strength' | 'request' | 'settledBy' | 'weight' | 'group'>

/** What a view that no pack describes costs to ask for: between a snapshot (1) and tools (5). */
const USUAL_BOTHER = 3

/** The views that stand on the checklist: those that every such offer needs and those that open concerns ask for. */
export function neededViews(pack: ViewPack, concerns: readonly Asking[]): readonly ViewId[] {
  const needed = new Set(pack.views.filter((spec) => spec.needed === 'always').map((spec) => spec.view))
  for (const concern of concerns) if (concern.settledBy === null) for (const view of concern.request) needed.add(view)
  const order = [...pack.views.map((spec) => spec.view), ...VIEW_IDS]
  return [...needed].sort((a, b) => order.indexOf(a) - order.indexOf(b))
}

export function orderViews(
  findings: readonly ViewFinding[],
  concerns: readonly Asking[],
  pack: ViewPack,
): readonly ViewFinding[] {
  const bother = new Map(pack.views.map((spec) => [spec.view, spec.bother]))
  const worth = new Map<ViewId, { rank: number; gain: number }>()
  for (const concern of concerns) {
    if (concern.settledBy !== null) continue
    for (const view of concern.request) {
      const known = worth.get(view) ?? { rank: 0, gain: 0 }
      worth.set(view, {
        rank: Math.max(known.rank, RANK[concern.strength]),
        // What is lifted if the view settles the concern, in log₁₀; concerns of one group are lifted once.
        gain: Math.max(known.gain, Math.log10(concern.weight.likelihoodRatio)),
      })
    }
  }
  const key = ({ view }: ViewFinding) => ({
    rank: worth.get(view)?.rank ?? 0,
    gain: worth.get(view)?.gain ?? 0,
    bother: bother.get(view) ?? USUAL_BOTHER,
  })
  return findings
    .map((finding, index) => ({ finding, index, ...key(finding) }))
    .sort((a, b) => b.rank - a.rank || a.bother - b.bother || b.gain - a.gain || a.index - b.index)
    .map(({ finding }) => finding)
}
