/**
 * How round a corner of a glyph is: the radius, µm. Two straight edges are fitted beside the corner; how far the ink's contour stays
 * away from where they would meet gives the radius, less what the photo's own blur, read off the same two edges, rounds by itself.
 */
import type { PointOf } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { fitCurve } from './fit-curve.ts'
import { normalCdf, pixelSize } from './measure-edge.ts'
import type { Measured, SoloMeasure } from './point-measure.ts'
import { type LightRaster, readLight } from './read-region.ts'

const LEAST_CONTRAST = 0.05
// Each straight edge needs so many places on the contour. Ours.
const LEAST_PLACES = 6

type Xy = readonly [number, number]
interface Line {
  /** A point on it and its unit direction. */
  readonly at: Xy
  readonly along: Xy
  readonly inliers: readonly Xy[]
  readonly error: number
}

export const cornerRoundness: SoloMeasure<'corner-roundness'> = {
  kind: 'corner-roundness',
  way: 'alone',
  measure(point: PointOf<'corner-roundness'>, picture: PlacedPicture): Measured | CannotTell {
    const { region } = point
    const scale = picture.plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
    const perMm = Math.min(60, 1.5 * scale)
    const raster = readLight(picture, region, perMm)
    if ('reason' in raster) return raster
    if (Math.min(region.width, region.height) * scale < 9) {
      return cannotTell('region-too-small', pixelSize(picture, region))
    }
    const sorted = Float32Array.from(raster.y).sort()
    const [ink, ground] = [sorted[Math.floor(0.04 * sorted.length)]!, sorted[Math.floor(0.96 * sorted.length)]!]
    if (ground - ink < LEAST_CONTRAST) return cannotTell('ink-too-faint')
    const cover = raster.y.map((value) => (ground - value) / (ground - ink))
    const contour = contourOf(cover, raster)
    const first = fitLine(contour, 0.6)
    const rest = first && contour.filter((place) => distance(place, first) > 1.5)
    const second = rest && fitLine(rest, 0.6)
    if (!first || !second) return cannotTell('corner-unclear')
    const vertex = meet(first, second)
    if (!vertex) return cannotTell('corner-unclear')
    // Each ray points from the vertex to where its edge was seen.
    const ray = ({ inliers }: Line): Xy => {
      const mean = [0, 1].map(
        (k) => inliers.reduce((sum, p) => sum + p[k as 0 | 1], 0) / inliers.length,
      ) as unknown as Xy
      return unit([mean[0] - vertex[0], mean[1] - vertex[1]])
    }
    const [a, b] = [ray(first), ray(second)]
    const angle = Math.acos(Math.max(-1, Math.min(1, a[0] * b[0] + a[1] * b[1])))
    if (angle < Math.PI / 6 || angle > (5 * Math.PI) / 6) return cannotTell('corner-unclear')
    const inward = unit([a[0] + b[0], a[1] + b[1]])
    const sigma = edgeSigma(cover, raster, [first, second], vertex)
    if (sigma === null) return cannotTell('corner-unclear')
    const away = crossing(cover, raster, vertex, inward)
    if (away === null) return cannotTell('corner-unclear')
    const spread = (line: Line) => line.error
    const place = Math.hypot(0.08, (spread(first) + spread(second)) / Math.sin(angle / 2) / 2)
    const ideal = blurredCorner(angle)
    const radius = (d: number) => radiusOf(d, sigma.value, ideal)
    const value = radius(away)
    const error = 2 * Math.hypot(place, 0.77 * sigma.error)
    const uncertainty = Math.max(radius(away + error) - value, value - radius(away - error), error)
    const toUm = 1000 / perMm
    return {
      value: value * toUm,
      uncertainty: uncertainty * toUm,
      figures: { angleDeg: Math.round((angle * 180) / Math.PI), blurUm: sigma.value * toUm },
    }
  },
}

function unit([x, y]: Xy): Xy {
  const length = Math.hypot(x, y)
  return [x / length, y / length]
}

function distance([x, y]: Xy, { at, along }: Line): number {
  return Math.abs((x - at[0]) * along[1] - (y - at[1]) * along[0])
}

