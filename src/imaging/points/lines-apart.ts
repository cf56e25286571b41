/**
 * `flush` and `gap`: how far two parallel edges lie apart along one axis of the card. Both edges are found in the photo to a part
 * of a pixel; the registration only says where to look, and its small turn and scale go into the uncertainty.
 */
import type { PointOf, Region } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTellOn } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { measureEdge } from './measure-edge.ts'
import type { Measured, SoloMeasure } from './point-measure.ts'

// A registration turned by so much moves an edge by this share of the way between the two places: a tenth of a degree. Ours.
const TURN = 0.0016
// Scale of the card's plane after registration: a thousandth. Ours, from the bench.
const SCALE_ERROR = 0.002

function measureApart(point: PointOf<'flush'> | PointOf<'gap'>, picture: PlacedPicture): Measured | CannotTell {
  const first = measureEdge(picture, point.region, point.axis)
  if ('reason' in first) return first
  const second = measureEdge(picture, point.other, point.axis)
  if ('reason' in second) return cannotTellOn('other', second)
  const value = second.positionMm - first.positionMm
  const middle = ({ x, y, width, height }: Region) => (point.axis === 'x' ? y + height / 2 : x + width / 2)
  const along = Math.abs(middle(point.region) - middle(point.other))
  const scale = picture.plane.scaleAt(point.region.x, point.region.y)
  return {
    value,
    uncertainty:
      2 *
      Math.hypot(
        first.positionError,
        second.positionError,
        0.05 / scale,
        (TURN * along) / 2,
        SCALE_ERROR * Math.abs(value),
      ),
  }
}

export const flush: SoloMeasure<'flush'> = { kind: 'flush', way: 'alone', measure: measureApart }
export const gap: SoloMeasure<'gap'> = { kind: 'gap', way: 'alone', measure: measureApart }
