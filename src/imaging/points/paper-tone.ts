/**
 * The tone of unprinted stock, b* and L*, against the exemplar's, each relative to a neutral in its own frame: a holder's white
 * label in the plane of the piece, or a grey card. Without a neutral the colour of the light would be taken for the paper's.
 */
import type { PointOf } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell, cannotTellOn } from '../cannot-tell.ts'
import { type Light, labOf, lightAt } from '../colour.ts'
import type { Corners } from '../homography.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { measurePatch, type Patch } from './measure-patch.ts'
import type { Measured, SoloMeasure } from './point-measure.ts'

// Light of a neutral whose own reflectance is not known, so that L* is told relative to it. A grey card has 18 %, a label
// about 80 %; only the comparison counts, and both pictures use the same neutral.
const NEUTRAL_LIGHT = 0.8
// L* varies with age and handling more than b*; it weighs half. Ours.
const LIGHTNESS_SHARE = 0.5

export const paperTone: SoloMeasure<'paper-tone'> = {
  kind: 'paper-tone',
  way: 'alone',
  measure(point: PointOf<'paper-tone'>, picture: PlacedPicture): Measured | CannotTell {
    const paper = measurePatch(picture, point.region)
    if ('reason' in paper) return paper
    const neutrals: Patch[] = []
    for (const region of point.neutral) {
      const patch = measurePatch(picture, region)
      if ('reason' in patch) return cannotTellOn('neutral', patch)
      neutrals.push(patch)
    }
    if (neutrals.length === 0) {
      const card = picture.greyCard ? measureQuadrilateral(picture, picture.greyCard) : null
      if (!card) return cannotTell('colour-not-balanced')
      neutrals.push(card)
    }
    const tone = (neutral: Patch) =>
      labOf(paper.light.map((value, i) => (NEUTRAL_LIGHT * value) / neutral.light[i]!) as unknown as Light)
    const tones = neutrals.map(tone)
    const mean = (pick: (lab: (typeof tones)[number]) => number) =>
      tones.reduce((sum, lab) => sum + pick(lab), 0) / tones.length
    const [b, l] = [mean((lab) => lab.b), mean((lab) => lab.l)]
    const spread = tones.length > 1 ? Math.max(...tones.map((lab) => Math.abs(lab.b - b))) : 0.8
    const error = Math.hypot(paper.error, ...neutrals.map((neutral) => neutral.error), spread / Math.sqrt(3), 0.6)
    return { value: b, uncertainty: 2 * error, figures: { lightness: l } }
  },
  alsoDiffers: (_, model, seen, tolerance) =>
    LIGHTNESS_SHARE * Math.abs((model.figures?.lightness ?? 0) - (seen.figures?.lightness ?? 0)) >
    tolerance + Math.hypot(model.uncertainty, seen.uncertainty),
}

/** Average light inside four corners in pixels, its outer fifth left out. */
function measureQuadrilateral({ pixels }: PlacedPicture, [a, b, c, d]: Corners): Patch | null {
  const sums = [0, 0, 0]
  let count = 0
  for (let j = 0; j < 24; j++) {
    for (let i = 0; i < 24; i++) {
      const [u, v] = [0.2 + (0.6 * i) / 23, 0.2 + (0.6 * j) / 23]
      const mix = (k: 0 | 1) => (a[k] * (1 - u) + b[k] * u) * (1 - v) + (d[k] * (1 - u) + c[k] * u) * v
      const light = lightAt(pixels, mix(0), mix(1))
      if (!light || Math.max(...light) > 0.97) return null
      for (let k = 0; k < 3; k++) sums[k]! += light[k]!
      count++
    }
  }
  const light = sums.map((sum) => sum / count) as unknown as Light
  return Math.max(...light) < 0.01 ? null : { light, error: 0.3 }
}
