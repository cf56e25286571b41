/**
 * One region of photo and exemplar laid over each other pixel by pixel: the print aligned around it, the sharper of the two made as
 * soft as the other, light levelled. For kinds that look at a whole pattern.
 */
import type { Region } from '../../domain/exemplar.ts'
import { alignRegion } from '../align-print.ts'
import { type CannotTell, cannotTell, cannotTellOn } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { blurMm } from './point-measure.ts'
import { blurRaster, readLight } from './read-region.ts'

export interface LaidOver {
  readonly width: number
  readonly height: number
  readonly perMm: number
  /** Levels 0–255 of the square root of light: near what the eye sees as even steps. */
  readonly model: Float32Array
  /** The photo's, its mean and spread made the model's. */
  readonly seen: Float32Array
  /** The photo's spread over the model's before that. */
  readonly contrast: number
}

/** @param mostPerMm of the raster; a coarser photo sets it. */
export function layOver(
  region: Region,
  exemplar: PlacedPicture,
  photo: PlacedPicture,
  mostPerMm: number,
): LaidOver | CannotTell {
  const middle = [region.x + region.width / 2, region.y + region.height / 2] as const
  const perMm = Math.min(mostPerMm, photo.plane.scaleAt(...middle), exemplar.plane.scaleAt(...middle))
  const { plane } = alignRegion(exemplar, photo, region)
  const model = readLight(exemplar, region, perMm)
  if ('reason' in model) return cannotTellOn('exemplar', model)
  const seen = readLight({ ...photo, plane }, region, perMm)
  if ('reason' in seen) return seen
  const { width, height } = model
  if (width < 12 || height < 12) {
    return cannotTell('region-too-small', { across: String(width), down: String(height) })
  }
  const [a, b] = [blurMm(exemplar, ...middle), blurMm(photo, ...middle)]
  const level = (values: Float32Array) => values.map((value) => 255 * Math.sqrt(Math.max(0, value)))
  const soften = (values: Float32Array, own: number, other: number) =>
    blurRaster(values, width, height, Math.sqrt(Math.max(0, other * other - own * own)) * perMm)
  const modelLevels = level(soften(model.y, a, b))
  const seenLevels = level(soften(seen.y, b, a))
  const [ma, mb] = [mean(modelLevels), mean(seenLevels)]
  const [sa, sb] = [spread(modelLevels, ma), spread(seenLevels, mb)]
  const gain = sb > 0 ? sa / sb : 1
  return {
    width,
    height,
    perMm,
    model: modelLevels,
    seen: seenLevels.map((value) => ma + gain * (value - mb)),
    contrast: sa > 0 ? sb / sa : 1,
  }
}

function mean(values: Float32Array): number {
  let sum = 0
  for (const value of values) sum += value
  return sum / values.length
}

function spread(values: Float32Array, middle: number): number {
  let sum = 0
  for (const value of values) sum += (value - middle) ** 2
  return Math.sqrt(sum / values.length)
}
