/** A comparison for a person: what could be laid over the exemplar, then each point with its figures and its reason. */
import type { Exemplar } from '../../domain/exemplar.ts'
import type { SamePiece } from '../../domain/same-piece.ts'
import type { Comparison } from '../../imaging/compare-photos.ts'
import { columns, paragraphs, safe, wrap } from './lay-out.ts'

const VERDICT_MARK = {
  agrees: '● agrees',
  'differs-explained': '△ differs, explained',
  differs: '▲ differs',
  'cannot-tell': '? cannot tell',
  'not-applicable': '– not applicable',
} as const

const SAME_WORDS = {
  'consistent-with-same': 'What shows is consistent with one and the same piece',
  different: 'What shows speaks for another copy of the issue',
  'cannot-tell': 'Cannot tell',
} as const

export function comparisonText(exemplar: Exemplar, comparison: Comparison, same: SamePiece | null): string {
  const photos = comparison.photos.map(({ file, registered, side, pxPerMm, reason }) => [
    safe(file),
    registered ? `${side}, ${pxPerMm} px/mm` : `not laid over the exemplar: ${reason}`,
  ])
  const points = comparison.points.map(({ point, kind, verdict, reason, explanation, passedBy = [] }) => {
    const name = exemplar.points.find(({ id }) => id === point)?.name ?? point
    const explained = explanation ? ` Explained: ${safe(explanation.words) || explanation.code}.` : ''
    const passing = passedBy.map((make) => safe(exemplar.copies.find(({ id }) => id === make)?.name ?? make))
    const weightless =
      verdict === 'agrees' && passing.length > 0
        ? ` Copies pass this too (${passing.join(', ')}): it weighs nothing.`
        : ''
    return wrap(
      `${VERDICT_MARK[verdict]}  ${safe(name)} (${kind}): ${reason}.${explained}${weightless}`,
      '      ',
      '  ',
    )
  })
  return paragraphs(
    wrap(safe(exemplar.title)),
    columns(photos),
    points.length > 0 && `Points\n${points.join('\n')}`,
    same && `The same piece as in the earlier picture? ${SAME_WORDS[same.verdict]} (${same.reason}).`,
    'Agreement on points is no proof; an expert with the card in hand decides.',
  )
}
