/**
 * One straight edge in a region: where it runs, how wide its rise is, how sure both are. All pixels of the region are taken at
 * their own place and a step under a Gaussian is fitted to them, as the slanted-edge method of ISO 12233 takes each row of a
 * slanted edge for another sampling of one profile. In linear light: in levels every edge would move to its darker side.
 */
import { errorFunction } from 'simple-statistics'
import type { Region } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { type CurveFit, fitCurve } from './fit-curve.ts'
import { type PlacedLight, readPixels } from './read-region.ts'

export type Axis = 'x' | 'y'

export interface Edge {
  /** `x`: an upright edge, measured from left to right. */
  readonly axis: Axis
  /** Along the axis at the region's middle, mm, and its standard uncertainty. */
  readonly positionMm: number
  readonly positionError: number
  /** Standard deviation of the rise across the edge, mm, the pixel's own width included. */
  readonly sigmaMm: number
  readonly sigmaError: number
  /** Light after minus light before, along the axis. */
  readonly rise: number
  /** mm across a mm along. */
  readonly slope: number
}

/** From the standard deviation of a Gaussian edge to its 10–90 % rise: twice the normal deviate of 0.9. */
export const RISE_PER_SIGMA = 2 * 1.2815515655446004

// A step lower than this share of full light cannot be told from grain and JPEG noise. Ours.
const LEAST_RISE = 0.03
// Residuals above this share of the rise: there is more in the region than one edge. Ours.
const MOST_RESIDUAL = 0.22
const GROUPS = 4
const LEAST_PIXELS = 60

export const normalCdf = (z: number) => 0.5 * (1 + errorFunction(z / Math.SQRT2))

/** @param rising keep only an edge of this direction along the axis; `null`: either. */
export function measureEdge(
  picture: PlacedPicture,
  region: Region,
  axis: Axis | null,
  rising: boolean | null = null,
): Edge | CannotTell {
  const seen = readPixels(picture, region)
  if ('reason' in seen) return seen
  if (seen.light.length < LEAST_PIXELS) {
    return cannotTell('region-too-small', pixelSize(picture, region))
  }
  const chosen = axis ?? dominantAxis(seen, region)
  const across = chosen === 'x' ? seen.x : seen.y
  const along = chosen === 'x' ? seen.y : seen.x
  const middle = chosen === 'x' ? region.y + region.height / 2 : region.x + region.width / 2
  const [from, length] = chosen === 'x' ? [region.x, region.width] : [region.y, region.height]
  const scale = picture.plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
  const start = firstGuess(across, seen.light, from, length, scale, rising)
  if (!start) return cannotTell('edge-unclear')
  const whole = fitStep(across, along, seen.light, middle, start, length, scale)
  if (!whole) return cannotTell('edge-unclear')
  const [low, high, position, slope, sigma] = whole.values as [number, number, number, number, number]
  const rise = high - low
  const outside = position < from || position > from + length
  if (Math.abs(rise) < LEAST_RISE || outside || Math.abs(slope) > 0.5) return cannotTell('edge-unclear')
  if (whole.residual > MOST_RESIDUAL * Math.abs(rise)) return cannotTell('edge-unclear')
  // Four stretches of the edge by themselves: what they disagree by no formula knows.
  const alongFrom = chosen === 'x' ? region.y : region.x
  const alongLength = chosen === 'x' ? region.height : region.width
  const parts: [number, number][] = []
  for (let group = 0; group < GROUPS; group++) {
    const keep: number[] = []
    for (let i = 0; i < along.length; i++) {
      if (Math.floor((GROUPS * (along[i]! - alongFrom)) / alongLength) === group) keep.push(i)
    }
    if (keep.length < LEAST_PIXELS / 2) continue
    const pick = (list: Float64Array) => Float64Array.from(keep, (i) => list[i]!)
    const part = fitStep(pick(across), pick(along), pick(seen.light), middle, whole.values, length, scale, slope)
    if (part) parts.push([part.values[2]!, Math.abs(part.values[3]!)])
  }
  const spread = (values: number[]) => {
    if (values.length < 3) return 0
    const mean = values.reduce((a, b) => a + b, 0) / values.length
    return Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1) / values.length)
  }
  const cosine = 1 / Math.sqrt(1 + slope * slope)
  return {
    axis: chosen,
    positionMm: position,
    positionError: Math.hypot(whole.errors[2]!, spread(parts.map(([place]) => place)), 0.04 / scale),
    sigmaMm: Math.abs(sigma) * cosine,
    sigmaError: Math.hypot(whole.errors[4]!, spread(parts.map(([, width]) => width)), 0.015 / scale) * cosine,
    rise,
    slope,
  }
}

