/** Waits for what was asked of a port: nothing for an instant, then a quiet word, then the answer or the fault. */
import type { ComponentChildren } from 'preact'
import { FaultText } from '../parts/FaultText.tsx'
import { useWording } from '../wording.ts'
import type { Loaded } from './use-loaded.ts'

export function Ready<T>({ loaded, children }: { loaded: Loaded<T>; children: (value: T) => ComponentChildren }) {
  const { t } = useWording()
  if (loaded.phase === 'loading') return <p class="quiet late">{t('desk.loading')}</p>
  if (loaded.phase === 'failed')
    return (
      <p role="alert">
        <FaultText fault={loaded.fault} />
      </p>
    )
  return <>{children(loaded.value)}</>
}
