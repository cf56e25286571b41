/**
 * One pane of glass over a piece: drawn by its painter once a frame at most, moved by dragging, wheel, pinch and keys. What lies over it
 * as elements is placed by `--mm`, `--ox` and `--oy`, so that moving the view draws no component anew.
 */
import { effect, type ReadonlySignal, type Signal } from '@preact/signals'
import type { ComponentChildren } from 'preact'
import { useEffect, useId, useRef } from 'preact/hooks'
import { useWording } from '../wording.ts'
import type { Size } from './square-picture.ts'
import { fitView, keepNear, type Pane, type Place, pan, toCss, toMm, type View, zoom } from './view.ts'

export interface PaintedPane extends Pane {
  readonly context: CanvasRenderingContext2D
  readonly view: View
  /** Device pixels a CSS pixel; the context is scaled by it already. */
  readonly ratio: number
}

/** What a person did at a place of the piece, millimetres. */
export interface Probe {
  /** `point`: hovering or by keyboard; `start`, `move`, `end`: drawing; `press`: a press without moving, or Enter. */
  readonly kind: 'point' | 'start' | 'move' | 'end' | 'press'
  readonly at: Place
  readonly byKey: boolean
}

interface PlateProps {
  readonly label: string
  readonly size: Size
  readonly view: Signal<View | null>
  /** Draws one frame. Must read every signal that it depends on. */
  readonly paint: (pane: PaintedPane) => void
  /** Panes beside each other on one canvas: a place in either is the same place. */
  readonly panes?: number
  /** Dragging draws instead of moving. */
  readonly drawing?: boolean
  readonly onProbe?: (probe: Probe) => void
  readonly frame?: ReadonlySignal<unknown>
  readonly children?: ComponentChildren
  readonly class?: string
}

/** One press of an arrow key moves by this share of the pane; with Alt by one CSS pixel. */
const STEP = 0.08
const ZOOM_STEP = 1.25
/** CSS pixels that a hand may tremble in a press. */
const TREMBLE = 4