/** Places where the ink's cover crosses a half, along rows and columns; pixel centres at whole numbers. */
function contourOf(cover: Float32Array, { width, height }: LightRaster): Xy[] {
  const places: Xy[] = []
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const here = cover[y * width + x]! - 0.5
      if (x + 1 < width) {
        const next = cover[y * width + x + 1]! - 0.5
        if (here * next < 0) places.push([x + here / (here - next), y])
      }
      if (y + 1 < height) {
        const next = cover[(y + 1) * width + x]! - 0.5
        if (here * next < 0) places.push([x, y + here / (here - next)])
      }
    }
  }
  return places
}

/** The line that most places lie near, then least squares through those. */
function fitLine(places: readonly Xy[], near: number): Line | null {
  let best: { at: Xy; along: Xy; count: number } | null = null
  const step = Math.max(1, Math.floor(places.length / 40))
  for (let i = 0; i < places.length; i += step) {
    for (let j = i + 1; j < places.length; j += step) {
      const [p, q] = [places[i]!, places[j]!]
      const length = Math.hypot(q[0] - p[0], q[1] - p[1])
      if (length < 4) continue
      const along: Xy = [(q[0] - p[0]) / length, (q[1] - p[1]) / length]
      let count = 0
      for (const [x, y] of places) if (Math.abs((x - p[0]) * along[1] - (y - p[1]) * along[0]) < near) count++
      if (!best || count > best.count) best = { at: p, along, count }
    }
  }
  if (!best || best.count < LEAST_PLACES) return null
  let line: Line = { at: best.at, along: best.along, inliers: [], error: 0 }
  for (let round = 0; round < 3; round++) {
    const inliers = places.filter((place) => distance(place, line) < near)
    if (inliers.length < LEAST_PLACES) return null
    const n = inliers.length
    const [mx, my] = [inliers.reduce((s, p) => s + p[0], 0) / n, inliers.reduce((s, p) => s + p[1], 0) / n]
    let [xx, xy, yy] = [0, 0, 0]
    for (const [x, y] of inliers) {
      xx += (x - mx) ** 2
      xy += (x - mx) * (y - my)
      yy += (y - my) ** 2
    }
    const turn = Math.atan2(2 * xy, xx - yy) / 2
    const along: Xy = [Math.cos(turn), Math.sin(turn)]
    const residual = Math.sqrt(inliers.reduce((s, p) => s + distance(p, { ...line, at: [mx, my], along }) ** 2, 0) / n)
    line = { at: [mx, my], along, inliers, error: residual / Math.sqrt(n / 2) }
  }
  return line
}

function meet(a: Line, b: Line): Xy | null {
  const cross = a.along[0] * b.along[1] - a.along[1] * b.along[0]
  if (Math.abs(cross) < 0.3) return null
  const t = ((b.at[0] - a.at[0]) * b.along[1] - (b.at[1] - a.at[1]) * b.along[0]) / cross
  return [a.at[0] + t * a.along[0], a.at[1] + t * a.along[1]]
}

/** Spread of the two edges well away from the corner, px of the raster. */
function edgeSigma(cover: Float32Array, { width, height }: LightRaster, lines: readonly Line[], vertex: Xy) {
  const values: { value: number; error: number }[] = []
  for (const line of lines) {
    const [d, c]: [number[], number[]] = [[], []]
    const far = Math.max(...line.inliers.map((p) => Math.hypot(p[0] - vertex[0], p[1] - vertex[1])))
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const across = (x - line.at[0]) * line.along[1] - (y - line.at[1]) * line.along[0]
        const mean = line.inliers.reduce(
          (s, p) => s + (p[0] - vertex[0]) * line.along[0] + (p[1] - vertex[1]) * line.along[1],
          0,
        )
        const along = ((x - vertex[0]) * line.along[0] + (y - vertex[1]) * line.along[1]) * Math.sign(mean)
        if (along < 0.45 * far || along > far || Math.abs(across) > 0.4 * far) continue
        d.push(across)
        c.push(cover[y * width + x]!)
      }
    }
    if (d.length < 20) continue
    const first = c.reduce((s, v, i) => s + (d[i]! < 0 ? v : 0), 0) / Math.max(1, d.filter((x) => x < 0).length)
    const fit = fitCurve(
      ([low, high, place, sigma], i) => low! + (high! - low!) * normalCdf((d[i]! - place!) / (Math.abs(sigma!) + 1e-4)),
      c,
      [first > 0.5 ? 1 : 0, first > 0.5 ? 0 : 1, 0, 1],
      [0.002, 0.002, 0.01, 0.01],
    )
    if (fit) values.push({ value: Math.abs(fit.values[3]!), error: fit.errors[3]! })
  }
  if (values.length === 0) return null
  const value = values.reduce((s, x) => s + x.value, 0) / values.length
  const apart = values.length === 2 ? Math.abs(values[0]!.value - values[1]!.value) / 2 : 0.1 * value
  return { value, error: Math.hypot(apart, ...values.map(({ error }) => error), 0.04 * value) }
}

