/** A picture in which the piece was found: from millimetres on the piece to pixels, with what limits every measure on it. */
import type { Exemplar } from '../domain/exemplar.ts'
import type { Quadrilateral } from '../domain/photo-facts.ts'
import { findCard } from './find-card.ts'
import { type Corners, createPlane, type Plane } from './homography.ts'
import { measureBlur } from './measure-blur.ts'
import { type Grey, type Pixels, toGrey } from './pixels.ts'

export interface Picture {
  readonly pixels: Pixels
  readonly grey: Grey
  /** Standard deviation, px; `null` where no clear edge was found. */
  readonly blurPx: number | null
  readonly jpegQuality: number | null
}

export interface PlacedPicture extends Picture {
  /** Of the print where it was registered, else of the outline. */
  readonly plane: Plane
  /** The cut outline, clockwise from the piece's own top left, px; `null`: not known. */
  readonly outline: Corners | null
  /** A neutral surface in the frame, px; `null`: none is known. */
  readonly greyCard: Corners | null
}

export function createPicture(pixels: Pixels, jpegQuality: number | null): Picture {
  const grey = toGrey(pixels)
  return { pixels, grey, blurPx: measureBlur(grey), jpegQuality }
}

/** @param given corners by the person; they outrank what is found. */
export function cornersOf(picture: Picture, given: Corners | null): Quadrilateral | null {
  return given ? { corners: given, confidence: 1 } : findCard(picture.pixels, picture.grey)
}

export function place(picture: Picture, corners: Corners, size: Exemplar['nominalSize']): PlacedPicture | null {
  const plane = createPlane(corners, size)
  return plane && { ...picture, plane, outline: corners, greyCard: null }
}
