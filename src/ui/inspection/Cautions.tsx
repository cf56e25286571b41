/** What nobody may read into any of this. Short, and never more than one press away. */
import { useWording } from '../wording.ts'

export const CAUTIONS = ['photos', 'no-fault', 'expert', 'no-accusation', 'deadlines', 'advice'] as const

export function Cautions({ open = false }: { open?: boolean }) {
  const { t } = useWording()
  return (
    <details class="cautions" open={open}>
      <summary>{t('cautions.heading')}</summary>
      <ul>
        {CAUTIONS.map((caution) => (
          <li key={caution}>{t(`caution.${caution}`)}</li>
        ))}
      </ul>
    </details>
  )
}
