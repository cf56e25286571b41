/** The card's outline on one photo, set by the person: four corners dragged under a magnifier or moved by keys. */
import { useEffect, useRef, useState } from 'preact/hooks'
import type { DrawnCorners } from '../../domain/exemplar.ts'
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import { CornerHandles, FIRST_CORNERS } from '../desk/CornerHandles.tsx'
import { useWording } from '../wording.ts'

interface PhotoCornersProps {
  readonly src: string
  readonly facts: PhotoFacts
  readonly byHand: boolean
  readonly onSet: (corners: DrawnCorners | null) => void
  readonly onClose: () => void
}

function cornersOf({ card, width, height }: PhotoFacts): DrawnCorners {
  if (card === null || !width || !height) return FIRST_CORNERS
  return card.corners.map(([x, y]) => [x / width, y / height]) as unknown as DrawnCorners
}

export function PhotoCorners({ src, facts, byHand, onSet, onClose }: PhotoCornersProps) {
  const { t } = useWording()
  const dialog = useRef<HTMLDialogElement>(null)
  const [corners, setCorners] = useState(() => cornersOf(facts))
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal()
  }, [])
  const leave = (set?: DrawnCorners | null) => {
    if (set !== undefined) onSet(set)
    dialog.current?.close()
  }
  return (
    <dialog ref={dialog} class="photo-dialog" aria-label={t('corners.label')} onClose={onClose}>
      <h2>{t('corners.label')}</h2>
      <p class="hint">{t('corners.hint')}</p>
      <div class="corner-picture">
        <img src={src} alt="" draggable={false} />
        <CornerHandles
          corners={corners}
          onChange={setCorners}
          picture={{ src, width: facts.width ?? 1, height: facts.height ?? 1 }}
        />
      </div>
      <footer>
        <button type="button" class="button" onClick={() => leave(corners)}>
          {t('corners.set')}
        </button>
        {byHand && (
          <button type="button" class="button" onClick={() => leave(null)}>
            {t('corners.give-back')}
          </button>
        )}
        <button type="button" class="button" onClick={() => leave()}>
          {t('corners.leave')}
        </button>
      </footer>
    </dialog>
  )
}
