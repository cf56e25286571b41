/**
 * The width of one straight stroke. A bar under a Gaussian is fitted to every pixel of the region, so that the bar's width and the
 * blur are told apart as far as the photo tells them apart; where it does not, the uncertainty says so.
 */
import type { PointOf, Region } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { fitCurve } from './fit-curve.ts'
import { dominantAxis, normalCdf, pixelSize } from './measure-edge.ts'
import { blurMm, type Measured, type SoloMeasure } from './point-measure.ts'
import { type PlacedLight, readPixels } from './read-region.ts'

// Three pixels a stroke: then its middle reaches the ink's own level in a sharp photo. Ours.
const PIXELS_A_STROKE = 3
const MOST_RESIDUAL = 0.2
const LEAST_CONTRAST = 0.04
// What remains when all is sharp: interpolation, JPEG, screen of the neighbouring ink, px. Ours.
const LEAST_ERROR_PX = 0.06

export const strokeWidth: SoloMeasure<'stroke-width'> = {
  kind: 'stroke-width',
  way: 'alone',
  measure(point: PointOf<'stroke-width'>, picture: PlacedPicture): Measured | CannotTell {
    const { region } = point
    const seen = readPixels(picture, region)
    if ('reason' in seen) return seen
    if (seen.light.length < 60) return cannotTell('region-too-small', pixelSize(picture, region))
    const fit = fitBar(seen, picture, region)
    if (!fit) return cannotTell('stroke-unclear')
    const [, , , contrast, slope, width, sigma] = fit.values as number[]
    if (Math.abs(contrast!) < LEAST_CONTRAST || fit.residual > MOST_RESIDUAL * Math.abs(contrast!)) {
      return cannotTell('stroke-unclear')
    }
    const cosine = 1 / Math.sqrt(1 + slope! * slope!)
    const scale = picture.plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
    return {
      value: 1000 * Math.abs(width!) * cosine,
      uncertainty: 2000 * Math.hypot(2 * fit.errors[5]!, LEAST_ERROR_PX / scale) * cosine,
      figures: { blurUm: 1000 * Math.abs(sigma!) * cosine },
    }
  },
  needs: (_, { value }) => PIXELS_A_STROKE / (value / 1000),
}

/** Ground left, ground's tilt, middle, contrast, slope, width, blur. */
function fitBar(seen: PlacedLight, picture: PlacedPicture, region: Region) {
  const axis = dominantAxis(seen, region)
  const across = axis === 'x' ? seen.x : seen.y
  const along = axis === 'x' ? seen.y : seen.x
  const [from, length] = axis === 'x' ? [region.x, region.width] : [region.y, region.height]
  const alongMiddle = axis === 'x' ? region.y + region.height / 2 : region.x + region.width / 2
  const middle = from + length / 2
  const scale = picture.plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
  const slices = Math.max(8, Math.min(60, Math.round(0.6 * length * scale)))
  const sums = new Float64Array(slices)
  const counts = new Float64Array(slices)
  for (let i = 0; i < across.length; i++) {
    const slice = Math.min(slices - 1, Math.max(0, Math.floor((slices * (across[i]! - from)) / length)))
    sums[slice]! += seen.light[i]!
    counts[slice]! += 1
  }
  const means = Array.from(sums, (sum, i) =>
    counts[i]! > 0 ? sum / counts[i]! : sums[Math.max(0, i - 1)]! / Math.max(1, counts[Math.max(0, i - 1)]!),
  )
  const ground = (means[0]! + means[1]! + means[slices - 1]! + means[slices - 2]!) / 4
  let peak = 0
  for (let i = 1; i < slices - 1; i++) if (Math.abs(means[i]! - ground) > Math.abs(means[peak]! - ground)) peak = i
  const contrast = means[peak]! - ground
  if (Math.abs(contrast) < LEAST_CONTRAST) return null
  const half = means.filter((mean) => (mean - ground) / contrast > 0.5).length
  const width = Math.max(1, half) * (length / slices)
  const blur = Math.max(0.3 / scale, blurMm(picture, region.x + region.width / 2, region.y + region.height / 2))
  const tiny = 0.02 / scale
  return fitCurve(
    ([base, tilt, place, ink, slope, wide, sigma], i) => {
      const d = across[i]! - place! - slope! * (along[i]! - alongMiddle)
      const s = Math.abs(sigma!) + 1e-6
      const h = Math.abs(wide!) / 2
      return base! + tilt! * (across[i]! - middle) + ink! * (normalCdf((d + h) / s) - normalCdf((d - h) / s))
    },
    seen.light,
    [ground, 0, from + ((peak + 0.5) / slices) * length, contrast, 0, width, blur],
    [0.002, 0.002, tiny, 0.002, tiny / length, tiny, tiny],
  )
}
