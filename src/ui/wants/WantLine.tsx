/** The offer in front fits something that the buyer wants: one line, with the most to pay. */
import type { WantFit } from '../../domain/pricing/want.ts'
import { useWording } from '../wording.ts'

export function WantLine({ want }: { want: WantFit | null }) {
  const { t, money } = useWording()
  if (want === null) return null
  const most = want.want.most
  return (
    <p class="want-line" role="note">
      <span class={`want-mark is-${want.price}`} aria-hidden="true" />
      <span>
        <strong>{t(`wants.fits.${want.price}`)}</strong> {most !== null && t('wants.most-is', { amount: money(most) })}{' '}
        {want.want.note !== '' && <span class="quiet">{want.want.note}</span>}
      </span>
    </p>
  )
}
