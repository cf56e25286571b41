/** From what was measured to what is wrong with a photo, in words. Every threshold stands here, with its reason. */
import type { PhotoProblem } from '../domain/photo-facts.ts'
import type { Exposure } from './measure-exposure.ts'

/**
 * Below this no view can be judged. A holder photographed whole (about 81 × 135 mm, from memory) needs some 430 px in
 * height for its label to be 240 px wide, under which reading it gives wrong numbers (measured on synthetic labels); a raw card over
 * the whole photo has 430 / 88.9 = 4.8 px/mm, under the 7 that resolve the coarsest screen (85 lines per inch, two pixels a dot).
 */
const LEAST_LONG_SIDE_PX = 430
// Two-millimetre type at a usual 12 px/mm has strokes of about 3 px, which a blur of this spread runs together. Ours.
const BLURRED_FROM_PX = 2.5
// 95 % of the photo below this level: shadows only. Ours, no source.
const DARK_BELOW = 64
// A fifth of the card area without any detail. Ours, no source.
const BURNT_OUT_FROM = 0.2
// A twelfth of the card behind a reflection hides a corner or a name. Ours, no source.
const GLARE_FROM = 0.08
// Where the Annex K tables reach double their published steps, blocks show around type. Ours, no source.
const COMPRESSED_BELOW_QUALITY = 40

export interface Measured {
  readonly width: number
  readonly height: number
  readonly blurPx: number | null
  readonly jpegQuality: number | null
  readonly exposure: Exposure
  /** Share of the card under mirror-bright light; `null` where no card was found. */
  readonly glare: number | null
}

export function judgePhoto({ width, height, blurPx, jpegQuality, exposure, glare }: Measured): PhotoProblem[] {
  const problems: PhotoProblem[] = []
  const say = (problem: PhotoProblem['problem'], detail: string) => problems.push({ problem, detail })
  const longSide = Math.max(width, height)
  if (longSide < LEAST_LONG_SIDE_PX) {
    say(
      'too-small',
      `the photo is ${width} × ${height} px; at least ${LEAST_LONG_SIDE_PX} px on the long side are needed`,
    )
  }
  if (blurPx !== null && blurPx >= BLURRED_FROM_PX) {
    say('blurred', `its sharpest edges spread over ${blurPx.toFixed(1)} px; under ${BLURRED_FROM_PX} px are needed`)
  }
  if (exposure.brightest < DARK_BELOW) {
    say('dark', `95 % of it are darker than level ${Math.ceil(exposure.brightest)} of 255`)
  }
  if (exposure.burntOut >= BURNT_OUT_FROM) {
    say('overexposed', `${Math.round(exposure.burntOut * 100)} % of it are burnt out to white`)
  }
  if (glare !== null && glare >= GLARE_FROM) say('glare', `${Math.round(glare * 100)} % of the card is mirror-bright`)
  if (jpegQuality !== null && jpegQuality < COMPRESSED_BELOW_QUALITY) {
    say('heavily-compressed', `it was saved at JPEG quality ${jpegQuality} of 100`)
  }
  return problems
}
