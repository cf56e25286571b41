/** An answer about a view in pixels of the photo itself, with scale and tilt as far as the card's outline gives them. */
import { CARD_SIZES } from '../../domain/card-sizes.ts'
import type { HolderKind } from '../../domain/claim.ts'
import type { PhotoFacts, Point, Quadrilateral } from '../../domain/photo-facts.ts'
import { refineOutline } from '../find-card.ts'
import type { Four } from '../geometry/find-quads.ts'
import { areaOf } from '../geometry/find-quads.ts'
import { aspectOf, type Outline } from '../geometry/read-layout.ts'
import type { WorkingPicture } from '../geometry/working-picture.ts'
import type { Grey } from '../pixels.ts'
import type { ViewAnswer } from './tell-view.ts'

export interface PlacedView {
  readonly view: PhotoFacts['view']
  readonly evidence: readonly string[]
  readonly card: Quadrilateral | null
  readonly holder: Quadrilateral | null
  readonly holderKind: HolderKind | null
  /** Label if seen, else the holder that bears it. */
  readonly label: Quadrilateral | null
  readonly pxPerMm: number | null
  readonly tiltDegrees: number | null
  /** The card in the working picture. */
  readonly outline: Outline | null
}

// A card of another size than the nominal one, or a tilted one, differs by this much in proportion. Ours.
const NEAR_ASPECT = 0.1
// A main camera of a phone is some 26 mm in 35-mm terms: its focal length is .72 of the picture's long side; twice that when
// zoomed. Between the two; the tilt is right within a third.
const FOCAL = 1

/** Photos of a card in its holder, or of the holder: on any other a holder is not what the picture is of. */
const OF_A_HOLDER: readonly PhotoFacts['view'][] = [
  'front',
  'back',
  'holder-front',
  'holder-back',
  'label',
  'holder-edges',
  'holder-corners',
  'holder-code',
]

export function placeView(answer: ViewAnswer, picture: WorkingPicture, grey: Grey): PlacedView {
  const card = answer.card && refineOutline(answer.card, picture, grey)
  const holder = answer.holder && refineOutline(answer.holder, picture, grey)
  // An outline on a photo that was not told may be of something else; so would be what is measured by it.
  const isTold = answer.view !== 'cannot-tell'
  const isOfHolder = OF_A_HOLDER.includes(answer.view)
  const label = answer.label && { corners: scaled(answer.label, picture.scale), confidence: 0.5 }
  return {
    view: answer.view,
    evidence: answer.evidence,
    card,
    holder: isOfHolder ? holder : null,
    holderKind: isOfHolder ? answer.holderKind : null,
    label: label ?? (answer.holderKind === 'sealed' ? holder : null),
    pxPerMm: card && isTold ? scaleOf(card.corners) : null,
    tiltDegrees: card && isTold ? tiltOf(card.corners, Math.max(grey.width, grey.height)) : null,
    outline: isTold ? answer.card : null,
  }
}

const scaled = (four: Four, scale: number) => four.map(([x, y]) => [x * scale, y * scale]) as unknown as Four

/** Pixels a millimetre by the commonest nominal size of that shape; `null` where none has it. */
function scaleOf(corners: Four): number | null {
  const aspect = aspectOf(corners)
  const size = CARD_SIZES.find(({ widthMm, heightMm }) => Math.abs(aspect / (widthMm / heightMm) - 1) < NEAR_ASPECT)
  return size ? Math.round(10 * Math.sqrt(areaOf(corners) / (size.widthMm * size.heightMm))) / 10 : null
}

/** Tilt of the card against the sensor, from how its opposite sides differ; whole degrees. */
export function tiltOf(corners: Four, longSide: number): number {
  const side = (i: number) => {
    const [a, b] = [corners[i], corners[(i + 1) % 4]] as [Point, Point]
    return Math.hypot(b[0] - a[0], b[1] - a[1])
  }
  const slope = (one: number, other: number, apart: number) => {
    const ratio = Math.min(one, other) / Math.max(one, other)
    return ((1 - ratio) * 2 * FOCAL * longSide) / ((1 + ratio) * apart)
  }
  const down = slope(side(0), side(2), (side(1) + side(3)) / 2)
  const across = slope(side(1), side(3), (side(0) + side(2)) / 2)
  return Math.round((Math.atan(Math.hypot(down, across)) * 180) / Math.PI)
}
