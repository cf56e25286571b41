/**
 * The seam between two neighbouring inks: unprinted stock between them (positive), or the two over each other (negative), as a
 * width. The colours are looked at along the one direction in which both inks are equal: a seam without gap or overlap is flat
 * there, however soft the photo, and the area of what stands out over it is the width, which blur does not change.
 */
import type { PointOf } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { blurMm, type Measured, type SoloMeasure } from './point-measure.ts'
import { type LightRaster, readLight } from './read-region.ts'

type Vector = readonly [number, number, number]
const STRIPS = 8
// Stock stands out from the inks' own direction by at least this much light, else the two inks hide a gap. Ours.
const LEAST_STANDING_OUT = 0.06
// How even the light is over a seam's width: what the ground may be off by. Ours.
const GROUND_ERROR = 0.002

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const times = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k]

export const seam: SoloMeasure<'seam'> = {
  kind: 'seam',
  way: 'alone',
  measure(point: PointOf<'seam'>, picture: PlacedPicture): Measured | CannotTell {
    const { region } = point
    const scale = picture.plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
    const perMm = Math.min(40, scale)
    const raster = readLight(picture, region, perMm)
    if ('reason' in raster) return raster
    const paper = readLight(picture, point.paper, Math.min(perMm, 12))
    if ('reason' in paper) return paper
    const stock: Vector = [middle(paper.r), middle(paper.g), middle(paper.b)]
    const upright = changesAcross(raster)
    const [length, lines] = upright ? [raster.width, raster.height] : [raster.height, raster.width]
    if (length < 12 || lines < 6) {
      return cannotTell('region-too-small', { across: String(raster.width), down: String(raster.height) })
    }
    const at = (channel: Float32Array, i: number, line: number) =>
      channel[upright ? line * raster.width + i : i * raster.width + line]!
    // Each ink's colour from the outer quarter of its side.
    const quarter = Math.max(2, Math.floor(length / 4))
    const side = (from: number, to: number): Vector => {
      const mean = (channel: Float32Array) => {
        const values: number[] = []
        for (let i = from; i < to; i++) for (let line = 0; line < lines; line++) values.push(at(channel, i, line))
        return middle(values)
      }
      return [mean(raster.r), mean(raster.g), mean(raster.b)]
    }
    const first = side(0, quarter)
    const second = side(length - quarter, length)
    const step = minus(second, first)
    const size = dot(step, step)
    if (size < 0.0025) return cannotTell('seam-not-separable')
    const towards = minus(stock, first)
    const apart = minus(towards, times(step, dot(towards, step) / size))
    const standing = Math.sqrt(dot(apart, apart))
    if (standing < LEAST_STANDING_OUT) return cannotTell('seam-not-separable')
    const direction = times(apart, 1 / standing)
    const ground = dot(direction, first)
    const over: Vector = [0, 1, 2].map((c) => (first[c]! * second[c]!) / Math.max(0.02, stock[c]!)) as unknown as Vector
    const paperLevel = dot(direction, stock) - ground
    const overLevel = dot(direction, over) - ground
    const widths: number[] = []
    for (let strip = 0; strip < STRIPS; strip++) {
      const [from, to] = [Math.floor((strip * lines) / STRIPS), Math.floor(((strip + 1) * lines) / STRIPS)]
      if (to <= from) continue
      const profile = Array.from({ length }, (_, i) => {
        let sum = 0
        for (let line = from; line < to; line++) {
          sum += dot(direction, [at(raster.r, i, line), at(raster.g, i, line), at(raster.b, i, line)])
        }
        return sum / (to - from) - ground
      })
      // The ground may slope a little over the region; both ends say how.
      const ends = [mean(profile.slice(0, quarter)), mean(profile.slice(length - quarter))] as const
      let area = 0
      for (let i = quarter; i < length - quarter; i++) {
        const share = (i - (quarter - 1) / 2) / (length - quarter)
        area += profile[i]! - (ends[0] + (ends[1] - ends[0]) * share)
      }
      const level = area >= 0 || overLevel >= -0.01 ? paperLevel : -overLevel
      widths.push((1000 * area) / level / perMm)
    }
    const value = mean(widths)
    const spread = Math.sqrt(mean(widths.map((width) => (width - value) ** 2)) / (widths.length - 1))
    const between = (length - 2 * quarter) / perMm
    const ground2 = (1000 * GROUND_ERROR * between) / Math.min(paperLevel, overLevel < -0.01 ? -overLevel : paperLevel)
    const blur = blurMm(picture, region.x, region.y)
    if (between < 5 * blur) return cannotTell('blur-wider-than-region')
    return { value, uncertainty: 2 * Math.hypot(spread, ground2, 8), figures: { standingOut: standing } }
  },
}

function mean(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length
}

function middle(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort()
  return sorted[sorted.length >> 1]!
}

function changesAcross({ width, height, r, g, b }: LightRaster): boolean {
  let [across, down] = [0, 0]
  for (const channel of [r, g, b]) {
    const columns = Array.from({ length: width }, (_, x) => {
      let sum = 0
      for (let y = 0; y < height; y++) sum += channel[y * width + x]!
      return sum / height
    })
    const rows = Array.from({ length: height }, (_, y) => {
      let sum = 0
      for (let x = 0; x < width; x++) sum += channel[y * width + x]!
      return sum / width
    })
    const spread = (list: number[]) => {
      const m = mean(list)
      return mean(list.map((x) => (x - m) ** 2))
    }
    across += spread(columns)
    down += spread(rows)
  }
  return across >= down
}
