/** How far a piece of work is, and the way out of it. */
import { useWording } from '../wording.ts'
import type { ProgressWork } from './use-progress.ts'

export function ShareDone({ work, label }: { work: ProgressWork; label: string }) {
  const { t } = useWording()
  return (
    <div class="photo-progress" role="status">
      <progress max={1} value={work.share ?? 0} aria-label={label} />
      <button type="button" class="button small" onClick={work.cancel}>
        {t('action.cancel')}
      </button>
    </div>
  )
}
