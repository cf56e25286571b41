/**
 * A ruler: along a straight edge that is not the card's, regular marks on one side only, at a spacing that fits the card's scale. A
 * weave is regular on both sides; a hatched picture lies within the card.
 */
import type { Point } from '../../domain/photo-facts.ts'
import type { SeenLine } from '../geometry/join-lines.ts'
import { contains, type Layout } from '../geometry/read-layout.ts'
import type { Grey } from '../pixels.ts'
import { levelAt } from '../sample-along.ts'

export interface Ticks {
  readonly spacingPx: number
  /** How alike the marks are one and two spacings on, 0–1. */
  readonly regularity: number
  readonly count: number
}

// Below this likeness one and two spacings on nothing is regular. Ours.
const LEAST_REGULARITY = 0.3
const LEAST_COUNT = 18
// The other side of the edge must be less regular by this much.
const ONE_SIDED = 0.2
// Distances from the edge at which marks are looked for, px of the working picture.
const OFFSETS = [2.5, 4.5, 7]

export function findTicks(grey: Grey, layout: Layout, scale: number): Ticks | null {
  const { card, holder, lines } = layout
  let best: Ticks | null = null
  for (const line of lines.slice(0, 24)) {
    const span = spanOf(line)
    if (!span) continue
    const middle: Point = [line.x + (line.ux * (span[0] + span[1])) / 2, line.y + (line.uy * (span[0] + span[1])) / 2]
    if (card && contains(card.corners, middle, 6)) continue
    if (holder && contains(holder.corners, middle, -3)) continue
    const sides = [1, -1].map((sign) => {
      const tries = OFFSETS.map((offset) => regularityOf(profileOf(grey, line, span, sign * offset, scale)))
      return tries.reduce((a, b) => (b.regularity > a.regularity ? b : a))
    }) as [Ticks, Ticks]
    const [one, two] = sides[0].regularity >= sides[1].regularity ? sides : [sides[1], sides[0]]
    if (one.regularity < LEAST_REGULARITY || one.count < LEAST_COUNT) continue
    if (one.regularity - two.regularity < ONE_SIDED) continue
    if (!best || one.regularity > best.regularity) best = one
  }
  return best
}

function spanOf({ seen, origin }: SeenLine): [number, number] | null {
  const total = seen[seen.length - 1] as number
  let [low, high] = [-1, -1]
  for (let i = 1; i < seen.length; i++) {
    if (low < 0 && (seen[i] as number) > 0) low = i
    if (high < 0 && (seen[i] as number) >= total) high = i
  }
  return high - low < 60 ? null : [low - origin, high - origin]
}

function profileOf(
  grey: Grey,
  { x, y, ux, uy }: SeenLine,
  [from, to]: [number, number],
  offset: number,
  scale: number,
): Float64Array {
  const n = Math.floor((to - from) * scale)
  const profile = new Float64Array(n)
  let last = 0
  for (let i = 0; i < n; i++) {
    const t = from + i / scale
    last = levelAt(grey, (x + ux * t - uy * offset) * scale, (y + uy * t + ux * offset) * scale) ?? last
    profile[i] = last
  }
  return profile
}

function regularityOf(profile: Float64Array): Ticks {
  const n = profile.length
  const nothing = { spacingPx: 0, regularity: 0, count: 0 }
  if (n < 120) return nothing
  // The slow part (light, a shadow) is taken off by a running mean.
  const window = 40
  const flat = new Float64Array(n)
  let sum = 0
  for (let i = 0; i < n + window; i++) {
    if (i < n) sum += profile[i] as number
    if (i >= 2 * window) sum -= profile[i - 2 * window] as number
    const at = i - window
    if (at >= 0) flat[at] = (profile[at] as number) - sum / (Math.min(i + 1, n) - Math.max(0, i - 2 * window + 1))
  }
  const likeness = (lag: number) => {
    let [ab, aa, bb] = [0, 0, 0]
    for (let i = 0; i + lag < n; i++) {
      const [a, b] = [flat[i] as number, flat[i + lag] as number]
      ab += a * b
      aa += a * a
      bb += b * b
    }
    return ab / Math.sqrt(Math.max(1e-9, aa * bb))
  }
  let energy = 0
  for (let i = 0; i < n; i++) energy += (flat[i] as number) ** 2
  // Marks are ink: a ripple of two levels is none.
  if (Math.sqrt(energy / n) < 4) return nothing
  let best = nothing
  const values: number[] = []
  for (let lag = 3; lag <= 48; lag++) values[lag] = likeness(lag)
  for (let lag = 4; lag <= 46; lag++) {
    const here = values[lag] as number
    if (here < LEAST_REGULARITY || here < (values[lag - 1] as number) || here < (values[lag + 1] as number)) continue
    // Between two marks there is none: half a spacing on, likeness is gone.
    if ((values[Math.max(3, Math.round(lag / 2))] as number) > 0.35 * here) continue
    const regularity = Math.min(here, likeness(2 * lag) + 0.1)
    if (regularity > best.regularity) best = { spacingPx: lag, regularity, count: Math.floor(n / lag) }
    break
  }
  return best
}
