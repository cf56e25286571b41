/**
 * What kind of holder lies around a card. `sealed` on a label beyond one end of the card within one outline; `screw-down` on screw
 * heads at its corners. Other kinds differ in thickness, which a photo from above does not show: they stay unknown.
 */
import type { HolderKind } from '../../domain/claim.ts'
import type { Point } from '../../domain/photo-facts.ts'
import { colourAt, isThrough } from '../geometry/compare-sides.ts'
import type { Four } from '../geometry/find-quads.ts'
import { contains, type Layout, type Outline } from '../geometry/read-layout.ts'
import type { WorkingPicture } from '../geometry/working-picture.ts'
import { type Corners, createPlane } from '../homography.ts'
import type { TextRow } from './find-text-rows.ts'

export interface HolderSigns {
  readonly kind: HolderKind | null
  readonly evidence: readonly string[]
  /** Where the label lies, px of the working picture. */
  readonly label: Four | null
  readonly labelRows: number
  readonly labelGlyphs: number
  /** `true`: outlined as a label by itself, not only by place. */
  readonly labelOutlined: boolean
}

// Shares of the holder's long side. Sealed holders leave a fifth and more for the label and a little at the other end; from
// memory of their common outline (about 81 × 135 mm around a card of 63.5 × 88.9 mm).
const LABEL_END = 0.17
const OTHER_END = 0.17
const END_DIFFERENCE = 0.1

export function readHolder(picture: WorkingPicture, layout: Layout, rows: readonly TextRow[]): HolderSigns {
  const { card, holder } = layout
  const none: HolderSigns = {
    kind: null,
    evidence: [],
    label: null,
    labelRows: 0,
    labelGlyphs: 0,
    labelOutlined: false,
  }
  if (!card) return none
  const zone = holder ? zoneOf(holder, card) : null
  const outlined = findLabel(layout, card, holder)
  // With a holder seen, a label lies in its free end or nowhere: printed panels are not taken for one.
  const label = holder && !zone ? null : (outlined?.corners ?? zone)
  if (label) {
    const inside = rows.filter((row) => contains(label, [(row.left + row.right) / 2, (row.top + row.bottom) / 2], 4))
    const glyphs = inside.reduce((sum, row) => sum + row.glyphs, 0)
    const paper = holder !== null && zone !== null && opaqueShare(picture, zone, holder) > OPAQUE_LABEL
    const evidence: string[] = []
    if (outlined) evidence.push('a label is outlined beyond one end of the card')
    else if (glyphs >= 8 && paper) evidence.push('lettering beyond one end of the card, within the holder')
    else if (paper) evidence.push('paper beyond one end of the card, within the holder')
    if (holder) evidence.push('one clear outline holds card and label')
    const sealed = holder ? evidence.length > 1 : outlined !== null && inside.length >= 2 && glyphs >= 12
    if (sealed) {
      return {
        kind: 'sealed',
        evidence,
        label,
        labelRows: inside.length,
        labelGlyphs: glyphs,
        labelOutlined: outlined !== null || paper,
      }
    }
  }
  if (holder && countScrews(picture, holder) >= 3)
    return { ...none, kind: 'screw-down', evidence: ['screw heads at the corners of a clear outline'] }
  return none
}

/** Where in the holder's own unit square a point lies. */
function placeIn(outline: Four): ((p: Point) => Point) | null {
  const plane = createPlane(outline as Corners, { widthMm: 1, heightMm: 1 })
  return plane && ((p) => plane.toMillimetres(p[0], p[1]))
}

function longDown(corners: Four): boolean {
  const [a, b, c] = corners as unknown as [Point, Point, Point]
  return Math.hypot(c[0] - b[0], c[1] - b[1]) >= Math.hypot(b[0] - a[0], b[1] - a[1])
}

