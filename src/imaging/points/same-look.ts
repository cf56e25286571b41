/** Whether a place looks the same: mean local structural similarity after the print was laid over, each made as soft as the other. */
import type { PointOf } from '../../domain/exemplar.ts'
import type { CannotTell } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { layOver } from './lay-over.ts'
import { mapSsim, weightedMean } from './measure-ssim.ts'
import type { MeasuredBeside, PairMeasure } from './point-measure.ts'
import { blurRaster } from './read-region.ts'

// Finer than this, grain and screen decide and not the drawing, px/mm. Ours.
const MOST_PER_MM = 5
// Softer than the coarsest usual screen's cell (85 lines an inch: 0.3 mm), so that dots do not count as drawing. Ours, mm.
const SCREEN_BLUR_MM = 0.2
const BLOCKS = 4

export const sameLook: PairMeasure<'same-look'> = {
  kind: 'same-look',
  way: 'beside',
  compare(point: PointOf<'same-look'>, exemplar: PlacedPicture, photo: PlacedPicture): MeasuredBeside | CannotTell {
    const laid = layOver(point.region, exemplar, photo, MOST_PER_MM)
    if ('reason' in laid) return laid
    const soft = (levels: Float32Array) => blurRaster(levels, laid.width, laid.height, SCREEN_BLUR_MM * laid.perMm)
    const { width, height, values, weights } = mapSsim(soft(laid.model), soft(laid.seen), laid.width, laid.height)
    const value = weightedMean(values, weights)
    // Quarters of the region: a place that looks otherwise is local, and so is what registration leaves.
    const parts: number[] = []
    for (let k = 0; k < BLOCKS; k++) {
      const [left, top] = [(k % 2) * (width >> 1), (k >> 1) * (height >> 1)]
      const [part, weigh]: [number[], number[]] = [[], []]
      for (let y = top; y < top + (height >> 1); y++) {
        for (let x = left; x < left + (width >> 1); x++) {
          part.push(values[y * width + x]!)
          weigh.push(weights[y * width + x]!)
        }
      }
      if (part.length > 0) parts.push(weightedMean(part, weigh))
    }
    const spread = Math.sqrt(parts.reduce((sum, part) => sum + (part - value) ** 2, 0) / Math.max(1, parts.length - 1))
    const noise = photo.jpegQuality === null ? 0.02 : 0.02 + Math.max(0, 90 - photo.jpegQuality) / 1000
    return { value, exemplar: 1, uncertainty: 2 * Math.hypot(spread / Math.sqrt(BLOCKS) / 2, noise) }
  },
}
