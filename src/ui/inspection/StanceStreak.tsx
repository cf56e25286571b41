/**
 * The streak on the stone: many fine rubbed lines, drawn the same every time. Whole for `wait`, broken for `ask`, one bare
 * scratch for `nothing-open`. Decoration: the word beside it says the same.
 */
import type { Stance } from '../../domain/inspection.ts'

const LINES = 22
const WIDTH = 760
/** Where the streak of `ask` is broken, in the drawing's units. */
const GAPS: readonly (readonly [from: number, to: number])[] = [
  [118, 156],
  [276, 318],
]

/** A fixed disorder between 0 and 1: the streak must not change from one drawing to the next. */
function disorder(seed: number): number {
  const value = Math.sin(seed * 12.9898) * 43758.5453
  return value - Math.floor(value)
}

interface Stroke {
  readonly d: string
  readonly width: number
  readonly opacity: number
}

function drawLine(line: number, broken: boolean): Stroke {
  const middle = (LINES - 1) / 2
  const y = 3 + line * 1.25
  // Lines near the middle begin earlier, are firmer and end later.
  const edge = Math.abs(line - middle) / middle
  const begin = 2 + edge * edge * 34 + disorder(line) * 12
  const end = WIDTH - edge * 40 - disorder(line + 50) * 60
  const cuts = broken
    ? GAPS.map(([from, to], gap): [number, number] => [
        from + (disorder(line + gap * 70) - 0.5) * 16,
        to + (disorder(line + 20 + gap * 90) - 0.5) * 16,
      ])
    : []
  const stops = [begin, ...cuts.flat(), end]
  const rise = (x: number) => y - (x - begin) * 0.006 + Math.sin(x / 90 + line) * 0.35
  let d = ''
  for (let at = 0; at + 1 < stops.length; at += 2) {
    const from = stops[at]!
    const to = stops[at + 1]!
    if (to > from) d += `M${from.toFixed(1)} ${rise(from).toFixed(2)}L${to.toFixed(1)} ${rise(to).toFixed(2)}`
  }
  return {
    d,
    width: 0.7 + (1 - edge) * 0.7 + disorder(line + 7) * 0.5,
    opacity: 0.45 + (1 - edge) * 0.4 + disorder(line + 3) * 0.15,
  }
}

const draw = (broken: boolean) => Array.from({ length: LINES }, (_, line) => drawLine(line, broken))

const STROKES: Readonly<Record<Stance, readonly Stroke[]>> = {
  wait: draw(false),
  ask: draw(true),
  'nothing-open': [{ d: `M4 17L${WIDTH} 13.4`, width: 0.9, opacity: 0.9 }],
}

export function StanceStreak({ stance }: { stance: Stance }) {
  return (
    <svg
      class="stance-streak"
      viewBox={`0 0 ${WIDTH} 34`}
      preserveAspectRatio="xMinYMid slice"
      aria-hidden="true"
      focusable="false"
    >
      {STROKES[stance].map(({ d, width, opacity }) => (
        <path key={d} d={d} stroke-width={width} opacity={opacity} />
      ))}
    </svg>
  )
}
