/** A picture as it was taken, with the piece's corners on it, or two clicks on a ruler. Shows and hands on; keeps nothing. */
import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import type { DrawnCorners } from '../../domain/exemplar.ts'
import { useBlobUrl } from '../desk/BlobImage.tsx'
import { CornerHandles, FIRST_CORNERS, type MagnifiedPicture } from '../desk/CornerHandles.tsx'
import type { PieceCorners } from '../light-table/square-picture.ts'
import { TextField } from '../parts/fields.tsx'
import { parseAmount } from '../parts/parse-fields.ts'
import { useWording } from '../wording.ts'

interface PictureFrameProps {
  readonly sha256: string
  readonly alt: string
  readonly children?: (picture: MagnifiedPicture) => ComponentChildren
}

export function PictureFrame({ sha256, alt, children }: PictureFrameProps) {
  const { t } = useWording()
  const url = useBlobUrl(sha256)
  const [own, setOwn] = useState<{ readonly width: number; readonly height: number } | null>(null)
  if (url === undefined) return <p class="quiet late">{t('desk.loading')}</p>
  if (url === null) return <p>{t('picture.gone')}</p>
  return (
    <div class="region-picture picture-frame">
      <img
        src={url}
        alt={alt}
        draggable={false}
        onLoad={({ currentTarget: { naturalWidth: width, naturalHeight: height } }) => {
          setOwn({ width, height })
        }}
      />
      {own !== null && children?.({ src: url, ...own })}
    </div>
  )
}

interface OutlineProps {
  readonly sha256: string
  readonly alt: string
  /** `null`: nothing was found and nothing given. */
  readonly corners: PieceCorners
  readonly onChange: (corners: DrawnCorners, width: number, height: number) => void
}

export function Outline({ sha256, alt, corners, onChange }: OutlineProps) {
  const { t } = useWording()
  return (
    <div class="outline">
      <p class="hint">{t('outline.hint')}</p>
      <PictureFrame sha256={sha256} alt={alt}>
        {(picture) => (
          <CornerHandles
            corners={sharesOf(corners, picture)}
            picture={picture}
            onChange={(next) => onChange(next, picture.width, picture.height)}
          />
        )}
      </PictureFrame>
    </div>
  )
}

function sharesOf(corners: PieceCorners, { width, height }: MagnifiedPicture): DrawnCorners {
  if (corners === null) return FIRST_CORNERS
  if ('shares' in corners) return corners.shares
  return corners.pixels.map(([x, y]) => [x / width, y / height]) as unknown as DrawnCorners
}

interface RulerProps {
  readonly sha256: string
  readonly alt: string
  readonly onMeasured: (
    ends: readonly [readonly [number, number], readonly [number, number]],
    millimetres: number,
    picture: MagnifiedPicture,
  ) => void
}

type Ends = readonly [readonly [number, number], readonly [number, number]]
const FIRST_ENDS: Ends = [
  [0.2, 0.9],
  [0.8, 0.9],
]
const END_STEP = 0.01

/** Two places on a ruler in the plane of the piece, and how far apart they are. */
export function Ruler({ sha256, alt, onMeasured }: RulerProps) {
  const { t, number } = useWording()
  const [ends, setEnds] = useState<Ends>(FIRST_ENDS)
  const [text, setText] = useState('50')
  const [picture, setPicture] = useState<MagnifiedPicture | null>(null)
  const amount = parseAmount(text)
  const millimetres = amount === null ? null : Number(amount)
  const put = (index: number, x: number, y: number) => {
    const end = [Math.min(Math.max(x, 0), 1), Math.min(Math.max(y, 0), 1)] as const
    setEnds((before) => (index === 0 ? [end, before[1]] : [before[0], end]))
  }
  const percent = (share: number) => number(share * 100, { maximumFractionDigits: 1 })
  const at = (event: MouseEvent, box: DOMRect) =>
    [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height] as const
  const [next, setNext] = useState(0)
  return (
    <div class="outline">
      <p class="hint">{t('ruler.hint')}</p>
      <PictureFrame sha256={sha256} alt={alt}>
        {(shown) => (
          // biome-ignore lint/a11y/noStaticElementInteractions: the two ends are buttons with keys of their own
          // biome-ignore lint/a11y/useKeyWithClickEvents: as above
          <div
            class="ruler-layer"
            onClick={(event) => {
              if ((event.target as Element).closest('button')) return
              setPicture(shown)
              put(next, ...at(event, event.currentTarget.getBoundingClientRect()))
              setNext(1 - next)
            }}
          >
            <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true" focusable="false">
              {['corner-line-under', 'corner-line'].map((name) => (
                <line key={name} class={name} x1={ends[0][0]} y1={ends[0][1]} x2={ends[1][0]} y2={ends[1][1]} />
              ))}
            </svg>
            {ends.map(([x, y], index) => (
              <button
                key={index === 0 ? 'first' : 'second'}
                type="button"
                class="corner"
                aria-label={t('ruler.end', { number: index + 1, x: percent(x), y: percent(y) })}
                style={{ left: `${x * 100}%`, top: `${y * 100}%` }}
                onFocus={() => setPicture(shown)}
                onPointerDown={(event) => event.currentTarget.setPointerCapture?.(event.pointerId)}
                onPointerMove={(event) => {
                  if (event.buttons === 0) return
                  setPicture(shown)
                  put(index, ...at(event, event.currentTarget.parentElement!.getBoundingClientRect()))
                }}
                onKeyDown={(event) => {
                  const step = event.altKey ? END_STEP / 10 : END_STEP
                  const dx = event.key === 'ArrowRight' ? step : event.key === 'ArrowLeft' ? -step : 0
                  const dy = event.key === 'ArrowDown' ? step : event.key === 'ArrowUp' ? -step : 0
                  if (dx === 0 && dy === 0) return
                  event.preventDefault()
                  put(index, x + dx, y + dy)
                }}
              />
            ))}
          </div>
        )}
      </PictureFrame>
      <div class="form-row">
        <TextField
          label={t('ruler.apart')}
          inputMode="decimal"
          value={text}
          onChange={setText}
          fault={millimetres !== null && millimetres > 0 ? null : t('ruler.fault')}
        />
      </div>
      <button
        type="button"
        class="button"
        disabled={picture === null || millimetres === null || !(millimetres > 0)}
        onClick={() => {
          if (picture === null || millimetres === null) return
          const { width, height } = picture
          const inPixels = ends.map(([x, y]) => [x * width, y * height]) as unknown as Ends
          onMeasured(inPixels, millimetres, picture)
        }}
      >
        {t('ruler.take')}
      </button>
    </div>
  )
}