export function Plate(props: PlateProps) {
  const { label, size, view, children, panes = 1 } = props
  const { t } = useWording()
  const id = useId()
  const root = useRef<HTMLDivElement>(null)
  const canvas = useRef<HTMLCanvasElement>(null)
  const present = useRef(props)
  present.current = props
  const frame = useRef(0)
  const draw = useRef(() => {})
  /** Fingers and pens that are down, and where the first one came down. */
  const down = useRef(new Map<number, Place>())
  const began = useRef<Place | null>(null)
  const drawn = useRef(false)
  /** The view that shows the piece whole, as it was last set. */
  const fitted = useRef<View | null>(null)

  const paneOf = (): Pane => {
    const box = root.current!
    return { width: box.clientWidth / (present.current.panes ?? 1), height: box.clientHeight }
  }

  const showWhole = () => {
    fitted.current = fitView(present.current.size, paneOf())
    view.value = fitted.current
  }

  useEffect(() => {
    const box = root.current!
    const surface = canvas.current!
    const context = surface.getContext('2d')
    const paintNow = () => {
      frame.current = 0
      const { paint, panes: count = 1 } = present.current
      const shown = view.peek()
      if (shown === null) return
      const width = box.clientWidth
      const height = box.clientHeight
      const ratio = Math.min(globalThis.devicePixelRatio || 1, 2)
      const pane = { width: width / count, height }
      const zero = toCss(shown, 0, 0, pane)
      box.style.setProperty('--mm', `${shown.scale}px`)
      box.style.setProperty('--ox', `${zero.x}px`)
      box.style.setProperty('--oy', `${zero.y}px`)
      if (context === null) return
      const [across, downwards] = [Math.round(width * ratio), Math.round(height * ratio)]
      if (surface.width !== across || surface.height !== downwards) {
        surface.width = across
        surface.height = downwards
      }
      context.setTransform(ratio, 0, 0, ratio, 0, 0)
      context.clearRect(0, 0, width, height)
      paint({ ...pane, context, view: shown, ratio })
    }
    draw.current = () => {
      if (frame.current === 0) frame.current = requestAnimationFrame(paintNow)
    }
    const sized = new ResizeObserver(() => {
      // Shown whole before, shown whole in the new size too; what a person moved stays where it is.
      if (box.clientWidth > 0 && view.peek() === fitted.current) showWhole()
      draw.current()
    })
    sized.observe(box)
    const wheel = (event: WheelEvent) => {
      event.preventDefault()
      const shown = view.peek()
      if (shown === null) return
      // Wheels report lines or pages too; 100 px is one notch of most.
      const notches = (event.deltaMode === 0 ? event.deltaY / 100 : event.deltaY / 3) * (event.ctrlKey ? 3 : 1)
      view.value = keepNear(zoom(shown, ZOOM_STEP ** -notches, inPane(event), paneOf()), present.current.size)
    }
    // Not passive: what turns the wheel over the plate does not scroll the page.
    box.addEventListener('wheel', wheel, { passive: false })
    return () => {
      sized.disconnect()
      box.removeEventListener('wheel', wheel)
      cancelAnimationFrame(frame.current)
      frame.current = 0
    }
  }, [view])

  useEffect(
    () =>
      effect(() => {
        view.value
        present.current.frame?.value
        draw.current()
      }),
    [view, props.frame],
  )
  useEffect(() => draw.current())
  useEffect(() => {
    if (root.current!.clientWidth > 0) showWhole()
  }, [size.widthMm, size.heightMm, panes])

  const inPane = (event: { clientX: number; clientY: number }): Place => {
    const box = root.current!.getBoundingClientRect()
    const width = box.width / (present.current.panes ?? 1)
    return { x: (event.clientX - box.left) % width, y: event.clientY - box.top }
  }
  const probe = (kind: Probe['kind'], at: Place, byKey = false) => {
    const shown = view.peek()
    if (shown !== null) present.current.onProbe?.({ kind, at: toMm(shown, at, paneOf()), byKey })
  }

  const press = (event: PointerEvent) => {
    if (event.button > 0) return
    const at = inPane(event)
    root.current!.setPointerCapture?.(event.pointerId)
    down.current.set(event.pointerId, { x: event.clientX, y: event.clientY })
    began.current = down.current.size === 1 ? at : null
    drawn.current = false
  }
  const move = (event: PointerEvent) => {
    const at = inPane(event)
    const last = down.current.get(event.pointerId)
    if (last === undefined) return probe('point', at)
    const shown = view.peek()
    if (shown === null) return
    const others = [...down.current].filter(([finger]) => finger !== event.pointerId)
    const here = { x: event.clientX, y: event.clientY }
    const other = others[0]?.[1]
    if (other !== undefined) {
      const apart = (p: Place) => Math.hypot(p.x - other.x, p.y - other.y)
      const middle = inPane({ clientX: (here.x + other.x) / 2, clientY: (here.y + other.y) / 2 })
      const nearer = zoom(shown, apart(here) / Math.max(apart(last), 1), middle, paneOf())
      view.value = keepNear(pan(nearer, (here.x - last.x) / 2, (here.y - last.y) / 2), size)
      down.current.set(event.pointerId, here)
      return
    }
    const from = began.current
    if (from !== null && !drawn.current && Math.hypot(at.x - from.x, at.y - from.y) < TREMBLE) return
    if (present.current.drawing) {
      if (from !== null && !drawn.current) probe('start', from)
      probe('move', at)
    } else {
      view.value = keepNear(pan(shown, here.x - last.x, here.y - last.y), size)
      probe('point', at)
    }
    drawn.current = true
    down.current.set(event.pointerId, here)
  }
  const release = (event: PointerEvent) => {
    if (!down.current.delete(event.pointerId) || began.current === null) return
    const at = inPane(event)
    if (!drawn.current) probe('press', at)
    else if (present.current.drawing) probe('end', at)
    began.current = null
  }

  const key = (event: KeyboardEvent) => {
    // Marks that lie over the plate have keys of their own.
    if (event.target !== root.current || event.ctrlKey || event.metaKey) return
    const shown = view.peek()
    if (shown === null) return
    const pane = paneOf()
    const middle = { x: pane.width / 2, y: pane.height / 2 }
    const step = event.altKey ? 1 : Math.min(pane.width, pane.height) * STEP
    const to: Readonly<Record<string, () => View>> = {
      ArrowLeft: () => pan(shown, step, 0),
      ArrowRight: () => pan(shown, -step, 0),
      ArrowUp: () => pan(shown, 0, step),
      ArrowDown: () => pan(shown, 0, -step),
      '+': () => zoom(shown, ZOOM_STEP, middle, pane),
      '=': () => zoom(shown, ZOOM_STEP, middle, pane),
      '-': () => zoom(shown, 1 / ZOOM_STEP, middle, pane),
      '0': () => fitView(size, pane),
    }
    const next = to[event.key]
    if (next !== undefined) {
      view.value = keepNear(next(), size)
      probe('point', middle, true)
    } else if (event.key === 'Enter') probe('press', middle, true)
    else return
    event.preventDefault()
  }

  return (
    <div class={`plate ${props.class ?? ''}`}>
      <div
        ref={root}
        class={`plate-glass${props.drawing ? ' is-drawing' : ''}`}
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: moved and read by keyboard as by hand
        tabIndex={0}
        aria-label={label}
        aria-describedby={`${id}-keys`}
        onPointerDown={press}
        onPointerMove={move}
        onPointerUp={release}
        onPointerCancel={release}
        onKeyDown={key}
      >
        <canvas ref={canvas} />
        {children}
      </div>
      <p class="for-readers" id={`${id}-keys`}>
        {t('plate.keys')}
      </p>
    </div>
  )
}
