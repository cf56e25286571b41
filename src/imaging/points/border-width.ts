/**
 * The width of a card's border: from its cut edge to the border's inner edge, both found in the photo to a part of a pixel, in
 * strips along the edge; with the border across from it, the centering on that axis. The outline only says where to look; it is
 * not part of the measure.
 */
import { median } from 'simple-statistics'
import type { BorderPoint, Region } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell, cannotTellOn } from '../cannot-tell.ts'
import { locateStep } from '../locate-step.ts'
import type { Pixels } from '../pixels.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import type { Measured, SoloMeasure } from './point-measure.ts'

const STRIPS = 24
// Both edges have to be found in this share of the strips. Ours.
const LEAST_STRIPS = 0.6
// Without an outline, how far from its place on the exemplar the cut edge is looked for, mm: print wanders on the stock. Ours.
const CUT_EDGE_REACH_MM = 2.2
// A blur moves the place of an edge where the levels on its two sides are not balanced (gamma): a share of its width. Ours.
const SHIFT_PER_BLUR = 0.15
// What remains when an edge is sharp: interpolation and rounding, px. Ours.
const LEAST_ERROR_PX = 0.1
// The print's own scale, by which mm are told, varies with the stock's shrinking and the registration. Ours.
const SCALE_ERROR = 0.004
// Around the outline found, the cut edge is looked for this far, mm. Ours.
const OUTLINE_REACH_MM = 0.8

type Channel = 0 | 1 | 2

type EdgeName = BorderPoint['edge']
const ACROSS_FROM: Readonly<Record<EdgeName, EdgeName>> = { left: 'right', right: 'left', top: 'bottom', bottom: 'top' }

export const borderWidth: SoloMeasure<'border-width'> = {
  kind: 'border-width',
  way: 'alone',
  measure(point: BorderPoint, picture: PlacedPicture): Measured | CannotTell {
    const border = measureBorder(point.region, point.edge, picture)
    if ('reason' in border) return border
    if (!point.opposite)
      return { value: border.value, uncertainty: border.uncertainty, figures: { skewMm: border.skew } }
    const across = measureBorder(point.opposite, ACROSS_FROM[point.edge], picture)
    if ('reason' in across) return cannotTellOn('other', across)
    const { larger, uncertainty } = centeringOf(border, across)
    return {
      value: larger,
      uncertainty,
      figures: { borderMm: border.value, oppositeMm: across.value, skewMm: border.skew - across.skew },
    }
  },
}

/** Centering as the trade writes it: 100 × larger / (left + right), so 60 for 60/40. */
export function centeringOf(
  a: { readonly value: number; readonly uncertainty: number },
  b: { readonly value: number; readonly uncertainty: number },
): { larger: number; uncertainty: number } {
  const sum = a.value + b.value
  const larger = (100 * Math.max(a.value, b.value)) / sum
  // d/da (a / (a + b)) = b / (a + b)², and the same for b.
  return { larger, uncertainty: (100 * Math.hypot(b.value * a.uncertainty, a.value * b.uncertainty)) / (sum * sum) }
}

interface Border {
  readonly value: number
  readonly uncertainty: number
  /** Width at the far end of the strip less that at the near end, mm. */
  readonly skew: number
}

function measureBorder(
  region: Region,
  edge: EdgeName,
  { pixels, plane, blurPx, outline }: PlacedPicture,
): Border | CannotTell {
  const { widthMm, heightMm } = plane.size
  const upright = edge === 'left' || edge === 'right'
  const [start, length] = upright ? [region.y, region.height] : [region.x, region.width]
  const depth = (mm: number): number => (edge === 'left' || edge === 'top' ? mm : (upright ? widthMm : heightMm) - mm)
  const near = upright ? [region.x, region.x + region.width] : [region.y, region.y + region.height]
  const [innerFrom, innerTo] = near.map(depth).sort((a, b) => a - b) as [number, number]
  const scale = upright ? plane.scaleAt(depth(0), start + length / 2) : plane.scaleAt(start + length / 2, depth(0))
  const perMm = 2 * scale
  // Where the outline's own side lies in the print's millimetres, at the middle of the strip.
  const expected = outline && outlineDepth(outline, edge, plane, start + length / 2, depth)
  const [cutFrom, cutTo] =
    expected === null
      ? [-CUT_EDGE_REACH_MM, Math.min(CUT_EDGE_REACH_MM, innerFrom)]
      : [expected - OUTLINE_REACH_MM, Math.min(expected + OUTLINE_REACH_MM, innerTo - 0.3)]
  const from = cutFrom
  const samples = Math.ceil((innerTo - from) * perMm) + 1
  const toPixels = (along: number, across: number) =>
    upright ? plane.toPixels(depth(across), along) : plane.toPixels(along, depth(across))

  const profiles: Float64Array[][] = []
  for (let strip = 0; strip < STRIPS; strip++) {
    const rows = Math.min(24, Math.max(1, Math.round((length * scale) / STRIPS)))
    const profile = averageStrip(pixels, samples, rows, (i, share) =>
      toPixels(start + (length * (strip + share)) / STRIPS, from + i / perMm),
    )
    if (profile) profiles.push(profile)
  }
  if (profiles.length < STRIPS * LEAST_STRIPS) return cannotTell('border-outside')
  const at = (mm: number) => (mm - from) * perMm
  const cut = locateInStrips(profiles, 0, at(cutTo))
  if (!cut) return cannotTell('cut-edge-unclear')
  const inner = locateInStrips(profiles, Math.max(at(innerFrom), at(cutFrom) + 2), at(innerTo))
  if (!inner) return cannotTell('inner-edge-unclear')
  const widths = inner.places.map((place, i) =>
    place !== null && cut.places[i] != null ? (place - (cut.places[i] as number)) / perMm : null,
  )
  const known = widths.filter((width): width is number => width !== null)
  if (known.length < STRIPS * LEAST_STRIPS) return cannotTell('edges-broken')
  const value = median(known)
  const spread = (1.4826 * median(known.map((width) => Math.abs(width - value)))) / Math.sqrt(known.length)
  const third = Math.ceil(widths.length / 3)
  const ends = [widths.slice(0, third), widths.slice(-third)].map((list) => list.filter((width) => width !== null))
  const skew = ends.every((list) => list.length > 0) ? median(ends[1]!) - median(ends[0]!) : 0
  const perEdge = Math.hypot(LEAST_ERROR_PX, SHIFT_PER_BLUR * (blurPx ?? 0)) / scale
  return { value, uncertainty: 2 * Math.hypot(spread, perEdge * Math.SQRT2, SCALE_ERROR * value), skew }
}

