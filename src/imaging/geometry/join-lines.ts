/** Pieces that lie on one line are one line, with the stretches of it that were seen. */
import type { Segment } from './find-segments.ts'

export interface SeenLine {
  /** A point of the line and its unit direction. */
  readonly x: number
  readonly y: number
  readonly ux: number
  readonly uy: number
  readonly angle: number
  /** Seen length up to each whole position along the line, counted from `-origin`. */
  readonly seen: Float32Array
  readonly origin: number
  readonly support: number
}

// Two pieces of one side meet within this, px of the working picture. Ours.
const NEAR_PX = 1.8
const SAME_ANGLE = (5 * Math.PI) / 180
const MOST_LINES = 44
const LEAST_SUPPORT = 22
// Gaps as short as this are closed: JPEG blocks and grain break edges.
const GAP_PX = 5

export function angleBetween(a: number, b: number): number {
  const d = Math.abs(a - b) % Math.PI
  return Math.min(d, Math.PI - d)
}

export function joinLines(segments: readonly Segment[], width: number, height: number): SeenLine[] {
  const sorted = [...segments].sort((a, b) => b.length - a.length)
  const used = new Uint8Array(sorted.length)
  const lines: SeenLine[] = []
  for (let i = 0; i < sorted.length; i++) {
    if (used[i] === 1) continue
    const seed = sorted[i] as Segment
    if (seed.length < LEAST_SUPPORT / 2) break
    let members = [i]
    let fit = fitThrough([seed])
    for (let round = 0; round < 2; round++) {
      members = []
      for (let j = 0; j < sorted.length; j++) {
        const other = sorted[j] as Segment
        if (used[j] === 1 || angleBetween(other.angle, fit.angle) > SAME_ANGLE) continue
        const reach = NEAR_PX + 0.004 * Math.hypot((other.x0 + other.x1) / 2 - fit.x, (other.y0 + other.y1) / 2 - fit.y)
        if (distance(fit, other.x0, other.y0) > reach || distance(fit, other.x1, other.y1) > reach) continue
        members.push(j)
      }
      if (members.length === 0) break
      fit = fitThrough(members.map((j) => sorted[j] as Segment))
    }
    if (members.length === 0) continue
    for (const j of members) used[j] = 1
    const line = cover(
      fit,
      members.map((j) => sorted[j] as Segment),
      Math.ceil(Math.hypot(width, height)),
    )
    if (line.support >= LEAST_SUPPORT) lines.push(line)
  }
  return lines.sort((a, b) => b.support - a.support).slice(0, MOST_LINES)
}

interface Fit {
  readonly x: number
  readonly y: number
  readonly ux: number
  readonly uy: number
  readonly angle: number
}

const distance = ({ x, y, ux, uy }: Fit, px: number, py: number) => Math.abs(uy * (px - x) - ux * (py - y))

function fitThrough(segments: readonly Segment[]): Fit {
  let [sum, sx, sy] = [0, 0, 0]
  for (const { length, x0, y0, x1, y1 } of segments) {
    sum += length
    sx += (length * (x0 + x1)) / 2
    sy += (length * (y0 + y1)) / 2
  }
  const [x, y] = [sx / sum, sy / sum]
  let [xx, yy, xy] = [0, 0, 0]
  for (const { length, x0, y0, x1, y1 } of segments) {
    for (const [px, py] of [
      [x0, y0],
      [x1, y1],
    ] as const) {
      xx += length * (px - x) ** 2
      yy += length * (py - y) ** 2
      xy += length * (px - x) * (py - y)
    }
  }
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy)
  return { x, y, ux: Math.cos(angle), uy: Math.sin(angle), angle: angle < 0 ? angle + Math.PI : angle }
}

function cover(fit: Fit, segments: readonly Segment[], diagonal: number): SeenLine {
  const origin = diagonal + 1
  const marks = new Uint8Array(2 * origin + 1)
  const spans = segments
    .map(({ x0, y0, x1, y1 }) => {
      const [a, b] = [fit.ux * (x0 - fit.x) + fit.uy * (y0 - fit.y), fit.ux * (x1 - fit.x) + fit.uy * (y1 - fit.y)]
      return [Math.min(a, b), Math.max(a, b)] as const
    })
    .sort((a, b) => a[0] - b[0])
  let end = Number.NEGATIVE_INFINITY
  for (const [low, high] of spans) {
    const from = low - end <= GAP_PX ? end : low
    for (let t = Math.max(-origin, Math.floor(from)); t < Math.min(origin, Math.ceil(high)); t++) marks[t + origin] = 1
    end = Math.max(end, high)
  }
  const seen = new Float32Array(marks.length + 1)
  for (let i = 0; i < marks.length; i++) seen[i + 1] = (seen[i] as number) + (marks[i] as number)
  return { ...fit, seen, origin, support: seen[marks.length] as number }
}

/** Length of the line that was seen between two positions along it. */
export function seenBetween({ seen, origin }: SeenLine, a: number, b: number): number {
  const [low, high] = a < b ? [a, b] : [b, a]
  const last = seen.length - 1
  const at = (t: number) => seen[Math.min(last, Math.max(0, Math.round(t) + origin))] as number
  return at(high) - at(low)
}

export const positionOn = ({ x, y, ux, uy }: SeenLine, px: number, py: number) => ux * (px - x) + uy * (py - y)
