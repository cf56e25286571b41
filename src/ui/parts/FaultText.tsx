/** A fault in one sentence, what to do about it, and its exact words folded away for whoever reports it. */
import type { Fault } from '../fault.ts'
import { useWording } from '../wording.ts'

export function FaultText({ fault }: { fault: Fault }) {
  const { t } = useWording()
  return (
    <>
      <strong>{t(`fault.${fault.code}`)}</strong> {t(`fault.${fault.code}.remedy`)}
      {fault.detail !== '' && (
        <details class="fault-detail">
          <summary>{t('fault.exact')}</summary>
          <bdi>{fault.detail}</bdi>
        </details>
      )}
    </>
  )
}
