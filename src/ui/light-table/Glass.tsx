/**
 * The light table's glass: the questioned piece and the exemplar at one scale, beside or over each other, with loupe, colours, a line's
 * profile and a millimetre grid. Shows; measures nothing that becomes a verdict.
 */
import { type Signal, useComputed, useSignal } from '@preact/signals'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { Region } from '../../domain/exemplar.ts'
import { useWording } from '../wording.ts'
import { type PaintedPane, Plate, type Probe } from './Plate.tsx'
import { paintCross, paintGrid, paintLine, paintMark, paintPicture } from './paint.ts'
import { ColourReadout, Loupe, ProfilePlot } from './Readouts.tsx'
import type { SquarePicture } from './square-picture.ts'
import { between, fitView, type Pane, type Place, type View, viewOfRegion, zoom } from './view.ts'

export const MODES = ['beside', 'wipe', 'blink', 'difference'] as const
export type Mode = (typeof MODES)[number]
export const TOOLS = ['hand', 'loupe', 'colour', 'profile'] as const
export type Tool = (typeof TOOLS)[number]

/** Changes of picture a second. Three flashes a second are the most that WCAG 2.2, 2.3.1 allows; these are half flashes. */
const MOST_BLINKS = 3
const FLY_MS = 260

export interface GlassProps {
  readonly questioned: SquarePicture
  /** `null`: the questioned piece alone. */
  readonly exemplar: SquarePicture | null
  /** The chosen point's place; the view flies to it whenever `turn` grows. */
  readonly target: { readonly region: Region; readonly turn: number } | null
}

const reducedMotion = () => globalThis.matchMedia?.('(prefers-reduced-motion: reduce)').matches ?? false

