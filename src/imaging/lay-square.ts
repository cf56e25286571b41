/**
 * A picture of a piece laid square: the piece's plane seen straight from above, at one scale all over, with a margin around it.
 * For looking at, not for measuring: every measure is taken on the photo's own pixels.
 */
import type { Plane } from './homography.ts'
import type { Pixels } from './pixels.ts'

export interface SquareLayout {
  readonly pxPerMm: number
  /** Seen around the piece, mm. */
  readonly marginMm: number
}

// What a canvas of every browser still draws without help of a graphics card. From memory.
const LARGEST_SIDE_PX = 4096
/** Enough of the ground around a piece to see its cut edges by. Ours. */
const MARGIN_MM = 3

/** As fine as the photo itself at the middle of the piece, where memory allows. */
export function layoutOf({ size, scaleAt }: Plane): SquareLayout {
  const longest = Math.max(size.widthMm, size.heightMm) + 2 * MARGIN_MM
  const own = scaleAt(size.widthMm / 2, size.heightMm / 2)
  return { pxPerMm: Math.min(own, LARGEST_SIDE_PX / longest), marginMm: MARGIN_MM }
}

/** Bilinear between the photo's pixels; transparent where the photo ends. */
export function laySquare({ width, height, data }: Pixels, plane: Plane, { pxPerMm, marginMm }: SquareLayout): Pixels {
  const across = Math.max(1, Math.round((plane.size.widthMm + 2 * marginMm) * pxPerMm))
  const down = Math.max(1, Math.round((plane.size.heightMm + 2 * marginMm) * pxPerMm))
  const out = new Uint8ClampedArray(across * down * 4)
  const m = matrixOf(plane)
  for (let j = 0, at = 0; j < down; j++) {
    const y = (j + 0.5) / pxPerMm - marginMm
    for (let i = 0; i < across; i++, at += 4) {
      const x = (i + 0.5) / pxPerMm - marginMm
      const w = m[6] * x + m[7] * y + m[8]
      const px = (m[0] * x + m[1] * y + m[2]) / w - 0.5
      const py = (m[3] * x + m[4] * y + m[5]) / w - 0.5
      const left = Math.floor(px)
      const top = Math.floor(py)
      if (left < 0 || top < 0 || left + 1 >= width || top + 1 >= height) continue
      const fx = px - left
      const fy = py - top
      const a = 4 * (top * width + left)
      const b = a + 4 * width
      for (let channel = 0; channel < 4; channel++) {
        const upper = data[a + channel]! * (1 - fx) + data[a + 4 + channel]! * fx
        const lower = data[b + channel]! * (1 - fx) + data[b + 4 + channel]! * fx
        out[at + channel] = upper * (1 - fy) + lower * fy
      }
    }
  }
  return { width: across, height: down, data: out }
}

/** Row by row: millimetres of the piece to pixels of the photo. */
export type PlaneMatrix = readonly [number, number, number, number, number, number, number, number, number]

/** The plane as the nine numbers of its homography, from where it puts four places. */
export function matrixOf({ size: { widthMm: w, heightMm: h }, toPixels }: Plane): PlaneMatrix {
  const [[x0, y0], [x1, y1], [x2, y2], [x3, y3]] = [toPixels(0, 0), toPixels(w, 0), toPixels(w, h), toPixels(0, h)]
  const [sx, sy] = [x0 - x1 + x2 - x3, y0 - y1 + y2 - y3]
  const [dx1, dx2, dy1, dy2] = [x1 - x2, x3 - x2, y1 - y2, y3 - y2]
  const determinant = dx1 * dy2 - dx2 * dy1
  const g = (sx * dy2 - dx2 * sy) / determinant
  const k = (dx1 * sy - sx * dy1) / determinant
  return [
    (x1 - x0 + g * x1) / w,
    (x3 - x0 + k * x3) / h,
    x0,
    (y1 - y0 + g * y1) / w,
    (y3 - y0 + k * y3) / h,
    y0,
    g / w,
    k / h,
    1,
  ]
}
