/**
 * How much hangs on the weights, in plain words: what the open signs come to together, and what they would if every weight were
 * half or twice as strong. An assumed figure is called assumed and no measurement; support is worded only where it is learned.
 */
import type { Concern, Weighing as Weighed } from '../../domain/inspection.ts'
import { expressSupport } from '../../domain/weighing/verbal-scale.ts'
import { useWording } from '../wording.ts'

/** Above this no number says more than "very many". */
const MOST_SAID = 1_000_000

export function Weighing({ weighing, concerns }: { weighing: Weighed; concerns: readonly Concern[] }) {
  const { t, number, list } = useWording()
  // One sign has nothing to be put together with: its own weight stands beside it.
  if (weighing.groups.length < 2) return null
  const times = (log10: number) => {
    const ratio = 10 ** log10
    return ratio > MOST_SAID ? t('weighing.over-million') : number(ratio, { maximumSignificantDigits: 1 })
  }
  const figures = {
    together: times(weighing.log10),
    halved: times(weighing.sensitivity.halved),
    doubled: times(weighing.sensitivity.doubled),
  }
  const titles = weighing.groups.flatMap(({ rule }) => concerns.find((concern) => concern.rule === rule)?.title ?? [])
  const { level } = expressSupport(10 ** weighing.log10)
  return (
    <details class="weighing">
      <summary>{t('weighing.heading')}</summary>
      <p>
        {weighing.basis === 'learned'
          ? t('weighing.learned', { ...figures, support: t(`weighing.support.${level}`) })
          : t('weighing.assumed', figures)}
      </p>
      <p>{t('weighing.groups', { list: list(titles) })}</p>
      <p>{t('weighing.stance')}</p>
    </details>
  )
}
