/**
 * The four corners of a card by hand, over a picture: each is dragged, or moved by arrow keys, under a magnifier. Lies in a
 * positioned box that is as large as the picture.
 */
import { useRef, useState } from 'preact/hooks'
import type { DrawnCorners } from '../../domain/exemplar.ts'
import { useWording } from '../wording.ts'

/** Well inside the picture, where a card usually lies. */
export const FIRST_CORNERS: DrawnCorners = [
  [0.15, 0.15],
  [0.85, 0.15],
  [0.85, 0.85],
  [0.15, 0.85],
]

const NAMES = ['top-left', 'top-right', 'bottom-right', 'bottom-left'] as const

/** One press of an arrow key, as a share of the side; with Alt a tenth of it: a cut edge is found by the pixel. */
const STEP = 0.01

const within = (share: number) => Math.min(Math.max(share, 0), 1)

interface CornerHandlesProps {
  readonly corners: DrawnCorners
  readonly onChange: (corners: DrawnCorners) => void
  /** The picture and its own size, for the magnifier. */
  readonly picture?: MagnifiedPicture
}

export interface MagnifiedPicture {
  readonly src: string
  readonly width: number
  readonly height: number
}

export function CornerHandles({ corners, onChange, picture }: CornerHandlesProps) {
  const [near, setNear] = useState<number | null>(null)
  const { t, number } = useWording()
  const layer = useRef<HTMLDivElement>(null)
  const held = useRef<number | null>(null)
  const put = (index: number, x: number, y: number) =>
    onChange(corners.map((corner, i) => (i === index ? [within(x), within(y)] : corner)) as unknown as DrawnCorners)
  const percent = (share: number) => number(share * 100, { maximumFractionDigits: 1 })

  const follow = (event: PointerEvent) => {
    if (held.current === null) return
    const box = layer.current!.getBoundingClientRect()
    put(held.current, (event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height)
  }
  const release = () => {
    held.current = null
    setNear(null)
  }
  const press = (event: KeyboardEvent, index: number) => {
    const step = event.altKey ? STEP / 10 : STEP
    const dx = event.key === 'ArrowRight' ? step : event.key === 'ArrowLeft' ? -step : 0
    const dy = event.key === 'ArrowDown' ? step : event.key === 'ArrowUp' ? -step : 0
    if (dx === 0 && dy === 0) return
    event.preventDefault()
    const [x, y] = corners[index]!
    put(index, x + dx, y + dy)
  }

  return (
    <div ref={layer} class="corner-layer">
      <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true" focusable="false">
        {['corner-line-under', 'corner-line'].map((name) => (
          <polygon key={name} class={name} points={corners.map((corner) => corner.join(',')).join(' ')} />
        ))}
      </svg>
      {corners.map(([x, y], index) => (
        <button
          key={NAMES[index]}
          type="button"
          class="corner"
          aria-label={t('corner.label', { corner: t(`corner.${NAMES[index]!}`), x: percent(x), y: percent(y) })}
          style={{ left: `${x * 100}%`, top: `${y * 100}%` }}
          onPointerDown={(event) => {
            event.stopPropagation()
            event.currentTarget.setPointerCapture?.(event.pointerId)
            held.current = index
            setNear(index)
          }}
          onFocus={() => setNear(index)}
          onBlur={() => setNear(null)}
          onPointerMove={follow}
          onPointerUp={release}
          onPointerCancel={release}
          onKeyDown={(event) => press(event, index)}
        />
      ))}
      {picture !== undefined && near !== null && <Magnifier picture={picture} at={corners[near]!} />}
    </div>
  )
}

/** Screen pixels for one of the picture. */
const ENLARGED = 4
/** CSS pixels across. */
const LENS = 144

/** What lies under one place of the picture, enlarged, on the side of the picture where it covers nothing of it. */
export function Magnifier({ picture, at: [x, y] }: { picture: MagnifiedPicture; at: readonly [number, number] }) {
  const [width, height] = [picture.width * ENLARGED, picture.height * ENLARGED]
  return (
    <span
      class="magnifier"
      aria-hidden="true"
      style={{
        left: x < 0.5 ? 'auto' : '0.5rem',
        right: x < 0.5 ? '0.5rem' : 'auto',
        top: y < 0.5 ? 'auto' : '0.5rem',
        bottom: y < 0.5 ? '0.5rem' : 'auto',
        backgroundImage: `url("${picture.src}")`,
        backgroundSize: `${width}px ${height}px`,
        backgroundPosition: `${LENS / 2 - x * width}px ${LENS / 2 - y * height}px`,
      }}
    />
  )
}
