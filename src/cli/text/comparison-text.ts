/** A comparison for a person: what could be laid over the exemplar, then each point with its figures and its reason. */
import type { Exemplar } from '../../domain/exemplar.ts'
import type { Comparison } from '../../imaging/compare-photos.ts'
import { columns, paragraphs, safe, wrap } from './lay-out.ts'

const VERDICT_MARK = {
  agrees: '● agrees',
  'differs-explained': '△ differs, explained',
  differs: '▲ differs',
  'cannot-tell': '? cannot tell',
  'not-applicable': '– not applicable',
} as const

export function comparisonText(exemplar: Exemplar, comparison: Comparison): string {
  const photos = comparison.photos.map(({ file, registered, side, pxPerMm, reason }) => [
    safe(file),
    registered ? `${side}, ${pxPerMm} px/mm` : `not laid over the exemplar: ${reason}`,
  ])
  const points = comparison.points.map(({ point, kind, verdict, reason }) => {
    const name = exemplar.points.find(({ id }) => id === point)?.name ?? point
    return wrap(`${VERDICT_MARK[verdict]}  ${safe(name)} (${kind}): ${reason}`, '      ', '  ')
  })
  return paragraphs(
    wrap(safe(exemplar.title)),
    columns(photos),
    points.length > 0 && `Points\n${points.join('\n')}`,
    'Agreement on points is no proof; an expert with the card in hand decides.',
  )
}
