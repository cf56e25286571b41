/**
 * A region drawn on a picture of the exemplar, compared with a photo: the piece is found in the picture, the drawing turned
 * into millimetres of the piece, and the point judged as one of an exemplar file would be.
 */
import type { DrawnCorners, DrawnKind, Exemplar, ExemplarPoint, PointComparison, Region } from '../domain/exemplar.ts'
import { comparePhotos, type QuestionedPhoto } from './compare-photos.ts'
import { type Corners, createPlane, type Plane } from './homography.ts'
import { cornersOf, type Picture } from './placed-picture.ts'

/** Shares of the picture's width and height, from the top left. */
export interface DrawnRegion {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface DrawnPoint {
  readonly kind: DrawnKind
  readonly region: DrawnRegion
  /** For `tint`: unprinted or evenly grey, in both pictures. */
  readonly neutral: DrawnRegion
  /** For `border-width`: from which cut edge. */
  readonly edge: 'left' | 'top' | 'right' | 'bottom'
  readonly nominalSize: Exemplar['nominalSize']
  /** Of the card in the exemplar's picture; `null`: found here. */
  readonly corners: DrawnCorners | null
}

const PICTURE = 'exemplar'

/** @returns the comparison, or in `fault` why the exemplar's own picture cannot serve. */
export function compareDrawnRegion(
  drawn: DrawnPoint,
  exemplarPicture: Picture,
  photo: QuestionedPhoto,
): PointComparison | { readonly fault: string } {
  const found = cornersOf(exemplarPicture, drawn.corners && toPixels(drawn.corners, exemplarPicture))
  const plane = found && createPlane(found.corners, drawn.nominalSize)
  if (!plane) return { fault: 'no card could be found in the picture of the exemplar; give its four corners' }
  const toRegion = (region: DrawnRegion) => regionOnCard(region, exemplarPicture, plane)
  const base = {
    id: 'drawn',
    name: 'drawn',
    why: '',
    copiesDo: '',
    copies: {},
    side: 'front' as const,
    region: toRegion(drawn.region),
    needsPxPerMm: null,
    tolerance: null,
  }
  const point: ExemplarPoint =
    drawn.kind === 'tint'
      ? { ...base, kind: 'tint', neutral: [toRegion(drawn.neutral)] }
      : { ...base, kind: 'border-width', edge: drawn.edge, opposite: null }
  const exemplar: Exemplar = {
    schemaVersion: 2,
    id: PICTURE,
    title: PICTURE,
    provenance: '',
    author: PICTURE,
    licence: PICTURE,
    nominalSize: drawn.nominalSize,
    pieces: [{ id: PICTURE, name: PICTURE, provenance: '' }],
    copies: [],
    pictures: [
      {
        file: PICTURE,
        side: 'front',
        corners: found.corners.map(([x, y]) => [x, y]) as never,
        piece: PICTURE,
        greyCard: null,
      },
    ],
    points: [point],
  }
  const { points } = comparePhotos({ exemplar }, new Map([[PICTURE, exemplarPicture]]), [photo])
  return points[0]!
}

export function toPixels(corners: DrawnCorners, { pixels: { width, height } }: Picture): Corners {
  return corners.map(([x, y]) => [x * width, y * height]) as unknown as Corners
}

/** The rectangle on the card that holds all of the drawing; a card that lies askew turns it. */
function regionOnCard(region: DrawnRegion, { pixels }: Picture, plane: Plane): Region {
  const corners = [
    [region.x, region.y],
    [region.x + region.width, region.y],
    [region.x + region.width, region.y + region.height],
    [region.x, region.y + region.height],
  ] as const
  const onCard = corners.map(([x, y]) => plane.toMillimetres(x * pixels.width, y * pixels.height))
  const xs = onCard.map(([x]) => x)
  const ys = onCard.map(([, y]) => y)
  const x = Math.min(...xs)
  const y = Math.min(...ys)
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y }
}
