/**
 * Fine marks that only one of two pictures shows: both in one print's millimetres, made equally soft, light levelled bit by bit, and
 * what is left between them searched for small blots. Along the print's own edges a small misfit leaves lines; they are not counted.
 */
import { rasterOf } from '../align-print.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { blurMm } from '../points/point-measure.ts'
import { blurRaster } from '../points/read-region.ts'

export interface Speck {
  readonly x: number
  readonly y: number
  /** Diameter of a disc of its area, mm. */
  readonly size: number
  /** Levels by which the first picture is darker there. */
  readonly depth: number
}

const MOST_PER_MM = 12
// Along the rim wear and shadow differ from photo to photo.
const RIM_MM = 2
const FINE_MM = 0.07
const COARSE_MM = 0.4
// A blot must stand out by this many of the usual differences around it, and by so many levels. Ours, from the bench.
const LEAST_DEVIATIONS = 6
const LEAST_LEVELS = 7
// What the registration may be off by, mm: the print's slopes times this are no blot. Ours.
const MISFIT_MM = 0.035
const LEAST_SIZE_MM = 0.12
const LARGEST_SIZE_MM = 1.2

export function findSpecks(a: PlacedPicture, b: PlacedPicture): Speck[] {
  const { widthMm, heightMm } = a.plane.size
  const middle = [widthMm / 2, heightMm / 2] as const
  const perMm = Math.min(MOST_PER_MM, a.plane.scaleAt(...middle), b.plane.scaleAt(...middle))
  const box = { x: RIM_MM, y: RIM_MM, width: widthMm - 2 * RIM_MM, height: heightMm - 2 * RIM_MM }
  const [first, second] = [rasterOf(a.grey, a.plane, box, perMm), rasterOf(b.grey, b.plane, box, perMm)]
  const { width, height } = first
  const [sa, sb] = [blurMm(a, ...middle), blurMm(b, ...middle)]
  const soften = (data: Float32Array, own: number, other: number) =>
    blurRaster(fill(data), width, height, Math.sqrt(Math.max(0, other * other - own * own) + FINE_MM * FINE_MM) * perMm)
  const one = soften(first.data, sa, sb)
  const two = soften(second.data, sb, sa)
  level(one, two, width, height, perMm)
  const difference = one.map((value, i) => value - two[i]!)
  const slow = blurRaster(difference, width, height, COARSE_MM * perMm)
  const fine = difference.map((value, i) => value - slow[i]!)
  const usual = 1.4826 * medianOf(fine.map(Math.abs))
  const mark = new Int8Array(width * height)
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const at = y * width + x
      const slope = Math.max(
        Math.hypot(one[at + 1]! - one[at - 1]!, one[at + width]! - one[at - width]!),
        Math.hypot(two[at + 1]! - two[at - 1]!, two[at + width]! - two[at - width]!),
      )
      // A mark's own slope is bounded by its depth; a print edge's is what it is.
      const allowed = Math.max(LEAST_LEVELS, LEAST_DEVIATIONS * usual) + (slope / 2) * perMm * MISFIT_MM
      if (Math.abs(fine[at]!) > allowed) mark[at] = fine[at]! < 0 ? 1 : 2
    }
  }
  return collect(mark, fine, width, height, perMm)
}

/** Where a picture shows nothing, the other's place is not judged: levels are held from the left. */
function fill(data: Float32Array): Float32Array {
  let last = 128
  return data.map((value) => {
    if (Number.isNaN(value)) return last
    last = value
    return value
  })
}

/** Makes the second picture's slow light the first's, in place. */
function level(one: Float32Array, two: Float32Array, width: number, height: number, perMm: number): void {
  const wide = 5 * perMm
  const [a, b] = [blurRaster(one, width, height, wide / 2), blurRaster(two, width, height, wide / 2)]
  for (let i = 0; i < two.length; i++) two[i] = (two[i]! * (a[i]! + 4)) / (b[i]! + 4)
}

function medianOf(values: Float32Array): number {
  const some = values.filter((_, i) => i % 7 === 0).sort()
  return some[some.length >> 1] ?? 0
}

function collect(mark: Int8Array, fine: Float32Array, width: number, height: number, perMm: number): Speck[] {
  const specks: Speck[] = []
  const open: number[] = []
  for (let start = 0; start < mark.length; start++) {
    const sign = mark[start]!
    if (sign === 0) continue
    mark[start] = 0
    open.push(start)
    let [count, sx, sy, depth] = [0, 0, 0, 0]
    let [x0, x1, y0, y1] = [width, 0, height, 0]
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      const [x, y] = [at % width, Math.floor(at / width)]
      count++
      sx += x
      sy += y
      depth = Math.max(depth, Math.abs(fine[at]!))
      x0 = Math.min(x0, x)
      x1 = Math.max(x1, x)
      y0 = Math.min(y0, y)
      y1 = Math.max(y1, y)
      for (const next of [at - 1, at + 1, at - width, at + width]) {
        if (next < 0 || next >= mark.length || mark[next] !== sign) continue
        mark[next] = 0
        open.push(next)
      }
    }
    const size = Math.sqrt((4 * count) / Math.PI) / perMm
    const [w, h] = [x1 - x0 + 1, y1 - y0 + 1]
    // A long thin remainder lies along an edge of the print.
    if (size < LEAST_SIZE_MM || size > LARGEST_SIZE_MM || Math.max(w, h) > 3.5 * Math.min(w, h)) continue
    specks.push({
      x: RIM_MM + (sx / count + 0.5) / perMm,
      y: RIM_MM + (sy / count + 0.5) / perMm,
      size,
      depth: sign === 1 ? depth : -depth,
    })
  }
  return specks.sort((a, b) => Math.abs(b.depth) - Math.abs(a.depth))
}
