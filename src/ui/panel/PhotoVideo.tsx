/** Frames of a video as photos: the person stops where the card shows what is asked, and takes that frame. Sends nothing anywhere. */
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

interface VideoFramesProps {
  readonly video: File
  readonly onFrame: (frame: File) => void
  readonly onClose: () => void
}

/** Seconds: about two frames of a phone's video. */
const SMALL_STEP = 0.07
// Good enough that nothing of the video's own pixels is lost to it.
const JPEG_QUALITY = 0.95

export function VideoFrames({ video, onFrame, onClose }: VideoFramesProps) {
  const { t, number } = useWording()
  const dialog = useRef<HTMLDialogElement>(null)
  const player = useRef<HTMLVideoElement>(null)
  const address = useMemo(() => URL.createObjectURL(video), [video])
  const [at, setAt] = useState(0)
  const [state, setState] = useState<'loading' | 'ready' | 'failed'>('loading')
  const [taken, setTaken] = useState(0)
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal()
    return () => URL.revokeObjectURL(address)
  }, [address])

  const go = (seconds: number) => {
    const box = player.current
    if (box === null) return
    box.pause()
    box.currentTime = Math.min(Math.max(seconds, 0), box.duration || 0)
  }
  const take = async () => {
    const box = player.current
    if (box === null || box.videoWidth === 0) return
    box.pause()
    const canvas = document.createElement('canvas')
    canvas.width = box.videoWidth
    canvas.height = box.videoHeight
    canvas.getContext('2d')?.drawImage(box, 0, 0)
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', JPEG_QUALITY))
    if (blob === null) return setState('failed')
    const second = box.currentTime.toFixed(2)
    onFrame(new File([blob], `${video.name} ${second} s.jpg`, { type: 'image/jpeg' }))
    setTaken((before) => before + 1)
  }
  const shown = number(at, { minimumFractionDigits: 2, maximumFractionDigits: 2 })

  return (
    <dialog ref={dialog} class="photo-dialog" aria-label={t('video.label')} onClose={onClose}>
      <h2>{t('video.label')}</h2>
      {state === 'failed' ? (
        <p role="alert">{t('video.failed')}</p>
      ) : (
        <>
          <video
            ref={player}
            src={address}
            muted
            controls
            playsInline
            onLoadedData={() => setState('ready')}
            onTimeUpdate={(event) => setAt(event.currentTarget.currentTime)}
            onSeeked={(event) => setAt(event.currentTarget.currentTime)}
            onError={() => setState('failed')}
          />
          <div class="video-steps">
            <button type="button" class="icon-button" aria-label={t('video.back')} onClick={() => go(at - SMALL_STEP)}>
              <Icon name="previous" />
            </button>
            <label>
              {t('video.second')}
              <input
                type="number"
                min="0"
                step="0.1"
                value={at.toFixed(2)}
                onChange={(event) => go(Number(event.currentTarget.value))}
              />
            </label>
            <button type="button" class="icon-button" aria-label={t('video.on')} onClick={() => go(at + SMALL_STEP)}>
              <Icon name="next" />
            </button>
          </div>
        </>
      )}
      <footer>
        <button type="button" class="button" disabled={state !== 'ready'} onClick={() => void take()}>
          <Icon name="photo" />
          {t('video.take', { second: shown })}
        </button>
        <button type="button" class="button" onClick={() => dialog.current?.close()}>
          {t('video.close')}
        </button>
        <p class="hint" aria-live="polite">
          {taken > 0 && t('video.taken', { count: taken })}
        </p>
      </footer>
    </dialog>
  )
}
