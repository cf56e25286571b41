/**
 * The width of a card's border: from its cut edge to the border's inner edge, both found in the photo to a part of a pixel, in
 * strips along the edge. The corners only say where to look; they are not part of the measure.
 */
import { median } from 'simple-statistics'
import type { BorderPoint } from '../domain/exemplar.ts'
import { type CannotTell, cannotTell } from './cannot-tell.ts'
import { locateStep } from './locate-step.ts'
import type { Pixels } from './pixels.ts'
import type { PlacedPicture } from './placed-picture.ts'

export type BorderMeasure = { readonly value: number; readonly uncertainty: number } | CannotTell

const STRIPS = 24
// Both edges have to be found in this share of the strips. Ours.
const LEAST_STRIPS = 0.6
// How far from the line between the corners the cut edge is looked for, mm: corners set by hand are off by less. Ours.
const CUT_EDGE_REACH_MM = 1.2
// A blur moves the place of an edge where the levels on its two sides are not balanced (gamma): a share of its width. Ours.
const SHIFT_PER_BLUR = 0.15
// What remains when an edge is sharp: interpolation and rounding, px. Ours.
const LEAST_ERROR_PX = 0.1
// Sizes vary by 1/32 in on cards after 1945 (from memory): taken as the bounds of an even distribution, over the width.
const SIZE_ERROR = 0.8 / Math.sqrt(3) / 63.5

type Channel = 0 | 1 | 2

export function measureBorder(point: BorderPoint, { pixels, plane, blurPx }: PlacedPicture): BorderMeasure {
  const { region, edge } = point
  const { widthMm, heightMm } = plane.size
  const upright = edge === 'left' || edge === 'right'
  const [start, length] = upright ? [region.y, region.height] : [region.x, region.width]
  const depth = (mm: number): number => (edge === 'left' || edge === 'top' ? mm : (upright ? widthMm : heightMm) - mm)
  const near = upright ? [region.x, region.x + region.width] : [region.y, region.y + region.height]
  const [innerFrom, innerTo] = near.map(depth).sort((a, b) => a - b) as [number, number]
  const scale = upright ? plane.scaleAt(depth(0), start + length / 2) : plane.scaleAt(start + length / 2, depth(0))
  const perMm = 2 * scale
  const from = -CUT_EDGE_REACH_MM
  const samples = Math.ceil((innerTo - from) * perMm) + 1
  const toPixels = (along: number, across: number) =>
    upright ? plane.toPixels(depth(across), along) : plane.toPixels(along, depth(across))

  const profiles: Float64Array[][] = []
  for (let strip = 0; strip < STRIPS; strip++) {
    const profile = averageStrip(pixels, samples, Math.max(1, Math.round((length * scale) / STRIPS)), (i, share) =>
      toPixels(start + (length * (strip + share)) / STRIPS, from + i / perMm),
    )
    if (profile) profiles.push(profile)
  }
  if (profiles.length < STRIPS * LEAST_STRIPS) return cannotTell('border-outside')
  const at = (mm: number) => (mm - from) * perMm
  const cut = locateInStrips(profiles, 0, at(Math.min(CUT_EDGE_REACH_MM, innerFrom)))
  if (!cut) return cannotTell('cut-edge-unclear')
  const inner = locateInStrips(profiles, at(innerFrom), at(innerTo))
  if (!inner) return cannotTell('inner-edge-unclear')
  const widths = inner.places.map((place, i) =>
    place !== null && cut.places[i] != null ? place - (cut.places[i] as number) : null,
  )
  const known = widths.filter((width): width is number => width !== null)
  if (known.length < STRIPS * LEAST_STRIPS) return cannotTell('edges-broken')
  const value = median(known) / perMm
  const spread = (1.4826 * median(known.map((width) => Math.abs(width / perMm - value)))) / Math.sqrt(known.length)
  const perEdge = Math.hypot(LEAST_ERROR_PX, SHIFT_PER_BLUR * (blurPx ?? 0)) / scale
  return { value, uncertainty: 2 * Math.hypot(spread, perEdge * Math.SQRT2, SIZE_ERROR * value) }
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
