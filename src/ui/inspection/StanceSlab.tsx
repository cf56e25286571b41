/** The stance on its stone: streak, word and one sentence. `nothing-open` always says that it proves nothing. */
import type { Inspection } from '../../domain/inspection.ts'
import { useWording } from '../wording.ts'
import { StanceStreak } from './StanceStreak.tsx'

export function StanceSlab({ inspection }: { inspection: Pick<Inspection, 'stance' | 'stanceReason'> }) {
  const { t } = useWording()
  return (
    <section class={`stance stance-${inspection.stance}`} aria-labelledby="stance-heading">
      <StanceStreak stance={inspection.stance} />
      <h2 id="stance-heading" class="stance-word">
        {t(`stance.${inspection.stance}`)}
      </h2>
      <p class="stance-reason">{inspection.stanceReason}</p>
      {inspection.stance === 'nothing-open' && <p class="stance-caution">{t('stance.no-proof')}</p>}
    </section>
  )
}