/** Where the cover crosses a half on the way from the vertex inward, px; negative where the contour lies outside. */
function crossing(cover: Float32Array, { width, height }: LightRaster, vertex: Xy, inward: Xy): number | null {
  const at = (t: number) => {
    const [x, y] = [vertex[0] + inward[0] * t, vertex[1] + inward[1] * t]
    const [left, top] = [Math.floor(x), Math.floor(y)]
    if (left < 0 || top < 0 || left + 1 >= width || top + 1 >= height) return Number.NaN
    const [fx, fy] = [x - left, y - top]
    const i = top * width + left
    return (
      (cover[i]! * (1 - fx) + cover[i + 1]! * fx) * (1 - fy) +
      (cover[i + width]! * (1 - fx) + cover[i + width + 1]! * fx) * fy
    )
  }
  const far = Math.min(width, height) / 2
  let best: number | null = null
  for (let t = -far; t < far; t += 0.25) {
    const [here, next] = [at(t) - 0.5, at(t + 0.25) - 0.5]
    if (!(here * next < 0)) continue
    const place = t + (0.25 * here) / (here - next)
    if (best === null || Math.abs(place) < Math.abs(best)) best = place
  }
  return best
}

/** For radii in blurs: how far the half-cover contour of a blurred, rounded corner lies from the vertex, in blurs. */
function blurredCorner(angle: number): { radius: number; away: number }[] {
  const known = corners.get(Math.round(angle * 50))
  if (known) return known
  const half = angle / 2
  const [sin, cos] = [Math.sin(half), Math.cos(half)]
  // The wedge opens to the right of the vertex; its rounding is a circle about (r / sin, 0).
  const inside = (x: number, y: number, r: number) => {
    if (Math.abs(y) * cos > x * sin) return false
    const centre = r / sin
    // Beyond the tangent points the wedge is whole.
    if (x * cos + Math.abs(y) * sin >= centre * cos) return true
    return Math.hypot(x - centre, y) <= r
  }
  const nodes = Array.from({ length: 61 }, (_, i) => -3.6 + (7.2 * i) / 60)
  const weights = nodes.map((z) => Math.exp((-z * z) / 2))
  const total = weights.reduce((a, b) => a + b, 0) ** 2
  const coverAt = (x: number, r: number) => {
    let sum = 0
    for (let i = 0; i < 61; i++)
      for (let j = 0; j < 61; j++) if (inside(x + nodes[i]!, nodes[j]!, r)) sum += weights[i]! * weights[j]!
    return sum / total
  }
  const table = [0, 0.5, 1, 1.5, 2, 3, 4, 6, 9, 14].map((radius) => {
    let [low, high] = [-1, 3 + radius * (1 / sin - 1) + 3]
    for (let round = 0; round < 16; round++) {
      const middle = (low + high) / 2
      if (coverAt(middle, radius) < 0.5) low = middle
      else high = middle
    }
    return { radius, away: (low + high) / 2 }
  })
  corners.set(Math.round(angle * 50), table)
  return table
}
const corners = new Map<number, { radius: number; away: number }[]>()

/** Radius in pixels from the contour's distance; negative distances and those of the blur alone give 0. */
function radiusOf(away: number, sigma: number, table: readonly { radius: number; away: number }[]): number {
  const d = away / sigma
  for (let i = 1; i < table.length; i++) {
    const [a, b] = [table[i - 1]!, table[i]!]
    if (d <= b.away) return Math.max(0, a.radius + ((d - a.away) / (b.away - a.away)) * (b.radius - a.radius)) * sigma
  }
  const [a, b] = table.slice(-2) as [{ radius: number; away: number }, { radius: number; away: number }]
  return (b.radius + ((d - b.away) / (b.away - a.away)) * (b.radius - a.radius)) * sigma
}
