/** Solid ink or a halftone, against the exemplar: 0 lpi stands for solid as far as the stated finest screen. */
import type { PointOf } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell, cannotTellOn } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { pixelSize } from './measure-edge.ts'
import { MM_AN_INCH, measureScreen, type Screen } from './measure-screen.ts'
import { blurMm, type MeasuredBeside, type PairMeasure } from './point-measure.ts'

// Pixels a screen cell: 2 is Nyquist; peaks come through from 2.5 on in sharp photos, 3.5 to 4 in soft ones (measured). Ours.
const PIXELS_A_CELL = 3
// Blur, as a share of the cell, under which a seventh of the screen's contrast is left: exp(−2π²σ²/c²) ≥ 0.15.
const LARGEST_BLUR_SHARE = 0.31
// Angles of one press agree within a degree or two; neighbouring inks stand 15° and more apart.
const ANGLE_TOLERANCE_DEG = 6

export const solidOrScreen: PairMeasure<'solid-or-screen'> = {
  kind: 'solid-or-screen',
  way: 'beside',
  needs: (point) => (point.finestLpi / MM_AN_INCH) * PIXELS_A_CELL,
  compare(
    point: PointOf<'solid-or-screen'>,
    exemplar: PlacedPicture,
    photo: PlacedPicture,
  ): MeasuredBeside | CannotTell {
    const { region, finestLpi } = point
    const middle = [region.x + region.width / 2, region.y + region.height / 2] as const
    const cell = MM_AN_INCH / finestLpi
    const blur = blurMm(photo, ...middle)
    if (blur > LARGEST_BLUR_SHARE * cell) {
      return cannotTell('blurred', { blur: blur.toFixed(3), most: (LARGEST_BLUR_SHARE * cell).toFixed(3) })
    }
    const model = measureScreen(exemplar, region, finestLpi)
    if (model === 'too-small')
      return cannotTellOn('exemplar', cannotTell('region-too-small', pixelSize(exemplar, region)))
    const seen = measureScreen(photo, region, finestLpi)
    if (seen === 'too-small') return cannotTell('region-too-small', pixelSize(photo, region))
    const error = (screen: Screen | null) => (screen ? Math.hypot(screen.lpiError, 0.006 * screen.lpi) : 0)
    // Which ink stands out most differs from photo to photo: screens differ when no two of their angles agree.
    const apartDeg =
      model && seen
        ? Math.min(...model.anglesDeg.flatMap((a) => seen.anglesDeg.map((b) => Math.abs(((a - b + 135) % 90) - 45))))
        : 0
    // "Solid" is said of a photo whose sharpness is known, else a blur that hides the screen would say it.
    if (seen === null && photo.blurPx === null) return cannotTell('sharpness-unknown')
    return {
      value: seen?.lpi ?? 0,
      exemplar: model?.lpi ?? 0,
      uncertainty: 2 * Math.hypot(error(seen), error(model)),
      alsoDiffers: apartDeg > ANGLE_TOLERANCE_DEG + 2,
      figures: seen
        ? { angleDeg: Math.round(10 * seen.angleDeg) / 10, strength: Math.round(10 * seen.strength) / 10 }
        : {},
    }
  },
}
