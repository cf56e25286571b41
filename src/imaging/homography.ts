/**
 * The plane of a card seen by a camera: from millimetres on the card to pixels of the photo and back.
 * Square to quadrilateral in closed form: P. Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), section 2.2.3.
 */
import type { Point, Quadrilateral } from '../domain/photo-facts.ts'

export type Corners = Quadrilateral['corners']

export interface CardSize {
  readonly widthMm: number
  readonly heightMm: number
}

/** Row by row; maps homogeneous millimetres to homogeneous pixels. */
export type Matrix = readonly [number, number, number, number, number, number, number, number, number]

/** Millimetres to pixels. `null` from `createPlane` where the corners make no convex quadrilateral. */
export interface Plane {
  readonly size: CardSize
  readonly matrix: Matrix
  toPixels(xMm: number, yMm: number): Point
  /** Pixels of the photo to millimetres on the card. */
  toMillimetres(xPx: number, yPx: number): Point
  /** Pixels per millimetre at a place, the lesser of the two directions. */
  scaleAt(xMm: number, yMm: number): number
}

export function isConvex(corners: Corners): boolean {
  let sign = 0
  for (let i = 0; i < 4; i++) {
    const [a, b, c] = [corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]] as [Point, Point, Point]
    const cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    if (Math.abs(cross) < 1e-9 || (sign !== 0 && Math.sign(cross) !== sign)) return false
    sign = Math.sign(cross)
  }
  return true
}

/** @param corners clockwise from the card's own top left. */
export function createPlane(corners: Corners, size: CardSize): Plane | null {
  if (!isConvex(corners)) return null
  const [[x0, y0], [x1, y1], [x2, y2], [x3, y3]] = corners
  const [sx, sy] = [x0 - x1 + x2 - x3, y0 - y1 + y2 - y3]
  const [dx1, dx2, dy1, dy2] = [x1 - x2, x3 - x2, y1 - y2, y3 - y2]
  const determinant = dx1 * dy2 - dx2 * dy1
  const g = (sx * dy2 - dx2 * sy) / determinant
  const h = (dx1 * sy - sx * dy1) / determinant
  const { widthMm: w, heightMm: t } = size
  return planeOf(
    [
      (x1 - x0 + g * x1) / w,
      (x3 - x0 + h * x3) / t,
      x0,
      (y1 - y0 + g * y1) / w,
      (y3 - y0 + h * y3) / t,
      y0,
      g / w,
      h / t,
      1,
    ],
    size,
  )
}

export function planeOf(matrix: Matrix, size: CardSize): Plane {
  const [a, b, c, d, e, f, g, h, i] = matrix
  const toPixels = (x: number, y: number): Point => {
    const w = g * x + h * y + i
    return [(a * x + b * y + c) / w, (d * x + e * y + f) / w]
  }
  // The adjugate; its determinant cancels in the division by w.
  const toMillimetres = (x: number, y: number): Point => {
    const u = (e * i - f * h) * x + (c * h - b * i) * y + (b * f - c * e)
    const v = (f * g - d * i) * x + (a * i - c * g) * y + (c * d - a * f)
    const w = (d * h - e * g) * x + (b * g - a * h) * y + (a * e - b * d)
    return [u / w, v / w]
  }
  const scaleAt = (xMm: number, yMm: number) => {
    const step = 0.5
    const apart = (p: Point, q: Point) => Math.hypot(p[0] - q[0], p[1] - q[1]) / (2 * step)
    return Math.min(
      apart(toPixels(xMm - step, yMm), toPixels(xMm + step, yMm)),
      apart(toPixels(xMm, yMm - step), toPixels(xMm, yMm + step)),
    )
  }
  return { size, matrix, toPixels, toMillimetres, scaleAt }
}

/** `first` is done before `then`. */
export function multiply(then: Matrix, first: Matrix): Matrix {
  const product: number[] = []
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) {
      let sum = 0
      for (let k = 0; k < 3; k++) sum += (then[3 * row + k] as number) * (first[3 * k + column] as number)
      product.push(sum)
    }
  }
  return product as unknown as Matrix
}

/** The plane whose millimetre (x, y) lies where the given one's (x + dx, y + dy) does. */
export function shiftPlane(plane: Plane, dxMm: number, dyMm: number): Plane {
  return planeOf(multiply(plane.matrix, [1, 0, dxMm, 0, 1, dyMm, 0, 0, 1]), plane.size)
}
