/**
 * Quadrilaterals whose four sides were seen, from lines that lie roughly parallel two by two. All of them, nested ones too: which is
 * a cut edge, a printed frame or a holder is decided elsewhere.
 */
import type { Point } from '../../domain/photo-facts.ts'
import { positionOn, type SeenLine, seenBetween } from './join-lines.ts'

export type Four = readonly [Point, Point, Point, Point]

export interface FoundQuad {
  /** Clockwise on the screen, from the corner nearest the top left; px of the working picture. */
  readonly corners: Four
  /** 0–1: how much of its sides was seen, less what runs on past its corners. */
  readonly merit: number
  /** Least seen share of a side. */
  readonly weakest: number
  readonly area: number
}

// Sides of a card tilted by 35 degrees and filling the photo converge by some 20 degrees; calculated, rounded up.
const MOST_CONVERGENCE = (28 * Math.PI) / 180
const LEAST_CROSSING = (58 * Math.PI) / 180
const LEAST_SIDE_PX = 22
const LEAST_MERIT = 0.42
const LEAST_SEEN = 0.22
// How far past a corner a line may run on before it counts against it, share of the side.
const PAST_CORNER = 0.25
// Nearer than this two outlines are one, px of the working picture: plastic shows two or three lines a rim. Ours.
const NEAR_PX = 4
const MOST_QUADS = 90

interface Pair {
  readonly a: SeenLine
  readonly b: SeenLine
  readonly angle: number
}

export function findQuads(lines: readonly SeenLine[], width: number, height: number): FoundQuad[] {
  const pairs: Pair[] = []
  for (let i = 0; i < lines.length; i++) {
    for (let j = i + 1; j < lines.length; j++) {
      const [a, b] = [lines[i] as SeenLine, lines[j] as SeenLine]
      const between = Math.abs(a.angle - b.angle)
      if (Math.min(between, Math.PI - between) > MOST_CONVERGENCE) continue
      const apart = Math.abs(a.uy * (b.x - a.x) - a.ux * (b.y - a.y))
      if (apart < LEAST_SIDE_PX) continue
      const mean = between > Math.PI / 2 ? ((a.angle + b.angle + Math.PI) / 2) % Math.PI : (a.angle + b.angle) / 2
      pairs.push({ a, b, angle: mean })
    }
  }
  const found: FoundQuad[] = []
  for (let i = 0; i < pairs.length; i++) {
    for (let j = i + 1; j < pairs.length; j++) {
      const [p, q] = [pairs[i] as Pair, pairs[j] as Pair]
      const crossing = Math.abs(p.angle - q.angle)
      if (Math.min(crossing, Math.PI - crossing) < LEAST_CROSSING) continue
      const quad = scoreQuad(p, q, width, height)
      if (quad) found.push(quad)
    }
  }
  found.sort((a, b) => b.merit - a.merit)
  const kept: FoundQuad[] = []
  for (const quad of found) {
    if (kept.every((other) => differ(quad, other))) kept.push(quad)
    if (kept.length >= MOST_QUADS) break
  }
  return kept
}

export function areaOf(corners: Four): number {
  let sum = 0
  for (let i = 0; i < 4; i++) {
    const [a, b] = [corners[i], corners[(i + 1) % 4]] as [Point, Point]
    sum += a[0] * b[1] - b[0] * a[1]
  }
  return Math.abs(sum) / 2
}

function meet(a: SeenLine, b: SeenLine): Point | null {
  const cross = a.ux * b.uy - a.uy * b.ux
  if (Math.abs(cross) < 0.3) return null
  const t = ((b.x - a.x) * b.uy - (b.y - a.y) * b.ux) / cross
  return [a.x + t * a.ux, a.y + t * a.uy]
}

function scoreQuad(p: Pair, q: Pair, width: number, height: number): FoundQuad | null {
  const order = [
    [p.a, q.a],
    [p.a, q.b],
    [p.b, q.b],
    [p.b, q.a],
  ] as const
  const corners: Point[] = []
  const [mx, my] = [0.02 * width + 2, 0.02 * height + 2]
  for (const [one, other] of order) {
    const corner = meet(one, other)
    if (!corner || corner[0] < -mx || corner[1] < -my || corner[0] > width + mx || corner[1] > height + my) return null
    corners.push(corner)
  }
  const sides = [p.a, q.b, p.b, q.a]
  let [sum, weakest, past] = [0, 1, 0]
  for (let k = 0; k < 4; k++) {
    const line = sides[k] as SeenLine
    const [from, to] = [corners[k] as Point, corners[(k + 1) % 4] as Point]
    const [a, b] = [positionOn(line, from[0], from[1]), positionOn(line, to[0], to[1])]
    const length = Math.abs(b - a)
    if (length < LEAST_SIDE_PX) return null
    const share = Math.min(1, seenBetween(line, a, b) / (0.97 * length))
    if (share < LEAST_SEEN) return null
    sum += share
    weakest = Math.min(weakest, share)
    const [low, high] = a < b ? [a, b] : [b, a]
    const run = PAST_CORNER * length
    past += (seenBetween(line, low - run, low - 2) + seenBetween(line, high + 2, high + run)) / (2 * run)
  }
  const four = clockwise(corners as unknown as Four)
  if (!four || !isPlausible(four)) return null
  const merit = 0.6 * (sum / 4) + 0.4 * weakest - 0.45 * (past / 4)
  return merit < LEAST_MERIT ? null : { corners: four, merit, weakest, area: areaOf(four) }
}

/** Opposite sides of a flat rectangle at 35 degrees differ by less than this; calculated for a card that fills the photo. */
function isPlausible(corners: Four): boolean {
  const side = (i: number) => {
    const [a, b] = [corners[i], corners[(i + 1) % 4]] as [Point, Point]
    return Math.hypot(b[0] - a[0], b[1] - a[1])
  }
  const ratio = (a: number, b: number) => Math.max(a, b) / Math.min(a, b)
  return ratio(side(0), side(2)) < 1.6 && ratio(side(1), side(3)) < 1.6
}

function clockwise(corners: Four): Four | null {
  let sign = 0
  for (let i = 0; i < 4; i++) {
    const [a, b, c] = [corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]] as [Point, Point, Point]
    const cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    if (sign !== 0 && Math.sign(cross) !== sign) return null
    sign = Math.sign(cross)
  }
  const ordered = sign < 0 ? [...corners].reverse() : [...corners]
  let start = 0
  for (let i = 1; i < 4; i++) {
    const [here, best] = [ordered[i], ordered[start]] as [Point, Point]
    if (here[0] + here[1] < best[0] + best[1]) start = i
  }
  return [0, 1, 2, 3].map((i) => ordered[(start + i) % 4]) as unknown as Four
}

function differ(a: FoundQuad, b: FoundQuad): boolean {
  let apart = 0
  for (let i = 0; i < 4; i++) {
    const [p, q] = [a.corners[i], b.corners[i]] as [Point, Point]
    apart = Math.max(apart, Math.hypot(p[0] - q[0], p[1] - q[1]))
  }
  return apart > NEAR_PX
}