export function Glass({ questioned, exemplar, target }: GlassProps) {
  const { t, number } = useWording()
  const [wished, setMode] = useState<Mode>('beside')
  const mode: Mode = exemplar === null ? 'beside' : wished
  const [tool, setTool] = useState<Tool>('hand')
  const [grid, setGrid] = useState(false)
  const [gain, setGain] = useState(1)
  const [rate, setRate] = useState(1.5)
  const still = reducedMotion()
  const view = useSignal<View | null>(null)
  const wipe = useSignal(0.5)
  const upper = useSignal(false)
  const probe = useSignal<Place | null>(null)
  const line = useSignal<{ readonly from: Place; readonly to: Place } | null>(null)
  const pane = useRef<Pane | null>(null)
  const [stacked, setStacked] = useState(false)
  const root = useRef<HTMLDivElement>(null)
  const { size } = exemplar ?? questioned

  // What a frame depends on beside the view.
  const frame = useComputed(() => [wipe.value, upper.value, probe.value, line.value])

  useEffect(() => {
    if (mode !== 'blink' || still) return
    const timer = setInterval(() => {
      upper.value = !upper.peek()
    }, 1000 / rate)
    return () => clearInterval(timer)
  }, [mode, rate, still])

  useEffect(() => {
    const sized = new ResizeObserver(([entry]) => setStacked((entry?.contentRect.width ?? 800) < 520))
    sized.observe(root.current!)
    return () => sized.disconnect()
  }, [])

  useEffect(() => {
    if (target === null) return
    const frameOf = requestAnimationFrame(() => pane.current && fly(view, viewOfRegion(target.region, pane.current)))
    return () => cancelAnimationFrame(frameOf)
  }, [target?.turn])

  const onProbe = ({ kind, at, byKey }: Probe) => {
    if (tool === 'profile') {
      if (kind === 'start') line.value = { from: at, to: at }
      if (kind === 'move' && line.value !== null) line.value = { ...line.value, to: at }
      // By keyboard: Enter sets one end, Enter again the other.
      if (kind === 'press' && byKey)
        line.value =
          line.value === null || line.value.from !== line.value.to ? { from: at, to: at } : { ...line.value, to: at }
      if (kind === 'point' && byKey && line.value !== null && line.value.from === line.value.to) probe.value = at
      return
    }
    if (kind === 'point' || kind === 'press') probe.value = at
  }

  const marks = (surface: PaintedPane) => {
    if (grid) paintGrid(surface, size)
    if (target !== null) paintMark(surface, target.region)
    if (line.value !== null && tool === 'profile') paintLine(surface, line.value.from, line.value.to)
    if (probe.value !== null && (tool === 'loupe' || tool === 'colour')) paintCross(surface, probe.value)
  }

  const paintOne = (square: SquarePicture) => (surface: PaintedPane) => {
    pane.current = { width: surface.width, height: surface.height }
    paintPicture(surface, square)
    marks(surface)
  }

  const paintOver = (surface: PaintedPane) => {
    if (exemplar === null) return
    pane.current = { width: surface.width, height: surface.height }
    const { context, width, height } = surface
    if (mode === 'wipe') {
      paintPicture(surface, questioned)
      const from = width * wipe.value
      context.save()
      context.beginPath()
      context.rect(from, 0, width - from, height)
      context.clip()
      context.clearRect(from, 0, width - from, height)
      paintPicture(surface, exemplar)
      context.restore()
      context.fillStyle = '#1b2023'
      context.fillRect(from - 2, 0, 4, height)
      context.fillStyle = '#e3b75c'
      context.fillRect(from - 1, 0, 2, height)
    } else if (mode === 'blink') {
      paintPicture(surface, upper.value ? exemplar : questioned)
    } else {
      paintPicture(surface, questioned)
      context.globalCompositeOperation = 'difference'
      paintPicture(surface, exemplar)
      context.globalCompositeOperation = 'source-over'
    }
    marks(surface)
  }

  const pair = exemplar !== null && mode === 'beside'
  const drawing = tool === 'profile'
  const at = (factor: number) => {
    const shown = view.peek()
    const box = pane.current
    if (shown !== null && box !== null) view.value = zoom(shown, factor, { x: box.width / 2, y: box.height / 2 }, box)
  }

  return (
    <div class="glass" ref={root}>
      <div class="glass-tools">
        {exemplar !== null && (
          <fieldset class="segments" aria-label={t('table.mode')}>
            {MODES.map((one) => (
              <button key={one} type="button" aria-pressed={mode === one} onClick={() => setMode(one)}>
                {t(`mode.${one}`)}
              </button>
            ))}
          </fieldset>
        )}
        <fieldset class="segments" aria-label={t('table.tool')}>
          {TOOLS.map((one) => (
            <button
              key={one}
              type="button"
              aria-pressed={tool === one}
              onClick={() => {
                setTool(one)
                // By keyboard a tool reads what lies in the middle.
                if (probe.peek() === null && view.peek() !== null)
                  probe.value = { x: view.peek()!.xMm, y: view.peek()!.yMm }
              }}
            >
              {t(`tool.${one}`)}
            </button>
          ))}
        </fieldset>
        <fieldset class="segments" aria-label={t('table.view')}>
          <button type="button" aria-label={t('table.smaller')} onClick={() => at(1 / 1.5)}>
            −
          </button>
          <button type="button" aria-label={t('table.larger')} onClick={() => at(1.5)}>
            +
          </button>
          <button
            type="button"
            onClick={() => {
              if (pane.current !== null) fly(view, fitView(size, pane.current))
            }}
          >
            {t('table.whole')}
          </button>
          <button type="button" aria-pressed={grid} onClick={() => setGrid(!grid)}>
            {t('table.grid')}
          </button>
        </fieldset>
      </div>

      {pair ? (
        <div class={`glass-pair${stacked ? ' is-stacked' : ''}`}>
          {(
            [
              ['questioned', questioned],
              ['exemplar', exemplar],
            ] as const
          ).map(([which, square]) => (
            <figure key={which} class="glass-pane">
              <figcaption>
                {t(`table.${which}`)}
                <span class="quiet">
                  {t('table.px', { pxPerMm: number(square.photoPxPerMm, { maximumFractionDigits: 1 }) })}
                </span>
              </figcaption>
              <Plate
                label={t(`table.${which}`)}
                size={size}
                view={view}
                drawing={drawing}
                onProbe={onProbe}
                frame={frame}
                paint={paintOne(square)}
              />
            </figure>
          ))}
        </div>
      ) : (
        <figure class="glass-pane">
          <figcaption>{exemplar === null ? t('table.questioned') : t(`mode.${mode}.what`)}</figcaption>
          <div style={mode === 'difference' ? { filter: `brightness(${gain})` } : undefined}>
            <Plate
              label={exemplar === null ? t('table.questioned') : t('table.over')}
              size={size}
              view={view}
              drawing={drawing}
              onProbe={onProbe}
              frame={frame}
              paint={exemplar === null ? paintOne(questioned) : paintOver}
              class="is-single"
            />
          </div>
        </figure>
      )}

      {mode === 'wipe' && (
        <label class="glass-slider">
          {t('table.wipe')}
          <input
            type="range"
            min="0"
            max="100"
            value={wipe.value * 100}
            onInput={(event) => {
              wipe.value = Number(event.currentTarget.value) / 100
            }}
          />
        </label>
      )}
      {mode === 'blink' &&
        (still ? (
          <p class="glass-slider">
            <button
              type="button"
              class="button small"
              onClick={() => {
                upper.value = !upper.peek()
              }}
            >
              {t('table.swap')}
            </button>
            <span class="hint">{t('table.still')}</span>
          </p>
        ) : (
          <label class="glass-slider">
            {t('table.rate', { rate: number(rate) })}
            <input
              type="range"
              min="0.5"
              max={MOST_BLINKS}
              step="0.5"
              value={rate}
              onInput={(event) => setRate(Number(event.currentTarget.value))}
            />
          </label>
        ))}
      {mode === 'difference' && (
        <label class="glass-slider">
          {t('table.gain', { gain: number(gain) })}
          <input
            type="range"
            min="1"
            max="6"
            step="0.5"
            value={gain}
            onInput={(event) => setGain(Number(event.currentTarget.value))}
          />
        </label>
      )}

      {tool === 'loupe' && <Loupe probe={probe} questioned={questioned} exemplar={exemplar} />}
      {tool === 'colour' && <ColourReadout probe={probe} questioned={questioned} exemplar={exemplar} />}
      {tool === 'profile' && <ProfilePlot line={line} questioned={questioned} exemplar={exemplar} />}
    </div>
  )
}

function fly(view: Signal<View | null>, to: View): void {
  const from = view.peek()
  if (from === null || reducedMotion()) {
    view.value = to
    return
  }
  const began = performance.now()
  let last = from
  const step = () => {
    // Whoever moves the view meanwhile has it.
    if (view.peek() !== last) return
    const share = Math.min((performance.now() - began) / FLY_MS, 1)
    last = share === 1 ? to : between(from, to, share * share * (3 - 2 * share))
    view.value = last
    if (share < 1) requestAnimationFrame(step)
  }
  step()
}
