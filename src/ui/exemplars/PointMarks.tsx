/**
 * The regions of points over a plate, as buttons: chosen by a press, moved by dragging or arrow keys, sized by their corner or with Shift.
 * Placed by the plate's own measures, so that they follow every move of the view.
 */
import type { Signal } from '@preact/signals'
import { useRef } from 'preact/hooks'
import type { Region } from '../../domain/exemplar.ts'
import type { View } from '../light-table/view.ts'
import { useWording } from '../wording.ts'

export interface PointMark {
  readonly key: string
  readonly label: string
  /** Number shown on it. */
  readonly badge: string
  readonly region: Region
  readonly active: boolean
  /** Belongs to the point that is being drawn, so it may be moved. */
  readonly movable: boolean
}

interface PointMarksProps {
  readonly view: Signal<View | null>
  readonly marks: readonly PointMark[]
  readonly onChoose: (key: string) => void
  readonly onChange: (key: string, region: Region) => void
}

/** Millimetres a press of an arrow key; with Alt a tenth of it. */
const STEP_MM = 0.5
const LEAST_MM = 0.2

const place = ({ x, y, width, height }: Region) => ({
  left: `calc(var(--ox) + ${x} * var(--mm))`,
  top: `calc(var(--oy) + ${y} * var(--mm))`,
  width: `calc(${width} * var(--mm))`,
  height: `calc(${height} * var(--mm))`,
})

export function PointMarks({ view, marks, onChoose, onChange }: PointMarksProps) {
  const { t, number } = useWording()
  const drag = useRef<{ key: string; x: number; y: number; sizing: boolean; region: Region } | null>(null)
  const mm = (value: number) => number(value, { maximumFractionDigits: 1 })

  const press = (event: KeyboardEvent, mark: PointMark) => {
    if (!mark.movable) return
    const step = event.altKey ? STEP_MM / 10 : STEP_MM
    const dx = event.key === 'ArrowRight' ? step : event.key === 'ArrowLeft' ? -step : 0
    const dy = event.key === 'ArrowDown' ? step : event.key === 'ArrowUp' ? -step : 0
    if (dx === 0 && dy === 0) return
    event.preventDefault()
    const { x, y, width, height } = mark.region
    onChange(
      mark.key,
      event.shiftKey
        ? { x, y, width: Math.max(width + dx, LEAST_MM), height: Math.max(height + dy, LEAST_MM) }
        : { x: x + dx, y: y + dy, width, height },
    )
  }
  const grip = (event: PointerEvent, mark: PointMark) => {
    event.stopPropagation()
    onChoose(mark.key)
    if (!mark.movable) return
    const button = event.currentTarget as HTMLElement
    button.setPointerCapture?.(event.pointerId)
    const sizing = (event.target as Element).classList.contains('mark-grip')
    drag.current = { key: mark.key, x: event.clientX, y: event.clientY, sizing, region: mark.region }
  }
  const follow = (event: PointerEvent) => {
    const held = drag.current
    const scale = view.peek()?.scale
    if (held === null || scale === undefined) return
    event.stopPropagation()
    const [dx, dy] = [(event.clientX - held.x) / scale, (event.clientY - held.y) / scale]
    const { x, y, width, height } = held.region
    onChange(
      held.key,
      held.sizing
        ? { x, y, width: Math.max(width + dx, LEAST_MM), height: Math.max(height + dy, LEAST_MM) }
        : { x: x + dx, y: y + dy, width, height },
    )
  }
  const release = () => {
    drag.current = null
  }

  return (
    <>
      {marks.map((mark) => (
        <button
          key={mark.key}
          type="button"
          class={`mark${mark.active ? ' is-active' : ''}${mark.movable ? ' is-movable' : ''}`}
          aria-pressed={mark.active}
          aria-label={t('mark.label', {
            name: mark.label,
            x: mm(mark.region.x),
            y: mm(mark.region.y),
            width: mm(mark.region.width),
            height: mm(mark.region.height),
          })}
          style={place(mark.region)}
          onPointerDown={(event) => grip(event, mark)}
          onPointerMove={follow}
          onPointerUp={release}
          onPointerCancel={release}
          onClick={() => onChoose(mark.key)}
          onKeyDown={(event) => press(event, mark)}
        >
          <span class="mark-badge">{mark.badge}</span>
          {mark.active && mark.movable && <span class="mark-grip" />}
        </button>
      ))}
    </>
  )
}
