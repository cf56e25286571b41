/** How far the colour of a region lies from the exemplar's, as CIEDE2000, after light and camera were balanced out. */
import type { PointOf } from '../../domain/exemplar.ts'
import type { CannotTell } from '../cannot-tell.ts'
import { deltaE00, type Light, labOf } from '../colour.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { balanceLight, scaleLight } from './balance-light.ts'
import { measurePatch } from './measure-patch.ts'
import type { MeasuredBeside, PairMeasure } from './point-measure.ts'

// One neutral place cannot disagree with itself; what two usually differ by stands in, ΔE00. Ours, from the bench's scenes.
const SINGLE_NEUTRAL_UNCERTAINTY = 0.8
// Cameras see inks otherwise than the standard observer does, even when greys agree, ΔE00. Ours, from memory.
const CAMERA_UNCERTAINTY = 0.5

export const tint: PairMeasure<'tint'> = {
  kind: 'tint',
  way: 'beside',
  compare(point: PointOf<'tint'>, exemplar: PlacedPicture, photo: PlacedPicture): MeasuredBeside | CannotTell {
    const model = measurePatch(exemplar, point.region)
    if ('reason' in model) return model
    const seen = measurePatch(photo, point.region)
    if ('reason' in seen) return seen
    const balance = balanceLight(point.neutral, point.region, exemplar, photo)
    if ('reason' in balance) return balance
    const balanced = labOf(scaleLight(seen.light, balance.gain))
    const known = labOf(model.light)
    const singles = balance.gains.map((gain: Light) => deltaE00(labOf(scaleLight(seen.light, gain)), balanced))
    const disagreement = singles.length === 1 ? SINGLE_NEUTRAL_UNCERTAINTY : Math.max(...singles) / Math.sqrt(3)
    const standard = Math.hypot(
      model.error,
      seen.error,
      disagreement,
      balance.error,
      jpegError(exemplar),
      jpegError(photo),
      CAMERA_UNCERTAINTY,
    )
    return {
      value: deltaE00(known, balanced),
      exemplar: 0,
      uncertainty: 2 * standard,
      figures: {
        deltaL: balanced.l - known.l,
        deltaChroma: Math.hypot(balanced.a, balanced.b) - Math.hypot(known.a, known.b),
        deltaB: balanced.b - known.b,
      },
    }
  },
}

/** Chroma rounding of JPEG at low quality, ΔE00: none from 90 on, about one at 60. Ours, from the bench's scenes. */
function jpegError({ jpegQuality }: PlacedPicture): number {
  return jpegQuality === null ? 0 : Math.max(0, (90 - jpegQuality) / 30)
}
