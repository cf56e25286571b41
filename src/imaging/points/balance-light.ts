/**
 * Light and camera balanced out by neutral places: each channel of linear light is scaled so that the photo's neutral place has the
 * exemplar's colour. Of several places the nearer weighs more, and their disagreement is part of the uncertainty.
 */
import type { Region } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell, cannotTellOn } from '../cannot-tell.ts'
import type { Light } from '../colour.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { measurePatch, type Patch } from './measure-patch.ts'

// Light that differs more than this between channels, or in all, is no longer balanced by a scale. Ours.
const LARGEST_GAIN = 4
const LARGEST_TINT_OF_LIGHT = 2.5

export interface Balance {
  readonly gain: Light
  /** Each neutral place's own gain. */
  readonly gains: readonly Light[]
  /** Standard error of the gain from the places' unevenness, ΔE00. */
  readonly error: number
}

export function scaleLight(light: Light, gain: Light): Light {
  return [light[0] * gain[0], light[1] * gain[1], light[2] * gain[2]]
}

/** @param places at least one. @param at the region that is to be balanced. */
export function balanceLight(
  places: readonly Region[],
  at: Region,
  exemplar: PlacedPicture,
  photo: PlacedPicture,
): Balance | CannotTell {
  const gains: { gain: Light; weight: number; error: number }[] = []
  for (const neutral of places) {
    const pair = [measurePatch(exemplar, neutral), measurePatch(photo, neutral)] as const
    for (const patch of pair) if ('reason' in patch) return cannotTellOn('neutral', patch)
    const [from, to] = pair as readonly [Patch, Patch]
    const gain = from.light.map((value, i) => value / (to.light[i] as number)) as unknown as Light
    gains.push({ gain, weight: 1 / (1 + distance(neutral, at)), error: Math.hypot(from.error, to.error) })
  }
  const total = gains.reduce((sum, { weight }) => sum + weight, 0)
  const gain = [0, 1, 2].map((i) =>
    Math.exp(gains.reduce((sum, each) => sum + each.weight * Math.log(each.gain[i] as number), 0) / total),
  ) as unknown as Light
  const [least, most] = [Math.min(...gain), Math.max(...gain)]
  if (most > LARGEST_GAIN || least < 1 / LARGEST_GAIN || most / least > LARGEST_TINT_OF_LIGHT) {
    return cannotTell('light-too-far')
  }
  return {
    gain,
    gains: gains.map((each) => each.gain),
    error: Math.hypot(...gains.map(({ error }) => error)) / gains.length,
  }
}

function distance(a: Region, b: Region): number {
  return Math.hypot(a.x + a.width / 2 - b.x - b.width / 2, a.y + a.height / 2 - b.y - b.height / 2)
}
