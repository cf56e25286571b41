/**
 * Photos enlarged, one at a time: whole at first, then pixel for pixel with scrolling. Left and right arrow go to the next
 * one while it is seen whole and scroll where it is not; Escape closes. Shows what it is given and fetches nothing.
 */
import { useEffect, useRef, useState } from 'preact/hooks'
import { useWording } from '../wording.ts'
import { Icon } from './shapes.tsx'

export interface ViewedPhoto {
  readonly src: string
  readonly alt: string
}

interface PhotoViewerProps {
  readonly photos: readonly ViewedPhoto[]
  readonly index: number
  readonly onMove: (index: number) => void
  readonly onClose: () => void
}

export function PhotoViewer({ photos, index, onMove, onClose }: PhotoViewerProps) {
  const { t } = useWording()
  const dialog = useRef<HTMLDialogElement>(null)
  const pane = useRef<HTMLElement>(null)
  const [whole, setWhole] = useState(true)
  const [pixels, setPixels] = useState<{ readonly width: number; readonly height: number } | null>(null)
  const photo = photos[index]

  useEffect(() => {
    // The dialog gives the focus back to where it was, by itself.
    if (!dialog.current?.open) dialog.current?.showModal()
  }, [])
  useEffect(() => setWhole(true), [index])

  const move = (by: number) => onMove((index + by + photos.length) % photos.length)
  const press = (event: KeyboardEvent) => {
    const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0
    if (by === 0 || photos.length < 2 || (!whole && event.target === pane.current)) return
    event.preventDefault()
    move(by)
  }
  /** Shares of the photo that are to come into the middle. */
  const enlarge = (x: number, y: number) => {
    setWhole(false)
    requestAnimationFrame(() => {
      const box = pane.current
      if (box === null) return
      box.focus()
      box.scrollLeft = x * box.scrollWidth - box.clientWidth / 2
      box.scrollTop = y * box.scrollHeight - box.clientHeight / 2
    })
  }
  const onPicture = (event: MouseEvent) => {
    if (!whole) return setWhole(true)
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect()
    enlarge((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height)
  }
  if (photo === undefined) return null
  const ratio = globalThis.devicePixelRatio || 1

  return (
    <dialog ref={dialog} class="photo-viewer" aria-label={t('viewer.label')} onClose={onClose} onKeyDown={press}>
      <header class="viewer-head">
        <p aria-live="polite">
          {t('viewer.place', { number: index + 1, total: photos.length })}
          {pixels !== null && <span class="viewer-size">{t('photo.size', pixels)}</span>}
        </p>
        {photos.length > 1 && (
          <>
            <button
              type="button"
              class="icon-button on-stone"
              aria-label={t('viewer.previous')}
              onClick={() => move(-1)}
            >
              <Icon name="previous" />
            </button>
            <button type="button" class="icon-button on-stone" aria-label={t('viewer.next')} onClick={() => move(1)}>
              <Icon name="next" />
            </button>
          </>
        )}
        <button
          type="button"
          class="button small on-stone"
          aria-pressed={!whole}
          onClick={() => (whole ? enlarge(0.5, 0.5) : setWhole(true))}
        >
          {t('viewer.real-pixels')}
        </button>
        <button
          type="button"
          class="icon-button on-stone"
          aria-label={t('viewer.close')}
          onClick={() => dialog.current?.close()}
        >
          <Icon name="close" />
        </button>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section ref={pane} class={`viewer-pane${whole ? ' is-whole' : ''}`} tabIndex={0} aria-label={photo.alt}>
        {/* biome-ignore lint/a11y/useKeyWithClickEvents: the button above does the same by keyboard */}
        <img
          key={photo.src}
          src={photo.src}
          alt={photo.alt}
          onLoad={({ currentTarget: { naturalWidth, naturalHeight } }) =>
            setPixels({ width: naturalWidth, height: naturalHeight })
          }
          onClick={onPicture}
          style={whole || pixels === null ? undefined : { width: `${pixels.width / ratio}px` }}
        />
      </section>
    </dialog>
  )
}
