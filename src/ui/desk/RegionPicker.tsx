/** A rectangle on a picture: drawn by dragging, moved by arrow keys, sized with Shift and arrow keys, or typed in per cent. */
import { useId, useRef } from 'preact/hooks'
import { useWording } from '../wording.ts'
import type { Region } from './desk-ports.ts'
import { moveRegion, sizeRegion, spanRegion } from './region.ts'

interface RegionPickerProps {
  readonly src: string
  readonly alt: string
  readonly region: Region
  readonly onChange: (region: Region) => void
}

/** One press of an arrow key, as a share of the side; with Alt a fifth of it. */
const STEP = 0.01

const SIDES = ['x', 'y', 'width', 'height'] as const

export function RegionPicker({ src, alt, region, onChange }: RegionPickerProps) {
  const { t, number } = useWording()
  const id = useId()
  const picture = useRef<HTMLDivElement>(null)
  const from = useRef<{ x: number; y: number } | null>(null)

  const shareOf = (event: PointerEvent) => {
    const box = picture.current!.getBoundingClientRect()
    return { x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height }
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const step = event.altKey ? STEP / 5 : STEP
    const dx = event.key === 'ArrowRight' ? step : event.key === 'ArrowLeft' ? -step : 0
    const dy = event.key === 'ArrowDown' ? step : event.key === 'ArrowUp' ? -step : 0
    if (dx === 0 && dy === 0) return
    event.preventDefault()
    onChange(event.shiftKey ? sizeRegion(region, dx, dy) : moveRegion(region, dx, dy))
  }
  const percent = (share: number) => number(share * 100, { maximumFractionDigits: 1 })

  return (
    <div class="region-picker">
      <div
        ref={picture}
        class="region-picture"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture?.(event.pointerId)
          from.current = shareOf(event)
        }}
        onPointerMove={(event) => {
          if (from.current === null) return
          const to = shareOf(event)
          onChange(spanRegion(from.current.x, from.current.y, to.x, to.y))
        }}
        onPointerUp={() => {
          from.current = null
        }}
        onPointerCancel={() => {
          from.current = null
        }}
      >
        <img src={src} alt={alt} draggable={false} />
        <button
          type="button"
          class="region"
          aria-label={t('region.label', {
            x: percent(region.x),
            y: percent(region.y),
            width: percent(region.width),
            height: percent(region.height),
          })}
          aria-describedby={`${id}-hint`}
          onKeyDown={onKeyDown}
          style={{
            left: `${region.x * 100}%`,
            top: `${region.y * 100}%`,
            width: `${region.width * 100}%`,
            height: `${region.height * 100}%`,
          }}
        />
      </div>
      <p class="hint" id={`${id}-hint`}>
        {t('region.hint')}
      </p>
      <div class="region-numbers">
        {SIDES.map((side) => (
          <label key={side} class="region-number">
            {t(`region.${side}`)}
            <input
              type="number"
              min="0"
              max="100"
              step="0.5"
              value={(region[side] * 100).toFixed(1)}
              onChange={(event) => {
                const share = Number(event.currentTarget.value) / 100
                if (!Number.isFinite(share)) return
                const difference = share - region[side]
                onChange(
                  side === 'x' || side === 'y'
                    ? moveRegion(region, side === 'x' ? difference : 0, side === 'y' ? difference : 0)
                    : sizeRegion(region, side === 'width' ? difference : 0, side === 'height' ? difference : 0),
                )
              }}
            />
          </label>
        ))}
      </div>
    </div>
  )
}
