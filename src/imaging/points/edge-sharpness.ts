/**
 * How softly an ink edge rises, beyond what lens, focus and encoding do in the same photo. A reference edge that copying does not
 * soften carries the camera's blur; variances add, so what the ink edge has more is the print's.
 */
import type { PointOf } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTellOn } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { measureEdge, RISE_PER_SIGMA } from './measure-edge.ts'
import type { Measured, SoloMeasure } from './point-measure.ts'

// Focus and motion differ a little between two places of one photo: of the camera's own blur. Ours.
const CAMERA_SHARE = 0.05

export const edgeSharpness: SoloMeasure<'edge-sharpness'> = {
  kind: 'edge-sharpness',
  way: 'alone',
  measure(point: PointOf<'edge-sharpness'>, picture: PlacedPicture): Measured | CannotTell {
    const edge = measureEdge(picture, point.region, null)
    if ('reason' in edge) return edge
    const reference = measureEdge(picture, point.reference, null)
    if ('reason' in reference) return cannotTellOn('reference', reference)
    const excess = edge.sigmaMm ** 2 - reference.sigmaMm ** 2
    const error = Math.hypot(
      2 * edge.sigmaMm * edge.sigmaError,
      2 * reference.sigmaMm * reference.sigmaError,
      2 * reference.sigmaMm ** 2 * CAMERA_SHARE,
    )
    const riseOf = (variance: number) => 1000 * RISE_PER_SIGMA * Math.sign(variance) * Math.sqrt(Math.abs(variance))
    const value = Math.max(0, riseOf(excess))
    // The root is steep near nothing: the interval is carried through it, not its width.
    const high = Math.max(0, riseOf(excess + 2 * error))
    const low = Math.max(0, riseOf(excess - 2 * error))
    return {
      value,
      uncertainty: Math.max(high - value, value - low),
      figures: {
        low,
        high,
        edgeRise: 1000 * RISE_PER_SIGMA * edge.sigmaMm,
        referenceRise: 1000 * RISE_PER_SIGMA * reference.sigmaMm,
      },
    }
  },
}
