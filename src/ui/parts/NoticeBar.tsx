/** Says how an action ended: a live region that is always there, and a bar with the words, a remedy and an undo. */
import { useEffect } from 'preact/hooks'
import { useWording } from '../wording.ts'
import type { Actions } from './actions.ts'
import { FaultText } from './FaultText.tsx'
import { Icon } from './shapes.tsx'

/** Long enough to reach "Undo" by keyboard: WCAG 2.2.1 asks for at least 20 s where time is limited. */
const SHOWN_FOR_MS = 20_000

export function NoticeBar({ actions }: { actions: Actions }) {
  const { t } = useWording()
  const notice = actions.notice.value
  useEffect(() => {
    if (notice === null || notice.fault !== null) return
    const timer = setTimeout(() => {
      if (actions.notice.value?.id === notice.id) actions.dismiss()
    }, SHOWN_FOR_MS)
    return () => clearTimeout(timer)
  }, [notice, actions])

  return (
    <div class="notice-bar" role="status" aria-live="polite">
      {notice !== null && (
        <div class="notice" key={notice.id}>
          <div class="notice-text">{notice.fault === null ? notice.text : <FaultText fault={notice.fault} />}</div>
          {notice.undo !== null && (
            <button
              type="button"
              class="button on-stone"
              onClick={() => {
                notice.undo?.()
                actions.dismiss()
              }}
            >
              {t('action.undo')}
            </button>
          )}
          <button type="button" class="icon-button on-stone" aria-label={t('action.dismiss')} onClick={actions.dismiss}>
            <Icon name="close" />
          </button>
        </div>
      )}
    </div>
  )
}
