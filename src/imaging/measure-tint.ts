/**
 * How far the colour of a region lies from the exemplar's, as CIEDE2000, after light and camera were balanced out by stated
 * neutral places: each channel of linear light is scaled so that the photo's neutral place has the exemplar's colour. Of several
 * neutral places the nearer weighs more, and their disagreement is part of the uncertainty.
 */
import type { Region, TintPoint } from '../domain/exemplar.ts'
import { type CannotTell, cannotTell, cannotTellOn } from './cannot-tell.ts'
import { deltaE00, type Light, labOf, lightAt } from './colour.ts'
import type { PlacedPicture } from './placed-picture.ts'

export type TintMeasure = { readonly value: number; readonly uncertainty: number } | CannotTell

// At most this many places a side are read; more would not change an average. Ours.
const MOST_PLACES = 48
const LEAST_PLACES = 64
// Channels from this share of full light on are clipped, and their colour is lost.
const CLIPPED = 0.97
const MOST_CLIPPED_SHARE = 0.02
// Below this the camera's noise and rounding make the colour, linear light 0–1: sRGB level 20 or so.
const LEAST_LIGHT = 0.006
// Light that differs more than this between channels, or in all, is no longer balanced by a scale. Ours.
const LARGEST_GAIN = 4
const LARGEST_TINT_OF_LIGHT = 2.5
// One neutral place cannot disagree with itself; what two usually differ by stands in, ΔE00. Ours, from the bench's scenes.
const SINGLE_NEUTRAL_UNCERTAINTY = 0.8

interface Patch {
  readonly light: Light
  /** Standard error of the patch's colour from its own unevenness, ΔE00. */
  readonly error: number
}

export function measureTint(point: TintPoint, exemplar: PlacedPicture, photo: PlacedPicture): TintMeasure {
  const region = [measurePatch(exemplar, point.region), measurePatch(photo, point.region)] as const
  for (const patch of region) if ('reason' in patch) return patch
  const [model, seen] = region as readonly [Patch, Patch]
  const gains: { gain: Light; weight: number; error: number }[] = []
  for (const neutral of point.neutral) {
    const pair = [measurePatch(exemplar, neutral), measurePatch(photo, neutral)] as const
    for (const patch of pair) if ('reason' in patch) return cannotTellOn('neutral', patch)
    const [from, to] = pair as readonly [Patch, Patch]
    const gain = from.light.map((value, i) => value / (to.light[i] as number)) as unknown as Light
    gains.push({ gain, weight: 1 / (1 + distance(neutral, point.region)), error: Math.hypot(from.error, to.error) })
  }
  const total = gains.reduce((sum, { weight }) => sum + weight, 0)
  const balance = [0, 1, 2].map((i) =>
    Math.exp(gains.reduce((sum, { gain, weight }) => sum + weight * Math.log(gain[i] as number), 0) / total),
  ) as unknown as Light
  const [least, most] = [Math.min(...balance), Math.max(...balance)]
  if (most > LARGEST_GAIN || least < 1 / LARGEST_GAIN || most / least > LARGEST_TINT_OF_LIGHT) {
    return cannotTell('light-too-far')
  }
  const apartBy = (gain: Light) => deltaE00(labOf(model.light), labOf(apply(seen.light, gain)))
  const value = apartBy(balance)
  const singles = gains.map(({ gain }) => deltaE00(labOf(apply(seen.light, gain)), labOf(apply(seen.light, balance))))
  const disagreement = gains.length === 1 ? SINGLE_NEUTRAL_UNCERTAINTY : Math.max(...singles) / Math.sqrt(3)
  const neutralError = Math.hypot(...gains.map(({ error }) => error)) / gains.length
  const standard = Math.hypot(
    model.error,
    seen.error,
    disagreement,
    neutralError,
    jpegError(exemplar),
    jpegError(photo),
  )
  return { value, uncertainty: 2 * standard }
}

function apply(light: Light, gain: Light): Light {
  return [light[0] * gain[0], light[1] * gain[1], light[2] * gain[2]]
}

/** Chroma rounding of JPEG at low quality, ΔE00: none from 90 on, about one at 60. Ours, from the bench's scenes. */
function jpegError({ jpegQuality }: PlacedPicture): number {
  return jpegQuality === null ? 0 : Math.max(0, (90 - jpegQuality) / 30)
}

function distance(a: Region, b: Region): number {
  return Math.hypot(a.x + a.width / 2 - b.x - b.width / 2, a.y + a.height / 2 - b.y - b.height / 2)
}

/** The average colour of a region, its rim left out by twice the blur, so that neighbouring ink does not bleed in. */
function measurePatch({ pixels, plane, blurPx }: PlacedPicture, region: Region): Patch | CannotTell {
  const scale = plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
  const margin = (2 * (blurPx ?? 0)) / scale
  const [width, height] = [region.width - 2 * margin, region.height - 2 * margin]
  if (width <= 0 || height <= 0) return cannotTell('blur-wider-than-region')
  const [across, down] = [width, height].map((mm) => Math.min(MOST_PLACES, Math.floor(mm * scale))) as [number, number]
  if (across * down < LEAST_PLACES) {
    return cannotTell('region-too-small', { across: String(across), down: String(down) })
  }
  // Sixteen blocks: their spread gives the error of their mean.
  const blocks = Array.from({ length: 16 }, () => ({ light: [0, 0, 0] as [number, number, number], count: 0 }))
  let clipped = 0
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < across; i++) {
      const [x, y] = plane.toPixels(
        region.x + margin + (width * (i + 0.5)) / across,
        region.y + margin + (height * (j + 0.5)) / down,
      )
      const light = lightAt(pixels, x, y)
      if (!light) return cannotTell('region-outside')
      if (Math.max(...light) >= CLIPPED) clipped++
      const block = blocks[4 * Math.floor((4 * j) / down) + Math.floor((4 * i) / across)] as (typeof blocks)[number]
      for (let c = 0; c < 3; c++) block.light[c] = (block.light[c] as number) + (light[c] as number)
      block.count++
    }
  }
  if (clipped > MOST_CLIPPED_SHARE * across * down) return cannotTell('burnt-out')
  const means = blocks
    .filter(({ count }) => count > 0)
    .map(({ light, count }) => light.map((sum) => sum / count) as unknown as Light)
  const light = [0, 1, 2].map(
    (c) => means.reduce((sum, mean) => sum + (mean[c] as number), 0) / means.length,
  ) as unknown as Light
  if (Math.max(...light) < LEAST_LIGHT) return cannotTell('too-dark')
  const whole = labOf(light)
  const spread = Math.sqrt(means.reduce((sum, mean) => sum + deltaE00(labOf(mean), whole) ** 2, 0) / means.length)
  return { light, error: spread / Math.sqrt(means.length) }
}