/** The free end of a holder, where it is as large as a label needs and the other end is not. */
function zoneOf(holder: Outline, card: Outline): Four | null {
  const down = longDown(holder.corners)
  const turned = down ? holder.corners : ([1, 2, 3, 0].map((i) => holder.corners[i]) as unknown as Four)
  const place = placeIn(turned)
  if (!place) return null
  const v = card.corners.map((p) => place(p)[1])
  const [top, bottom] = [Math.min(...v), 1 - Math.max(...v)]
  const [large, small] = [Math.max(top, bottom), Math.min(top, bottom)]
  if (large < LABEL_END || small > OTHER_END + 0.6 * (large - LABEL_END) || large - small < END_DIFFERENCE) return null
  const plane = createPlane(turned as Corners, { widthMm: 1, heightMm: 1 })
  if (!plane) return null
  const [v0, v1] = top > bottom ? [0.01, top - 0.02] : [1 - bottom + 0.02, 0.99]
  return [plane.toPixels(0.02, v0), plane.toPixels(0.98, v0), plane.toPixels(0.98, v1), plane.toPixels(0.02, v1)]
}

/** An opaque strip that lies across one end of the card, about as wide as it or a little wider. */
function findLabel(layout: Layout, card: Outline, holder: Outline | null): Outline | null {
  const turned = longDown(card.corners) ? card.corners : ([1, 2, 3, 0].map((i) => card.corners[i]) as unknown as Four)
  const place = placeIn(turned)
  if (!place) return null
  let best: Outline | null = null
  for (const outline of layout.outlines) {
    if (outline.aspect > 0.5 || outline.aspect < 0.14 || outline.merit < 0.6 || outline.sides.seeThrough > 0.55)
      continue
    if (holder && !outline.corners.every((p) => contains(holder.corners, p, 3))) continue
    const places = outline.corners.map(place)
    const [us, vs] = [places.map((p) => p[0]), places.map((p) => p[1])]
    const [left, right, top, bottom] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)]
    const wide = right - left
    const beyond = bottom < 0.02 ? -bottom : top > 0.98 ? top - 1 : -1
    if (beyond < -0.02 || beyond > 0.3 || wide < 0.72 || wide > 2.3) continue
    if (Math.abs((left + right) / 2 - 0.5) > 0.22 || bottom - top > 0.55) continue
    if (!best || outline.merit * outline.area > best.merit * best.area) best = outline
  }
  return best
}

// Share of a holder's free end that is not the table seen through plastic: a label covers most of it. Ours.
const OPAQUE_LABEL = 0.4

function opaqueShare(picture: WorkingPicture, zone: Four, holder: Outline): number {
  const plane = createPlane(zone as Corners, { widthMm: 1, heightMm: 1 })
  if (!plane) return 0
  let [opaque, count] = [0, 0]
  for (let u = 0.15; u < 0.9; u += 0.05) {
    for (let v = 0.25; v < 0.8; v += 0.1) {
      const colour = colourAt(picture, ...plane.toPixels(u, v))
      if (!colour) continue
      count++
      if (!isThrough(colour, holder.sides.outside)) opaque++
    }
  }
  return count === 0 ? 0 : opaque / count
}

function countScrews({ width, height, luma }: WorkingPicture, holder: Outline): number {
  const plane = createPlane(holder.corners as Corners, { widthMm: 1, heightMm: 1 })
  if (!plane) return 0
  const range = (u: number, v: number, half: number) => {
    let [low, high] = [255, 0]
    for (let i = -4; i <= 4; i++) {
      for (let j = -4; j <= 4; j++) {
        const [x, y] = plane.toPixels(u + (half * i) / 4, v + (half * j) / 4)
        const [px, py] = [Math.floor(x), Math.floor(y)]
        if (px < 0 || py < 0 || px >= width || py >= height) continue
        const level = luma[py * width + px] as number
        low = Math.min(low, level)
        high = Math.max(high, level)
      }
    }
    return high - low
  }
  // Beside each corner, inside the rim; and halfway along the same margins, where there is no screw.
  const corners = [
    [0.07, 0.055],
    [0.93, 0.055],
    [0.93, 0.945],
    [0.07, 0.945],
  ].map(([u, v]) => range(u as number, v as number, 0.03))
  const between = [
    [0.3, 0.055],
    [0.7, 0.055],
    [0.3, 0.945],
    [0.7, 0.945],
  ].map(([u, v]) => range(u as number, v as number, 0.03))
  const quiet = between.sort((a, b) => a - b)[1] as number
  return corners.filter((value) => value > 45 && value > 1.8 * quiet + 15).length
}
