/** How far a long piece of work is, and the button that stops it. */
import { useWording } from '../wording.ts'
import type { Work } from './use-work.ts'

export function WorkBar({ work, label }: { work: Work; label: string }) {
  const { t, percent } = useWording()
  if (work.share === null) return null
  return (
    <p class="work-bar">
      <span>{label}</span>
      <progress value={work.share} max={1} aria-label={label} />
      <span class="quiet">{percent(work.share)}</span>
      <button type="button" class="button small" onClick={work.cancel}>
        {t('action.cancel')}
      </button>
    </p>
  )
}
