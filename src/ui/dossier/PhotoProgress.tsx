/** How many photos are examined, and a way out. */
import { useWording } from '../wording.ts'
import type { Cancellable } from './use-cancellable.ts'

export function PhotoProgress({ work }: { work: Cancellable }) {
  const { t } = useWording()
  if (work.progress === null || work.progress.total === 0) return null
  const { done, total } = work.progress
  return (
    <p class="photo-progress" role="status">
      <progress value={done} max={total} aria-label={t('reply.progress', { done, total })} />
      <span>{t('reply.progress', { done, total })}</span>
      <button type="button" class="link-button" onClick={work.cancel}>
        {t('action.cancel')}
      </button>
    </p>
  )
}
