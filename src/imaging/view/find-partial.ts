/**
 * Close-ups, where no outline is whole: one corner of something, one side of it, or a thin strip seen from its edge. Found from lines
 * that run to the photo's rim, and from what lies on either side of them.
 */
import type { Point } from '../../domain/photo-facts.ts'
import { type Colour, colourAt, colourDistance, isThrough } from '../geometry/compare-sides.ts'
import { angleBetween, positionOn, type SeenLine, seenBetween } from '../geometry/join-lines.ts'
import type { WorkingPicture } from '../geometry/working-picture.ts'

export interface PartialCorner {
  readonly at: Point
  /** Unit directions of its two sides, away from the corner. */
  readonly along: readonly [Point, Point]
  readonly seen: number
  readonly contrast: number
  readonly seeThrough: number
  /** Further corners within, with sides parallel to these. */
  readonly nested: number
}

export interface Strip {
  readonly thicknessPx: number
  readonly lengthPx: number
  /** Lines along it, its two sides included. */
  readonly layers: number
  /** Runs from rim to rim. */
  readonly runsOut: boolean
  readonly contrast: number
  /** How much its tone varies along its middle, standard deviation in levels. */
  readonly unevenness: number
}

const LEAST_SEEN = 0.6
const MOST_PAST = 0.15
const SAME_OUTSIDE = 26

function clip({ x, y, ux, uy }: SeenLine, width: number, height: number): [number, number] | null {
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  for (const [p, u, size] of [
    [x, ux, width],
    [y, uy, height],
  ] as const) {
    if (Math.abs(u) < 1e-6) {
      if (p < 0 || p > size) return null
      continue
    }
    const [a, b] = [(0 - p) / u, (size - p) / u]
    low = Math.max(low, Math.min(a, b))
    high = Math.min(high, Math.max(a, b))
  }
  return high - low > 10 ? [low, high] : null
}

const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1] ?? 0
const medianColour = (colours: Colour[]): Colour =>
  [0, 1, 2].map((c) => median(colours.map((colour) => colour[c] as number))) as never

function deviation(values: readonly number[]): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length)
}

/** Colours beside a stretch of line, `offset` px to its left (negative) or right. */
function beside(picture: WorkingPicture, from: Point, u: Point, length: number, offset: number): Colour[] {
  const colours: Colour[] = []
  for (let k = 0; k < 16; k++) {
    const t = length * (0.08 + (0.84 * k) / 15)
    const colour = colourAt(picture, from[0] + u[0] * t - u[1] * offset, from[1] + u[1] * t + u[0] * offset)
    if (colour) colours.push(colour)
  }
  return colours
}

export function findCorner(picture: WorkingPicture, lines: readonly SeenLine[]): PartialCorner | null {
  const { width, height } = picture
  const found: (PartialCorner & { readonly reach: number })[] = []
  for (let i = 0; i < lines.length; i++) {
    for (let j = i + 1; j < lines.length; j++) {
      const [a, b] = [lines[i] as SeenLine, lines[j] as SeenLine]
      if (angleBetween(a.angle, b.angle) < (60 * Math.PI) / 180) continue
      const cross = a.ux * b.uy - a.uy * b.ux
      const t = ((b.x - a.x) * b.uy - (b.y - a.y) * b.ux) / cross
      const at: Point = [a.x + t * a.ux, a.y + t * a.uy]
      const [mx, my] = [0.04 * width, 0.04 * height]
      if (at[0] < mx || at[1] < my || at[0] > width - mx || at[1] > height - my) continue
      const [one, two] = [armOf(a, at, width, height), armOf(b, at, width, height)]
      if (!one || !two) continue
      const corner = judgeCorner(picture, at, one, two)
      if (corner) found.push(corner)
    }
  }
  // The outermost of several nested corners is the object's own; the others are borders, frames, wells.
  found.sort((p, q) => q.reach - p.reach)
  const outer = found.find((corner) => corner.contrast >= 8)
  if (!outer) return null
  const nested = found.filter(
    (inner) =>
      inner !== outer &&
      inner.along.every((u, k) => u[0] * outer.along[k]![0] + u[1] * outer.along[k]![1] > 0.97) &&
      Math.hypot(inner.at[0] - outer.at[0], inner.at[1] - outer.at[1]) > 4 &&
      liesWithin(inner.at, outer),
  ).length
  const { reach: _, ...corner } = outer
  return { ...corner, nested }
}

function liesWithin([x, y]: Point, { at, along: [u, v] }: PartialCorner): boolean {
  const cross = u[0] * v[1] - u[1] * v[0]
  const [dx, dy] = [x - at[0], y - at[1]]
  return (dx * v[1] - dy * v[0]) / cross > 0 && (u[0] * dy - u[1] * dx) / cross > 0
}

interface Arm {
  readonly u: Point
  readonly length: number
  readonly seen: number
}

/** The arm of a line that runs from a place to the rim, where nothing of the line is seen on the other side of the place. */
function armOf(line: SeenLine, at: Point, width: number, height: number): Arm | null {
  const span = clip(line, width, height)
  if (!span) return null
  const t = positionOn(line, at[0], at[1])
  const before = seenBetween(line, span[0], t - 3)
  const after = seenBetween(line, t + 3, span[1])
  const [toLow, toHigh] = [t - span[0], span[1] - t]
  const forward = after > before
  const length = forward ? toHigh : toLow
  if (length < 0.18 * Math.max(width, height)) return null
  const seen = (forward ? after : before) / length
  const past = forward ? before / Math.max(12, toLow) : after / Math.max(12, toHigh)
  if (seen < LEAST_SEEN || past > MOST_PAST) return null
  return { u: forward ? [line.ux, line.uy] : [-line.ux, -line.uy], length, seen: Math.min(1, seen) }
}

