/** What each kind of point answers with, and how two answers become a verdict. Kinds live in a file each beside this one. */
import type { ExemplarPoint, PointOf } from '../../domain/exemplar.ts'
import type { PointKind } from '../../domain/exemplar-kinds.ts'
import type { CannotTell } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'

export interface Measured {
  readonly value: number
  /** Expanded, about 95 %. */
  readonly uncertainty: number
  readonly figures?: Readonly<Record<string, number>>
}

/** A photo's measure beside the exemplar's, where the one has no meaning without the other. */
export interface MeasuredBeside extends Measured {
  readonly exemplar: number
  /** How far apart, in the unit, where that is not the difference of the two values. */
  readonly apart?: number
  /** A second measure that alone makes the point differ, beyond its own uncertainty. */
  readonly alsoDiffers?: boolean
}

/** Measured in each picture by itself. */
export interface SoloMeasure<K extends PointKind> {
  readonly kind: K
  readonly way: 'alone'
  measure(point: PointOf<K>, picture: PlacedPicture): Measured | CannotTell
  /** px/mm that this exemplar asks for, from what was measured on it. */
  needs?(point: PointOf<K>, model: Measured): number
  /** A second figure that alone makes the point differ, beyond its own uncertainty. */
  alsoDiffers?(point: PointOf<K>, model: Measured, seen: Measured, tolerance: number): boolean
}

/** Measured on the photo against one picture of the exemplar. */
export interface PairMeasure<K extends PointKind> {
  readonly kind: K
  readonly way: 'beside'
  compare(point: PointOf<K>, exemplar: PlacedPicture, photo: PlacedPicture): MeasuredBeside | CannotTell
  needs?(point: PointOf<K>, exemplar: PlacedPicture): number
}

/** A kind's measure, freed of its own kind of point, for the one place that goes over all of them. */
export type AnyMeasure =
  | (Omit<SoloMeasure<PointKind>, 'measure' | 'needs' | 'alsoDiffers'> & {
      alsoDiffers?(point: ExemplarPoint, model: Measured, seen: Measured, tolerance: number): boolean
      measure(point: ExemplarPoint, picture: PlacedPicture): Measured | CannotTell
      needs?(point: ExemplarPoint, model: Measured): number
    })
  | (Omit<PairMeasure<PointKind>, 'compare' | 'needs'> & {
      compare(point: ExemplarPoint, exemplar: PlacedPicture, photo: PlacedPicture): MeasuredBeside | CannotTell
      needs?(point: ExemplarPoint, exemplar: PlacedPicture): number
    })

/** Blur of a picture at a place, standard deviation in mm. A picture without a clear edge is taken for a sharp one's usual. */
export function blurMm({ blurPx, plane }: PlacedPicture, x: number, y: number): number {
  return (blurPx ?? USUAL_BLUR_PX) / plane.scaleAt(x, y)
}
// Of a phone's camera, in focus, after its demosaicing. Ours.
const USUAL_BLUR_PX = 0.7
