/**
 * The card in a photo: of all outlines the one that is a cut edge on a table, its sides refined to a part of a pixel. Anything
 * less clear comes back as `null`, and the person gives the corners.
 */
import type { Quadrilateral } from '../domain/photo-facts.ts'
import { type Outline, readLayout } from './geometry/read-layout.ts'
import { shrinkForWork, type WorkingPicture } from './geometry/working-picture.ts'
import { type Corners, isConvex } from './homography.ts'
import type { Grey, Pixels } from './pixels.ts'
import { refineSides } from './refine-sides.ts'

// Below this the outline is not handed out: a wrong one costs more than none. Ours, uncalibrated.
const LEAST_CONFIDENCE = 0.4

export function findCard(pixels: Pixels, grey: Grey): Quadrilateral | null {
  const picture = shrinkForWork(pixels)
  const { card } = readLayout(picture)
  return card && refineOutline(card, picture, grey)
}

/** An outline of the working picture in pixels of the photo. */
export function refineOutline(outline: Outline, { scale }: WorkingPicture, grey: Grey): Quadrilateral | null {
  const rough = outline.corners.map(([x, y]) => [x * scale, y * scale]) as unknown as Corners
  const confidence = confidenceOf(outline)
  if (confidence < LEAST_CONFIDENCE) return null
  const refined = refineSides(grey, rough, scale)
  const sound = refined !== null && isConvex(refined.corners) && isNear(refined.corners, rough, 4 * scale)
  // Sides that cannot be refined (a finger, glare) stay as found, and say so by their confidence.
  const corners = sound ? refined.corners : rough
  return { corners, confidence: Math.round(100 * confidence * (sound ? 0.5 + 0.5 * refined.support : 0.75)) / 100 }
}

export function confidenceOf({ merit, sides }: Outline): number {
  return Math.max(0, Math.min(1, merit)) * Math.min(1, sides.onTable) * (1 - 0.6 * sides.seeThrough)
}

function isNear(a: Corners, b: Corners, most: number): boolean {
  return a.every(([x, y], i) => Math.hypot(x - (b[i] as Corners[0])[0], y - (b[i] as Corners[0])[1]) <= most)
}