function judgeCorner(picture: WorkingPicture, at: Point, one: Arm, two: Arm) {
  // Which side of the first arm the second lies on: that is the inside.
  const side = Math.sign(one.u[0] * two.u[1] - one.u[1] * two.u[0])
  const [out1, in1] = [-side, side].map((s) => beside(picture, at, one.u, one.length, s * 6)) as [Colour[], Colour[]]
  const [out2, in2] = [side, -side].map((s) => beside(picture, at, two.u, two.length, s * 6)) as [Colour[], Colour[]]
  if (Math.min(out1.length, out2.length, in1.length, in2.length) < 6) return null
  const [o1, o2] = [medianColour(out1), medianColour(out2)]
  if (colourDistance(o1, o2) > SAME_OUTSIDE) return null
  const pairs = [
    ...in1.map((colour, k) => [colour, out1[k]] as const),
    ...in2.map((colour, k) => [colour, out2[k]] as const),
  ]
  const known = pairs.filter((pair): pair is readonly [Colour, Colour] => pair[1] !== undefined)
  const contrast = median(known.map(([inn, out]) => colourDistance(inn, out)))
  const seeThrough = known.filter(([inn, out]) => isThrough(inn, out)).length / known.length
  return {
    at,
    along: [one.u, two.u] as const,
    seen: Math.min(one.seen, two.seen),
    contrast,
    seeThrough,
    nested: 0,
    reach: one.length + two.length,
  }
}

/** Two parallel sides close together with the same table beyond both. */
export function findStrip(picture: WorkingPicture, lines: readonly SeenLine[]): Strip | null {
  const { width, height } = picture
  const long = Math.max(width, height)
  let best: (Strip & { readonly score: number }) | null = null
  for (let i = 0; i < lines.length; i++) {
    for (let j = i + 1; j < lines.length; j++) {
      const [a, b] = [lines[i] as SeenLine, lines[j] as SeenLine]
      if (angleBetween(a.angle, b.angle) > (5 * Math.PI) / 180) continue
      const apart = Math.abs(a.uy * (b.x - a.x) - a.ux * (b.y - a.y))
      if (apart < 3 || apart > 0.2 * long) continue
      const spanA = clip(a, width, height)
      const spanB = clip(b, width, height)
      if (!spanA || !spanB) continue
      const length = Math.max(a.support, b.support)
      if (Math.min(a.support, b.support) < 0.55 * length || length < 0.5 * long || apart > 0.16 * length) continue
      const strip = judgeStrip(picture, lines, a, b, apart, length, spanA)
      if (strip && (!best || strip.score > best.score)) best = strip
    }
  }
  if (!best) return null
  const { score: _, ...strip } = best
  return strip
}

function judgeStrip(
  picture: WorkingPicture,
  lines: readonly SeenLine[],
  a: SeenLine,
  b: SeenLine,
  apart: number,
  length: number,
  span: [number, number],
) {
  const toB = Math.sign(-a.uy * (b.x - a.x) + a.ux * (b.y - a.y))
  const start: Point = [a.x + a.ux * span[0], a.y + a.uy * span[0]]
  const run = span[1] - span[0]
  const gap = 7
  const out1 = beside(picture, start, [a.ux, a.uy], run, -toB * gap)
  const out2 = beside(picture, start, [a.ux, a.uy], run, toB * (apart + gap))
  const inner = beside(picture, start, [a.ux, a.uy], run, toB * (apart / 2))
  if (Math.min(out1.length, out2.length, inner.length) < 6) return null
  const [o1, o2] = [medianColour(out1), medianColour(out2)]
  if (colourDistance(o1, o2) > SAME_OUTSIDE + 8) return null
  const contrast = colourDistance(medianColour(inner), o1)
  const between = lines.filter((line) => {
    if (angleBetween(line.angle, a.angle) > (4 * Math.PI) / 180 || line.support < 0.4 * length) return false
    const off = toB * (-a.uy * (line.x - a.x) + a.ux * (line.y - a.y))
    return off > -1 && off < apart + 1
  }).length
  return {
    thicknessPx: apart,
    lengthPx: length,
    layers: between,
    runsOut: seenBetween(a, span[0], span[1]) > 0.85 * run,
    contrast,
    unevenness: deviation(inner.map((colour) => colour[0])),
    // The widest of nested strips is the object itself.
    score: length + apart,
  }
}

/** Lines that cross the whole photo, with the colours on both sides. */
export interface FullSide {
  readonly line: SeenLine
  readonly seen: number
  readonly left: Colour
  readonly right: Colour
  readonly seeThrough: number
}

export function findFullSides(picture: WorkingPicture, lines: readonly SeenLine[]): FullSide[] {
  const { width, height } = picture
  const found: FullSide[] = []
  for (const line of lines) {
    const span = clip(line, width, height)
    if (!span || span[1] - span[0] < 0.6 * Math.min(width, height)) continue
    const run = span[1] - span[0]
    const seen = seenBetween(line, span[0], span[1]) / run
    if (seen < 0.72) continue
    const start: Point = [line.x + line.ux * span[0], line.y + line.uy * span[0]]
    const [right, left] = [6, -6].map((offset) => beside(picture, start, [line.ux, line.uy], run, offset)) as [
      Colour[],
      Colour[],
    ]
    if (Math.min(left.length, right.length) < 6) continue
    const pairs = left.map((colour, k) => [colour, right[k] ?? colour] as const)
    found.push({
      line,
      seen,
      left: medianColour(left),
      right: medianColour(right),
      seeThrough: pairs.filter(([p, q]) => isThrough(p, q) || isThrough(q, p)).length / pairs.length,
    })
  }
  return found
}