export function pixelSize({ plane }: PlacedPicture, region: Region): { across: string; down: string } {
  const scale = plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
  return { across: String(Math.round(region.width * scale)), down: String(Math.round(region.height * scale)) }
}

/** The direction in which the light changes more: averages of ten slices either way, squared differences. */
export function dominantAxis({ x, y, light }: PlacedLight, region: Region): Axis {
  const slices = 10
  const change = (places: Float64Array, from: number, length: number) => {
    const sums = new Float64Array(slices)
    const counts = new Float64Array(slices)
    for (let i = 0; i < places.length; i++) {
      const slice = Math.min(slices - 1, Math.max(0, Math.floor((slices * (places[i]! - from)) / length)))
      sums[slice]! += light[i]!
      counts[slice]! += 1
    }
    const means = Array.from(sums, (sum, i) => sum / Math.max(1, counts[i]!))
    const all = means.reduce((a, b) => a + b, 0) / slices
    return means.reduce((sum, mean) => sum + (mean - all) ** 2, 0)
  }
  return change(x, region.x, region.width) >= change(y, region.y, region.height) ? 'x' : 'y'
}

/** Light by narrow slices across the edge, then the steepest place. */
function firstGuess(
  across: Float64Array,
  light: Float64Array,
  from: number,
  length: number,
  scale: number,
  rising: boolean | null,
): number[] | null {
  const slices = Math.max(6, Math.min(80, Math.round(length * scale)))
  const sums = new Float64Array(slices)
  const counts = new Float64Array(slices)
  for (let i = 0; i < across.length; i++) {
    const slice = Math.min(slices - 1, Math.max(0, Math.floor((slices * (across[i]! - from)) / length)))
    sums[slice]! += light[i]!
    counts[slice]! += 1
  }
  const means = Array.from(sums, (sum, i) => (counts[i]! > 0 ? sum / counts[i]! : Number.NaN))
  let best = { at: -1, change: 0 }
  for (let i = 1; i < slices - 1; i++) {
    const change = means[i + 1]! - means[i - 1]!
    if (rising !== null && change > 0 !== rising) continue
    if (Math.abs(change) > Math.abs(best.change)) best = { at: i, change }
  }
  if (best.at < 0) return null
  const before = means.slice(0, best.at).filter((x) => !Number.isNaN(x))
  const after = means.slice(best.at + 1).filter((x) => !Number.isNaN(x))
  const middle = (list: number[]) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]
  const [low, high] = [middle(before), middle(after)]
  if (low === undefined || high === undefined) return null
  return [low, high, from + ((best.at + 0.5) / slices) * length, 0, 0.8 / scale]
}

function fitStep(
  across: Float64Array,
  along: Float64Array,
  light: Float64Array,
  middle: number,
  start: readonly number[],
  length: number,
  scale: number,
  slope: number | null = null,
): CurveFit | null {
  const tiny = 0.02 / scale
  if (slope === null) {
    return fitCurve(
      ([low, high, position, tilt, sigma], i) =>
        low! +
        (high! - low!) * normalCdf((across[i]! - position! - tilt! * (along[i]! - middle)) / (Math.abs(sigma!) + 1e-6)),
      light,
      start,
      [0.002, 0.002, tiny, tiny / Math.max(0.2, length), tiny],
    )
  }
  const [low, high, position, , sigma] = start as [number, number, number, number, number]
  return fitCurve(
    ([a, b, place, width], i) =>
      a! + (b! - a!) * normalCdf((across[i]! - place! - slope * (along[i]! - middle)) / (Math.abs(width!) + 1e-6)),
    light,
    [low, high, position, sigma],
    [0.002, 0.002, tiny, tiny],
  )
}