/** How deep inside the exemplar's edge (negative: outside) the outline's side lies, where it crosses the middle of the strip. */
function outlineDepth(
  outline: NonNullable<PlacedPicture['outline']>,
  edge: EdgeName,
  plane: PlacedPicture['plane'],
  along: number,
  depth: (mm: number) => number,
): number {
  const [a, b] = { top: [0, 1], right: [1, 2], bottom: [2, 3], left: [3, 0] }[edge] as [0 | 1 | 2 | 3, 0 | 1 | 2 | 3]
  const [p, q] = [plane.toMillimetres(...outline[a]), plane.toMillimetres(...outline[b])]
  const upright = edge === 'left' || edge === 'right'
  const [along0, along1] = upright ? [p[1], q[1]] : [p[0], q[0]]
  const [across0, across1] = upright ? [p[0], q[0]] : [p[1], q[1]]
  const share = along1 === along0 ? 0.5 : (along - along0) / (along1 - along0)
  return depth(across0 + (across1 - across0) * share)
}

/** Three channels of levels across the edge, averaged over the rows of one strip. */
function averageStrip(
  pixels: Pixels,
  samples: number,
  rows: number,
  place: (sample: number, share: number) => readonly [number, number],
): Float64Array[] | null {
  const sums = [0, 1, 2].map(() => new Float64Array(samples))
  for (let row = 0; row < rows; row++) {
    for (let i = 0; i < samples; i++) {
      const [x, y] = place(i, (row + 0.5) / rows)
      for (const channel of [0, 1, 2] as const) {
        const level = channelAt(pixels, x, y, channel)
        if (level === null) return null
        const sum = sums[channel] as Float64Array
        sum[i] = (sum[i] as number) + level / rows
      }
    }
  }
  return sums
}

function channelAt({ width, height, data }: Pixels, x: number, y: number, channel: Channel): number | null {
  const [left, top] = [Math.floor(x - 0.5), Math.floor(y - 0.5)]
  if (left < 0 || top < 0 || left + 1 >= width || top + 1 >= height) return null
  const [fx, fy] = [x - 0.5 - left, y - 0.5 - top]
  const at = 4 * (top * width + left) + channel
  const below = at + 4 * width
  const upper = (data[at] as number) * (1 - fx) + (data[at + 4] as number) * fx
  const lower = (data[below] as number) * (1 - fx) + (data[below + 4] as number) * fx
  return upper * (1 - fy) + lower * fy
}

/** Where each strip steps between two samples, in the channel in which most strips do, and most steeply. */
function locateInStrips(
  profiles: readonly Float64Array[][],
  from: number,
  to: number,
): { places: (number | null)[] } | null {
  let best: { places: (number | null)[]; rise: number } | null = null
  for (const channel of [0, 1, 2] as const) {
    const steps = profiles.map((profile) =>
      locateStep(profile[channel] as Float64Array, Math.floor(from), Math.ceil(to)),
    )
    const found = steps.filter((step) => step !== null)
    if (found.length < STRIPS * LEAST_STRIPS) continue
    const rise = Math.abs(median(found.map((step) => step.rise)))
    // Strips that step the other way follow something else.
    const sign = Math.sign(median(found.map((step) => step.rise)))
    const places = steps.map((step) => (step && Math.sign(step.rise) === sign ? step.position : null))
    if (!best || rise > best.rise) best = { places, rise }
  }
  return best
}
