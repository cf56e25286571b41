/**
 * The four sides of a card to a part of a pixel: along each, where the photo's level changes most steeply across it, then a line
 * through those places, then the corners where the lines meet.
 */
import type { Point } from '../domain/photo-facts.ts'
import type { Corners } from './homography.ts'
import { locateStep } from './locate-step.ts'
import type { Grey } from './pixels.ts'
import { sampleAlong } from './sample-along.ts'

const PLACES = 60
// Rounded and worn corners bend the outline near its ends; they are left out. Ours.
const LEFT_OUT_AT_ENDS = 0.1
// A side has to be seen at this share of its places. Ours.
const LEAST_SUPPORT = 0.5

interface Line {
  /** Unit normal and distance: normal · p = distance. */
  readonly normal: Point
  readonly distance: number
  /** Share of the places that lie on the line. */
  readonly support: number
}

/** @param slack how far the rough corners may be off, px. @returns `null` where a side is not clear. */
export function refineSides(grey: Grey, rough: Corners, slack: number): { corners: Corners; support: number } | null {
  const reach = Math.max(4, 3 * slack)
  const lines: Line[] = []
  for (let i = 0; i < 4; i++) {
    const line = fitSide(grey, rough[i] as Point, rough[(i + 1) % 4] as Point, reach)
    if (!line || line.support < LEAST_SUPPORT) return null
    lines.push(line)
  }
  const corners = [0, 1, 2, 3].map((i) => meet(lines[(i + 3) % 4] as Line, lines[i] as Line))
  if (corners.some((corner) => corner === null)) return null
  return { corners: corners as unknown as Corners, support: Math.min(...lines.map((line) => line.support)) }
}

function fitSide(grey: Grey, from: Point, to: Point, reach: number): Line | null {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  if (length < 20) return null
  const along: Point = [(to[0] - from[0]) / length, (to[1] - from[1]) / length]
  const across: Point = [-along[1], along[0]]
  const places: { t: number; offset: number }[] = []
  for (let k = 0; k < PLACES; k++) {
    const t = length * (LEFT_OUT_AT_ENDS + ((1 - 2 * LEFT_OUT_AT_ENDS) * k) / (PLACES - 1))
    const centre: Point = [from[0] + along[0] * t, from[1] + along[1] * t]
    const profile = sampleAlong(grey, centre, across, reach)
    const step = profile && locateStep(profile)
    if (step) places.push({ t, offset: step.position - reach })
  }
  if (places.length < PLACES * LEAST_SUPPORT) return null
  const fit = fitRobustly(places, Math.max(0.75, reach / 12))
  if (!fit) return null
  const start: Point = [from[0] + across[0] * fit.intercept, from[1] + across[1] * fit.intercept]
  const direction: Point = [along[0] + across[0] * fit.slope, along[1] + across[1] * fit.slope]
  const size = Math.hypot(...direction)
  const normal: Point = [-direction[1] / size, direction[0] / size]
  return { normal, distance: normal[0] * start[0] + normal[1] * start[1], support: fit.inliers / PLACES }
}

/** The line that most places lie near, then least squares through those. */
function fitRobustly(places: readonly { t: number; offset: number }[], near: number) {
  let best: { t: number; offset: number }[] = []
  for (let i = 0; i < places.length; i += 3) {
    for (let j = i + Math.ceil(places.length / 4); j < places.length; j += 3) {
      const [a, b] = [places[i], places[j]] as [(typeof places)[number], (typeof places)[number]]
      const slope = (b.offset - a.offset) / (b.t - a.t)
      const inliers = places.filter(({ t, offset }) => Math.abs(a.offset + slope * (t - a.t) - offset) <= near)
      if (inliers.length > best.length) best = inliers
    }
  }
  if (best.length < 4) return null
  const n = best.length
  const meanT = best.reduce((sum, { t }) => sum + t, 0) / n
  const meanOffset = best.reduce((sum, { offset }) => sum + offset, 0) / n
  const spread = best.reduce((sum, { t }) => sum + (t - meanT) ** 2, 0)
  const slope = best.reduce((sum, { t, offset }) => sum + (t - meanT) * (offset - meanOffset), 0) / spread
  return { slope, intercept: meanOffset - slope * meanT, inliers: n }
}

function meet(a: Line, b: Line): Point | null {
  const determinant = a.normal[0] * b.normal[1] - a.normal[1] * b.normal[0]
  if (Math.abs(determinant) < 0.05) return null
  return [
    (a.distance * b.normal[1] - b.distance * a.normal[1]) / determinant,
    (a.normal[0] * b.distance - b.normal[0] * a.distance) / determinant,
  ]
}
