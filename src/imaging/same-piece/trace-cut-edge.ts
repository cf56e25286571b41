/** The course of one cut edge: how deep it lies along a side, to a part of a pixel, in the print's own millimetres. Reads only. */
import { locateStep } from '../locate-step.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { sampleAlong } from '../sample-along.ts'

export type SideName = 'left' | 'top' | 'right' | 'bottom'
export const SIDE_NAMES: readonly SideName[] = ['left', 'top', 'right', 'bottom']

const CORNERS_OF = { top: [0, 1], right: [1, 2], bottom: [2, 3], left: [3, 0] } as const
// Worn corners are left out, mm. Ours.
const CORNER_MM = 5
/** One place so often along a side, mm: a nick is a few tenths long. */
export const STEP_MM = 0.25
const REACH_MM = 0.5

/** Depth inside the nominal edge (negative: outside) by steps along the side, in mm; not a number where it is not seen. */
export function traceCutEdge({ grey, plane, outline }: PlacedPicture, side: SideName): Float64Array | null {
  if (!outline) return null
  const { widthMm, heightMm } = plane.size
  const upright = side === 'left' || side === 'right'
  const length = upright ? heightMm : widthMm
  const nominal = side === 'left' || side === 'top' ? 0 : upright ? widthMm : heightMm
  const inward = side === 'left' || side === 'top' ? 1 : -1
  const [a, b] = CORNERS_OF[side]
  const [p, q] = [plane.toMillimetres(...outline[a]), plane.toMillimetres(...outline[b])]
  const count = Math.floor((length - 2 * CORNER_MM) / STEP_MM)
  const depths = new Float64Array(count).fill(Number.NaN)
  for (let k = 0; k < count; k++) {
    const along = CORNER_MM + (k + 0.5) * STEP_MM
    const [along0, along1, across0, across1] = upright ? [p[1], q[1], p[0], q[0]] : [p[0], q[0], p[1], q[1]]
    const across = across0 + ((across1 - across0) * (along - along0)) / (along1 - along0)
    const at = (mm: number) => (upright ? plane.toPixels(mm, along) : plane.toPixels(along, mm))
    const centre = at(across)
    const next = at(across + inward)
    const perMm = Math.hypot(next[0] - centre[0], next[1] - centre[1])
    const direction = [(next[0] - centre[0]) / perMm, (next[1] - centre[1]) / perMm] as const
    const reach = Math.max(4, REACH_MM * perMm)
    const profile = sampleAlong(grey, centre, direction, reach)
    const step = profile && locateStep(profile)
    if (!step) continue
    const middle = (profile.length - 1) / 2
    depths[k] = inward * (across - nominal) + ((step.position - middle) * reach) / middle / perMm
  }
  return depths
}

/** What is left of a course after its slow part: the mean over 6 mm. */
export function nicksOf(depths: Float64Array): Float64Array {
  const half = Math.round(3 / STEP_MM)
  return depths.map((depth, k) => {
    let [sum, n] = [0, 0]
    for (let i = Math.max(0, k - half); i <= Math.min(depths.length - 1, k + half); i++) {
      if (Number.isNaN(depths[i]!)) continue
      sum += depths[i]!
      n++
    }
    // A single wild place is a failed step, not a nick.
    const rest = depth - sum / Math.max(1, n)
    return Math.abs(rest) > 0.45 ? Number.NaN : rest
  })
}
