/**
 * Named rectangles on one picture. One of them is active: it is drawn by dragging across the picture. Each is moved by
 * dragging it or by arrow keys, sized with Shift and arrow keys, or typed in per cent.
 */
import type { ComponentChildren } from 'preact'
import { useId, useRef } from 'preact/hooks'
import { useWording } from '../wording.ts'
import type { Region } from './desk-ports.ts'
import { moveRegion, sizeRegion, spanRegion } from './region.ts'

export interface Mark {
  readonly id: string
  readonly label: string
  readonly region: Region
}

interface RegionPickerProps {
  readonly src: string
  readonly alt: string
  readonly marks: readonly Mark[]
  /** Id of the mark that dragging draws. */
  readonly active: string
  readonly onActivate: (id: string) => void
  readonly onChange: (id: string, region: Region) => void
  /** What else lies over the picture. */
  readonly children?: ComponentChildren
}

/** One press of an arrow key, as a share of the side; with Alt a fifth of it. */
const STEP = 0.01

const SIDES = ['x', 'y', 'width', 'height'] as const

interface Place {
  readonly x: number
  readonly y: number
}

type Drag =
  | { readonly kind: 'draw'; readonly from: Place }
  | { readonly kind: 'move'; readonly mark: Mark; last: Place }

export function RegionPicker({ src, alt, marks, active, onActivate, onChange, children }: RegionPickerProps) {
  const { t, number } = useWording()
  const id = useId()
  const picture = useRef<HTMLDivElement>(null)
  const drag = useRef<Drag | null>(null)

  const shareOf = (event: PointerEvent): Place => {
    const box = picture.current!.getBoundingClientRect()
    return { x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height }
  }
  const grip = (event: PointerEvent, mark: Mark | null) => {
    picture.current!.setPointerCapture?.(event.pointerId)
    const from = shareOf(event)
    drag.current = mark === null ? { kind: 'draw', from } : { kind: 'move', mark, last: from }
  }
  const follow = (event: PointerEvent) => {
    const held = drag.current
    if (held === null) return
    const to = shareOf(event)
    if (held.kind === 'draw') return onChange(active, spanRegion(held.from.x, held.from.y, to.x, to.y))
    const present = marks.find((mark) => mark.id === held.mark.id)
    if (present) onChange(present.id, moveRegion(present.region, to.x - held.last.x, to.y - held.last.y))
    held.last = to
  }
  const release = () => {
    drag.current = null
  }
  const press = (event: KeyboardEvent, mark: Mark) => {
    const step = event.altKey ? STEP / 5 : STEP
    const dx = event.key === 'ArrowRight' ? step : event.key === 'ArrowLeft' ? -step : 0
    const dy = event.key === 'ArrowDown' ? step : event.key === 'ArrowUp' ? -step : 0
    if (dx === 0 && dy === 0) return
    event.preventDefault()
    onChange(mark.id, event.shiftKey ? sizeRegion(mark.region, dx, dy) : moveRegion(mark.region, dx, dy))
  }
  const type = (mark: Mark, side: (typeof SIDES)[number], percent: string) => {
    const share = Number(percent) / 100
    if (percent.trim() === '' || !Number.isFinite(share)) return
    const difference = share - mark.region[side]
    onChange(
      mark.id,
      side === 'x' || side === 'y'
        ? moveRegion(mark.region, side === 'x' ? difference : 0, side === 'y' ? difference : 0)
        : sizeRegion(mark.region, side === 'width' ? difference : 0, side === 'height' ? difference : 0),
    )
  }
  const percent = (share: number) => number(share * 100, { maximumFractionDigits: 1 })

  return (
    <div class="region-picker">
      <div
        ref={picture}
        class="region-picture"
        onPointerDown={(event) => grip(event, null)}
        onPointerMove={follow}
        onPointerUp={release}
        onPointerCancel={release}
      >
        <img src={src} alt={alt} draggable={false} />
        {marks.map((mark) => (
          <button
            key={mark.id}
            type="button"
            class={`region${mark.id === active ? ' is-active' : ''}`}
            data-label={marks.length > 1 ? mark.label : undefined}
            aria-label={t('region.label', {
              name: mark.label,
              x: percent(mark.region.x),
              y: percent(mark.region.y),
              width: percent(mark.region.width),
              height: percent(mark.region.height),
            })}
            aria-describedby={`${id}-hint`}
            onPointerDown={(event) => {
              event.stopPropagation()
              onActivate(mark.id)
              grip(event, mark)
            }}
            onFocus={() => onActivate(mark.id)}
            onKeyDown={(event) => press(event, mark)}
            style={{
              left: `${mark.region.x * 100}%`,
              top: `${mark.region.y * 100}%`,
              width: `${mark.region.width * 100}%`,
              height: `${mark.region.height * 100}%`,
            }}
          />
        ))}
        {children}
      </div>
      <p class="hint" id={`${id}-hint`}>
        {t('region.hint')}
      </p>
      {marks.map((mark) => (
        <fieldset key={mark.id} class="region-numbers">
          <legend>
            {marks.length === 1 ? (
              mark.label
            ) : (
              <label class="choice">
                <input
                  type="radio"
                  name={`${id}-active`}
                  checked={mark.id === active}
                  onChange={() => onActivate(mark.id)}
                />
                {mark.label}
              </label>
            )}
          </legend>
          {SIDES.map((side) => (
            <label key={side} class="region-number">
              {t(`region.${side}`)}
              <input
                type="number"
                min="0"
                max="100"
                step="0.5"
                value={(mark.region[side] * 100).toFixed(1)}
                onChange={(event) => type(mark, side, event.currentTarget.value)}
              />
            </label>
          ))}
        </fieldset>
      ))}
    </div>
  )
}
