/**
 * Where a profile of levels steps, to a part of a sample: the centroid of its slope around the steepest place.
 * For a symmetric blur the centroid is the edge itself, whatever the blur's width. Lenses blur light, not levels, so the
 * centroid is taken in linear light: in levels every edge would move towards its darker side.
 */
import { linearLevel } from './linear-light.ts'

export interface Step {
  /** In samples from the profile's start. */
  readonly position: number
  /** Rise over the step, levels; negative where it falls. */
  readonly rise: number
}

// Lower than this a step cannot be told from paper grain and JPEG noise, levels of 255. Ours.
const LEAST_RISE = 12

export function locateStep(profile: ArrayLike<number>, from = 0, to = profile.length - 1): Step | null {
  let steepest = -1
  let slope = 0
  for (let i = Math.max(0, from); i < Math.min(profile.length - 1, to); i++) {
    const rise = (profile[i + 1] as number) - (profile[i] as number)
    if (Math.abs(rise) > Math.abs(slope)) [steepest, slope] = [i, rise]
  }
  if (steepest < 0) return null
  const sign = Math.sign(slope)
  const rises = (i: number) => sign * ((profile[i + 1] as number) - (profile[i] as number))
  // The step is where the slope keeps its sign and more than a tenth of its height.
  const belongs = (i: number) => i >= 0 && i < profile.length - 1 && rises(i) > 0.1 * Math.abs(slope)
  let [first, last] = [steepest, steepest]
  while (belongs(first - 1)) first--
  while (belongs(last + 1)) last++
  let [sum, moment] = [0, 0]
  for (let i = first; i <= last; i++) {
    const rise = sign * (linearLevel(profile[i + 1] as number) - linearLevel(profile[i] as number))
    sum += rise
    moment += rise * (i + 0.5)
  }
  const rise = (profile[last + 1] as number) - (profile[first] as number)
  return Math.abs(rise) < LEAST_RISE ? null : { position: moment / sum, rise }
}
