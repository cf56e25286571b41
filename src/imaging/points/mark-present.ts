/**
 * Whether a small mark is there: how much of the exemplar's mark is in the photo at its place (matched filter), 100 % standing for
 * as strong as on the exemplar. What the same filter finds a little aside, where there is no mark, is its uncertainty.
 */
import type { PointOf } from '../../domain/exemplar.ts'
import { alignRegion } from '../align-print.ts'
import { type CannotTell, cannotTell, cannotTellOn } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { blurMm, type MeasuredBeside, type PairMeasure } from './point-measure.ts'
import { blurRaster, readLight } from './read-region.ts'

const MOST_PER_MM = 24
// The print around the mark finds its place; the mark itself must not, or its absence would be moved away. Ours, mm.
const AROUND_MM = 2.5
// The mark may sit a little off after registration: the filter is tried over this reach, mm. Ours.
const REACH_MM = 0.12
// A mark fainter than this on the exemplar is none that a photo could show: share of the ground's light. Ours.
const LEAST_CONTRAST = 0.08

export const markPresent: PairMeasure<'mark-present'> = {
  kind: 'mark-present',
  way: 'beside',
  compare(point: PointOf<'mark-present'>, exemplar: PlacedPicture, photo: PlacedPicture): MeasuredBeside | CannotTell {
    const { region } = point
    const middle = [region.x + region.width / 2, region.y + region.height / 2] as const
    const around = {
      x: region.x - AROUND_MM,
      y: region.y - AROUND_MM,
      width: region.width + 2 * AROUND_MM,
      height: region.height + 2 * AROUND_MM,
    }
    const { plane } = alignRegion(exemplar, photo, around)
    const perMm = Math.min(MOST_PER_MM, photo.plane.scaleAt(...middle))
    const reach = Math.max(1, Math.round(REACH_MM * perMm))
    const margin = reach / perMm
    const wide = {
      x: region.x - margin,
      y: region.y - margin,
      width: region.width + 2 * margin,
      height: region.height + 2 * margin,
    }
    const model = readLight(exemplar, region, perMm)
    if ('reason' in model) return cannotTellOn('exemplar', model)
    const seen = readLight({ ...photo, plane }, wide, perMm)
    if ('reason' in seen) return seen
    const { width, height } = model
    const [a, b] = [blurMm(exemplar, ...middle), blurMm(photo, ...middle)]
    const softer = (values: Float32Array, w: number, h: number, own: number, other: number) =>
      blurRaster(values, w, h, Math.sqrt(Math.max(0, other * other - own * own)) * perMm)
    const pattern = relief(softer(model.y, width, height, a, b))
    const energy = pattern.reduce((sum, value) => sum + value * value, 0)
    const peak = pattern.reduce((most, value) => Math.max(most, Math.abs(value)), 0)
    if (peak < LEAST_CONTRAST) return cannotTell('mark-too-faint')
    const soft = softer(seen.y, seen.width, seen.height, b, a)
    const strengths: number[] = []
    let noise = Number.POSITIVE_INFINITY
    for (let dy = 0; dy <= seen.height - height; dy++) {
      for (let dx = 0; dx <= seen.width - width; dx++) {
        const window = new Float32Array(width * height)
        for (let y = 0; y < height; y++) {
          window.set(soft.subarray((y + dy) * seen.width + dx, (y + dy) * seen.width + dx + width), y * width)
        }
        const found = relief(window)
        let product = 0
        for (let i = 0; i < found.length; i++) product += found[i]! * pattern[i]!
        const strength = product / energy
        strengths.push(strength)
        let rest = 0
        for (let i = 0; i < found.length; i++) rest += (found[i]! - strength * pattern[i]!) ** 2
        // Neighbouring pixels are not independent: blur joins about four.
        noise = Math.min(noise, Math.sqrt((4 * rest) / found.length / energy))
      }
    }
    const value = 100 * Math.max(...strengths)
    return {
      value,
      exemplar: 100,
      // A mark that is stronger than the exemplar's is there.
      apart: Math.max(0, 100 - value),
      uncertainty: 100 * Math.hypot(2 * noise, 0.08),
    }
  },
}

/** Light over the ground's, less its mean: what stands out. */
function relief(values: Float32Array): Float32Array {
  const sorted = Float32Array.from(values).sort()
  const ground = Math.max(0.01, sorted[Math.floor(0.8 * (sorted.length - 1))]!)
  let sum = 0
  for (const value of values) sum += value / ground
  const mean = sum / values.length
  return values.map((value) => value / ground - mean)
}
