/**
 * Which views to ask for, most informative first: by the strength of the strongest open concern that the view would
 * settle, then by the bother of asking, then by the expected change, then by the order of the checklist.
 */
import type { Concern, Strength } from '../inspection.ts'
import type { ViewPack } from '../views/view-pack.ts'
import { VIEW_IDS, type ViewFinding, type ViewId } from '../views.ts'
import { expectChange } from './expect-change.ts'

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
  const open = concerns.filter((concern) => concern.settledBy === null)
  return findings
    .map((finding, index) => ({
      finding,
      index,
      rank: Math.max(
        0,
        ...open.filter((concern) => concern.request.includes(finding.view)).map((c) => RANK[c.strength]),
      ),
      bother: bother.get(finding.view) ?? USUAL_BOTHER,
      change: expectChange(finding.view, open),
    }))
    .sort((a, b) => b.rank - a.rank || a.bother - b.bother || b.change - a.change || a.index - b.index)
    .map(({ finding }) => finding)
}

/**
 * The next best question: the view to ask for if only one may be; `null` where nothing is open.
 * @param ordered the open views, most informative first, as `orderViews` gives them.
 */
export function nextQuestion(
  ordered: readonly ViewFinding[],
  concerns: readonly Asking[],
): { readonly view: ViewId; readonly expectedChange: number } | null {
  const [first] = ordered
  return first ? { view: first.view, expectedChange: expectChange(first.view, concerns) } : null
}
