/** The hash under which bytes are kept, in full: it is what a dispute is settled by. */
import { useWording } from '../wording.ts'

export function Hash({ sha256 }: { sha256: string | null }) {
  const { t } = useWording()
  if (sha256 === null) return <span class="hash">{t('picture.not-kept')}</span>
  return (
    <span class="hash">
      SHA-256 <code>{sha256}</code>
    </span>
  )
}
