/**
 * Which outlines in a photo are objects on a table, which of them is the card, which is the holder around it. Both readings of an
 * outline, cut edge and printed frame, are weighed by what lies outside it: table, or paper.
 */
import type { Point } from '../../domain/photo-facts.ts'
import { compareSides, createRim, type Sides } from './compare-sides.ts'
import { type FoundQuad, type Four, findQuads } from './find-quads.ts'
import { findSegments } from './find-segments.ts'
import { joinLines, type SeenLine } from './join-lines.ts'
import type { WorkingPicture } from './working-picture.ts'

export interface Outline {
  readonly corners: Four
  readonly merit: number
  readonly weakest: number
  readonly area: number
  readonly sides: Sides
  /** Short over long side as seen. */
  readonly aspect: number
}

export interface Layout {
  /** Opaque things on the table, best first; none lies in another. */
  readonly objects: readonly Outline[]
  /** The object that has a card's shape and the best outline. */
  readonly card: Outline | null
  /** Clear or frosted outline around the card. */
  readonly holder: Outline | null
  /** Every outline that was seen, whatever it is. */
  readonly outlines: readonly Outline[]
  readonly lines: readonly SeenLine[]
}

// Cards run from 1 7/16 × 2 5/8 in (.55) to 2 3/8 × 2 7/8 in (.83); 35 degrees of tilt shorten one side to .82 of it.
const CARD_ASPECT = [0.44, 0.97] as const
// A well leaves a millimetre or two around the card, seldom more.
const WELL_SHARE = 0.84
const LEAST_CARD_SHARE = 0.02
const LEAST_ON_TABLE = 0.62
const MOST_SEE_THROUGH = 0.42
const LEAST_CONTRAST = 9
const HOLDER = { onTable: 0.5, seeThrough: 0.36, merit: 0.48 }

export function aspectOf(corners: Four): number {
  const side = (i: number) => {
    const [a, b] = [corners[i], corners[(i + 1) % 4]] as [Point, Point]
    return Math.hypot(b[0] - a[0], b[1] - a[1])
  }
  const [across, down] = [(side(0) + side(2)) / 2, (side(1) + side(3)) / 2]
  return Math.min(across, down) / Math.max(across, down)
}

export function contains(outer: Four, [x, y]: Point, slack = 1.5): boolean {
  for (let i = 0; i < 4; i++) {
    const [a, b] = [outer[i], outer[(i + 1) % 4]] as [Point, Point]
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    if (((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length < -slack) return false
  }
  return true
}

export const holds = (outer: Four, inner: Four, slack?: number) =>
  inner.every((corner) => contains(outer, corner, slack))
const middleOf = (corners: Four): Point =>
  [0, 1].map((c) => corners.reduce((sum, p) => sum + (p[c] as number), 0) / 4) as never

export function readLayout(picture: WorkingPicture): Layout {
  const { width, height } = picture
  const lines = joinLines(findSegments(picture), width, height)
  const isRim = createRim(picture)
  const outlines = findQuads(lines, width, height).map((quad) => describe(picture, quad, isRim))
  const whole = width * height
  const opaque = outlines
    .filter(
      ({ area, sides }) =>
        area >= LEAST_CARD_SHARE * whole &&
        sides.onTable >= LEAST_ON_TABLE &&
        sides.seeThrough <= MOST_SEE_THROUGH &&
        sides.contrast >= LEAST_CONTRAST,
    )
    .sort((a, b) => scoreObject(b, whole) - scoreObject(a, whole))
  const objects: Outline[] = []
  for (const outline of opaque) {
    const clash = objects.some(
      (other) =>
        contains(other.corners, middleOf(outline.corners)) || contains(outline.corners, middleOf(other.corners)),
    )
    if (!clash) objects.push(outline)
  }
  const found = objects.find(({ aspect }) => isCardShaped(aspect)) ?? null
  const card = found && stepInward(found, opaque)
  return {
    objects: objects.map((o) => (o === found && card ? card : o)),
    card,
    holder: card && findHolder(card, outlines),
    outlines,
    lines,
  }
}

export const isCardShaped = (aspect: number) => aspect >= CARD_ASPECT[0] && aspect <= CARD_ASPECT[1]

/** The well of a holder lies close around the card and lets the table through; the card does not. */
function stepInward(from: Outline, opaque: readonly Outline[]): Outline {
  let card = from
  for (const inner of opaque) {
    if (inner.area >= card.area || inner.area < WELL_SHARE * card.area || !holds(card.corners, inner.corners, 3))
      continue
    const { onTable, seeThrough, contrast } = inner.sides
    if (inner.merit < 0.8 * card.merit || onTable < card.sides.onTable - 0.08) continue
    if (seeThrough < card.sides.seeThrough - 0.04 && contrast >= 0.8 * card.sides.contrast) card = inner
  }
  return card
}

function describe(picture: WorkingPicture, quad: FoundQuad, isRim: Parameters<typeof compareSides>[2]): Outline {
  return { ...quad, sides: compareSides(picture, quad.corners, isRim), aspect: aspectOf(quad.corners) }
}

function scoreObject({ merit, weakest, sides, area }: Outline, whole: number): number {
  // A larger outline of the same quality holds the smaller: the smaller is part of what is printed.
  return merit + 0.2 * weakest + 0.8 * sides.onTable - 1.2 * sides.seeThrough + 0.35 * Math.sqrt(area / whole)
}

/** The best outline around an object through which the table shows on both sides. */
export function findHolder(card: Outline, outlines: readonly Outline[]): Outline | null {
  const candidates = outlines.filter(
    (outline) =>
      outline.area > 1.06 * card.area &&
      outline.area < 5.5 * card.area &&
      outline.merit >= HOLDER.merit &&
      outline.sides.onTable >= HOLDER.onTable &&
      outline.sides.seeThrough >= HOLDER.seeThrough &&
      holds(outline.corners, card.corners),
  )
  const score = ({ merit, sides, area }: Outline) => merit + 0.5 * sides.onTable + 0.4 * Math.sqrt(area / card.area)
  return candidates.sort((a, b) => score(b) - score(a))[0] ?? null
}
