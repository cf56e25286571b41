/**
 * Whether a photo shows the exemplar's side at all, and which way up: the two are laid over each other on a coarse grid, in
 * four turns and mirrored, and correlated. A photo of something else is never measured into a verdict.
 */
import type { Point } from '../domain/photo-facts.ts'
import { type CannotTell, cannotTell } from './cannot-tell.ts'
import type { Corners } from './homography.ts'
import { type Picture, type PlacedPicture, place } from './placed-picture.ts'
import { levelAt } from './sample-along.ts'

export type Registration =
  | { readonly registered: true; readonly placed: PlacedPicture; readonly correlation: number }
  | ({ readonly registered: false; readonly correlation: number } & CannotTell)

const GRID = { across: 40, down: 56 }
// The outermost strip of every card of a series is the same border; only what is inside tells cards apart.
const LEFT_OUT_AT_RIM = 0.12
// Levels from here on are burnt out and say nothing of the design.
const BURNT_OUT = 250
// Copies of one design correlate above .9 when sharp and lit evenly, other designs seldom above .5; the middle. Ours,
// measured on the bench's scenes only.
const LEAST_CORRELATION = 0.7

// A card cut smaller than this by a side is rarer than a printed frame taken for the cut edge, mm. Ours.
const LARGEST_MISFIT_MM = 1.3
// Laying the exemplar over differently has to fit better by this much before the outline is doubted. Ours.
const DOUBTFUL_GAIN = 0.01

/**
 * @param corners clockwise from any corner.
 * @param trusted the person gave the corners; else they are checked against the picture inside them.
 */
export function registerPhoto(
  exemplar: PlacedPicture,
  photo: Picture,
  corners: Corners,
  trusted: boolean,
): Registration {
  const { size } = exemplar.plane
  const model = sampleGrid(exemplar)
  let best: { placed: PlacedPicture; correlation: number; mirrored: boolean } | null = null
  for (const { turned, mirrored } of poses(corners)) {
    const placed = place(photo, turned, size)
    if (!placed) continue
    const correlation = correlate(model, sampleGrid(placed))
    if (!best || correlation > best.correlation) best = { placed, correlation, mirrored }
  }
  if (!best) return { registered: false, ...cannotTell('corners-no-card'), correlation: 0 }
  const { placed, correlation, mirrored } = best
  if (correlation < LEAST_CORRELATION) {
    return { registered: false, ...cannotTell('other-design'), correlation }
  }
  if (mirrored) return { registered: false, ...cannotTell('mirrored'), correlation }
  if (!trusted && isMisfit(model, placed, correlation)) {
    return {
      registered: false,
      ...cannotTell('outline-not-cut-edge'),
      correlation,
    }
  }
  return { registered: true, placed, correlation }
}

function poses(corners: Corners): { turned: Corners; mirrored: boolean }[] {
  const turns = (four: readonly Point[]) =>
    [0, 1, 2, 3].map((k) => [0, 1, 2, 3].map((i) => four[(i + k) % 4]) as unknown as Corners)
  return [
    ...turns(corners).map((turned) => ({ turned, mirrored: false })),
    ...turns([...corners].reverse()).map((turned) => ({ turned, mirrored: true })),
  ]
}

/** How far each edge of the exemplar lies inside (positive) or outside of the outline found, mm. */
interface Insets {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

const NO_INSETS: Insets = { left: 0, top: 0, right: 0, bottom: 0 }

/**
 * Whether the exemplar fits better when its edges lie elsewhere than the outline found: then that outline is something else,
 * most often the printed frame of a card on a background of the border's own colour.
 */
function isMisfit(model: Float64Array, placed: PlacedPicture, correlation: number): boolean {
  const known = countKnown(sampleGrid(placed))
  let best = { insets: NO_INSETS, correlation }
  for (const step of [3, 1.5, 0.75, 0.4]) {
    for (let moved = true; moved; ) {
      moved = false
      for (const edge of ['left', 'top', 'right', 'bottom'] as const) {
        for (const sign of [-1, 1]) {
          const insets = { ...best.insets, [edge]: best.insets[edge] + sign * step }
          if (Math.abs(insets[edge]) > 12) continue
          const grid = sampleGrid(placed, insets)
          // Moving away from a burnt-out place is no better fit.
          if (countKnown(grid) < 0.99 * known) continue
          const tried = correlate(model, grid)
          if (tried <= best.correlation + 1e-4) continue
          best = { insets, correlation: tried }
          moved = true
        }
      }
    }
  }
  // A trimmed card lacks something on one side or two; a printed frame lies inside the cut edge all round.
  const inside = Object.values(best.insets).filter((inset) => inset < -LARGEST_MISFIT_MM)
  return inside.length >= 3 && best.correlation - correlation > DOUBTFUL_GAIN
}

function countKnown(levels: Float64Array): number {
  return levels.reduce((sum, level) => sum + (Number.isNaN(level) ? 0 : 1), 0)
}

/** Levels by cells of the exemplar's inside; not a number where the photo is burnt out there. */
function sampleGrid({ plane, grey }: PlacedPicture, { left, top, right, bottom }: Insets = NO_INSETS): Float64Array {
  const { widthMm, heightMm } = plane.size
  const levels = new Float64Array(GRID.across * GRID.down)
  const inside = 1 - 2 * LEFT_OUT_AT_RIM
  const cell = (plane.scaleAt(widthMm / 2, heightMm / 2) * widthMm * inside) / GRID.across
  for (let j = 0; j < GRID.down; j++) {
    for (let i = 0; i < GRID.across; i++) {
      const u = LEFT_OUT_AT_RIM + (inside * (i + 0.5)) / GRID.across
      const v = LEFT_OUT_AT_RIM + (inside * (j + 0.5)) / GRID.down
      const [x, y] = plane.toPixels(left + u * (widthMm - left - right), top + v * (heightMm - top - bottom))
      levels[j * GRID.across + i] = meanAround(grey, x, y, cell)
    }
  }
  return levels
}

/** Mean of a few places over one cell, so that halftone dots do not alias; not a number where one is burnt out. */
function meanAround(grey: PlacedPicture['grey'], x: number, y: number, cell: number): number {
  let sum = 0
  let count = 0
  for (let j = -1; j <= 1; j++) {
    for (let i = -1; i <= 1; i++) {
      const level = levelAt(grey, x + (i * cell) / 3, y + (j * cell) / 3)
      if (level === null) continue
      if (level >= BURNT_OUT) return Number.NaN
      sum += level
      count++
    }
  }
  return count === 0 ? Number.NaN : sum / count
}

/** Pearson's correlation over the cells that both have; 0 where they share less than half. */
function correlate(a: Float64Array, b: Float64Array): number {
  let [n, sumA, sumB] = [0, 0, 0]
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN((a[i] as number) + (b[i] as number))) continue
    n++
    sumA += a[i] as number
    sumB += b[i] as number
  }
  if (n < a.length / 2) return 0
  let [ab, aa, bb] = [0, 0, 0]
  for (let i = 0; i < a.length; i++) {
    const [da, db] = [(a[i] as number) - sumA / n, (b[i] as number) - sumB / n]
    if (Number.isNaN(da + db)) continue
    ab += da * db
    aa += da * da
    bb += db * db
  }
  return aa === 0 || bb === 0 ? 0 : ab / Math.sqrt(aa * bb)
}
