/**
 * A picture of a piece laid square: every place has millimetres of the piece, whatever the camera did. Holds pixels that must be
 * let go of with `closeSquare`; must not know where they came from.
 */
import type { DrawnCorners } from '../../domain/exemplar.ts'

export interface Size {
  readonly widthMm: number
  readonly heightMm: number
}

export interface SquarePicture {
  /** The whole picture with its margin, largest first, each next one half as large. */
  readonly levels: readonly ImageBitmap[]
  /** Of the largest level. */
  readonly pxPerMm: number
  /** Seen around the piece, mm. */
  readonly marginMm: number
  readonly size: Size
  /** The photo as it was, for looking at its own pixels. */
  readonly photo: ImageBitmap
  /** Row by row: millimetres of the piece to pixels of the photo. */
  readonly toPhoto: readonly number[]
  /** Where the piece lies in the photo, by the person or as found. */
  readonly corners: DrawnCorners
  /** Of the photo, at the middle of the piece. */
  readonly photoPxPerMm: number
}

/** Where the piece lies in its picture: as shares of its sides, as pixels, or to be found. */
export type PieceCorners = { readonly shares: DrawnCorners } | { readonly pixels: DrawnCorners } | null

export function closeSquare(square: SquarePicture): void {
  for (const level of square.levels) level.close()
  square.photo.close()
}

/** @returns pixels of the photo. */
export function toPhotoPixels({ toPhoto: m }: Pick<SquarePicture, 'toPhoto'>, xMm: number, yMm: number) {
  const w = m[6]! * xMm + m[7]! * yMm + m[8]!
  return {
    x: (m[0]! * xMm + m[1]! * yMm + m[2]!) / w,
    y: (m[3]! * xMm + m[4]! * yMm + m[5]!) / w,
  }
}

/** The smallest level that still has a pixel for each one of the screen. */
export function levelFor(square: Pick<SquarePicture, 'levels' | 'pxPerMm'>, devicePxPerMm: number) {
  let index = 0
  while (index + 1 < square.levels.length && square.pxPerMm / 2 ** (index + 1) >= devicePxPerMm) index++
  const level = square.levels[index]!
  // Halving rounds: the level's own scale, not the first one's by powers of two.
  return { level, pxPerMm: (square.pxPerMm * level.width) / square.levels[0]!.width }
}
