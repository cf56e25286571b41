/**
 * Whether one place is darker or lighter than another, by at least so much L*. The order of two inks survives what fading and light
 * do to both. Without neutral places the exemplar's own light at the two places sets the scale.
 */
import type { PointOf } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTellOn } from '../cannot-tell.ts'
import { labOf } from '../colour.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { balanceLight, scaleLight } from './balance-light.ts'
import { measurePatch } from './measure-patch.ts'
import type { MeasuredBeside, PairMeasure } from './point-measure.ts'

// Uneven light across the way between the two places, L* a mm. Ours: a tenth of the light over a card's width.
const FALLOFF_PER_MM = 0.05

export const tintOrder: PairMeasure<'tint-order'> = {
  kind: 'tint-order',
  way: 'beside',
  compare(point: PointOf<'tint-order'>, exemplar: PlacedPicture, photo: PlacedPicture): MeasuredBeside | CannotTell {
    const patches = [exemplar, photo].map((picture) => [
      measurePatch(picture, point.region),
      measurePatch(picture, point.other),
    ])
    const [[modelA, modelB], [seenA, seenB]] = patches as [
      [ReturnType<typeof measurePatch>, ReturnType<typeof measurePatch>],
      [ReturnType<typeof measurePatch>, ReturnType<typeof measurePatch>],
    ]
    if ('reason' in seenA) return seenA
    if ('reason' in seenB) return cannotTellOn('other', seenB)
    if ('reason' in modelA) return cannotTellOn('exemplar', modelA)
    if ('reason' in modelB) return cannotTellOn('exemplar', modelB)
    const brightness = (light: readonly number[]) => light.reduce((a, b) => a + b, 0)
    let gain: readonly [number, number, number]
    if (point.neutral.length > 0) {
      const balance = balanceLight(point.neutral, point.region, exemplar, photo)
      if ('reason' in balance) return balance
      gain = balance.gain
    } else {
      const one =
        (brightness(modelA.light) + brightness(modelB.light)) / (brightness(seenA.light) + brightness(seenB.light))
      gain = [one, one, one]
    }
    const sign = point.order === 'lighter' ? 1 : -1
    const apart = (a: number, b: number) => sign * (a - b)
    const value = apart(labOf(scaleLight(seenA.light, gain)).l, labOf(scaleLight(seenB.light, gain)).l)
    const known = apart(labOf(modelA.light).l, labOf(modelB.light).l)
    const way = Math.hypot(point.region.x - point.other.x, point.region.y - point.other.y)
    return {
      value,
      exemplar: known,
      // Only what falls short of the least difference counts; more of it does not.
      apart: Math.max(0, point.leastDeltaL - value),
      uncertainty: 2 * Math.hypot(seenA.error, seenB.error, FALLOFF_PER_MM * way, 0.4),
    }
  },
}
