/**
 * Photos of an invented card whose truth is known: a design in millimetres, seen by a pinhole camera under stated light, blur and
 * noise. Shares no code, constant or font with `src/imaging`.
 */
import { createRandom } from './edges.ts'

type Rgb = readonly [number, number, number]
type Xy = readonly [number, number]

export interface Design {
  readonly widthMm: number
  readonly heightMm: number
  /** Border widths, mm. */
  readonly border: { left: number; top: number; right: number; bottom: number }
  /** Linear light, 0–1. */
  readonly paper: Rgb
  readonly sky: Rgb
  /** A patch of even ink, mm, and its colour. */
  readonly tint: { x: number; y: number; width: number; height: number; colour: Rgb }
  /** Seed of the shapes in the picture. */
  readonly shapes: number
}

export interface Camera {
  readonly width: number
  readonly height: number
  /** Where the card's corners come to lie, clockwise from its top left, px. */
  readonly corners: readonly [Xy, Xy, Xy, Xy]
  /** Standard deviation of the blur, px. */
  readonly blur: number
  /** Standard deviation of the noise, levels. */
  readonly noise: number
  /** What the light does to each channel. */
  readonly light: Rgb
  /** Light at the photo's right edge over that at its left. */
  readonly falloff: number
  readonly background: Rgb
  readonly seed: number
}

export const STANDARD: Design = {
  widthMm: 63.5,
  heightMm: 88.9,
  border: { left: 4, top: 5, right: 4, bottom: 6 },
  paper: [0.78, 0.74, 0.62],
  sky: [0.25, 0.42, 0.55],
  tint: { x: 22, y: 70, width: 18, height: 8, colour: [0.45, 0.09, 0.06] },
  shapes: 11,
}

/** Corners of a card seen square-on in the middle of a photo, at a scale, turned by an angle. */
export function squareOn(
  design: Design,
  width: number,
  height: number,
  pxPerMm: number,
  degrees = 0,
): Camera['corners'] {
  const [sin, cos] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)]
  const [w, h] = [(design.widthMm * pxPerMm) / 2, (design.heightMm * pxPerMm) / 2]
  const turn = (x: number, y: number): Xy => [width / 2 + x * cos - y * sin, height / 2 + x * sin + y * cos]
  return [turn(-w, -h), turn(w, -h), turn(w, h), turn(-w, h)]
}

function createPainter(design: Design): (x: number, y: number) => Rgb | null {
  const random = createRandom(design.shapes)
  const shapes = Array.from({ length: 14 }, () => ({
    x: design.border.left + random() * (design.widthMm - design.border.left - design.border.right),
    y: design.border.top + random() * (design.heightMm - design.border.top - design.border.bottom),
    r: 3 + 9 * random(),
    colour: [random() * 0.7, random() * 0.7, random() * 0.7] as Rgb,
  }))
  const { tint, border, widthMm, heightMm } = design
  return (x, y) => {
    if (x < 0 || y < 0 || x > widthMm || y > heightMm) return null
    if (x < border.left || y < border.top || x > widthMm - border.right || y > heightMm - border.bottom)
      return design.paper
    if (x > tint.x && y > tint.y && x < tint.x + tint.width && y < tint.y + tint.height) return tint.colour
    for (const shape of shapes) if (Math.hypot(x - shape.x, y - shape.y) < shape.r) return shape.colour
    return design.sky
  }
}

/** Solves for the eight numbers of a homography that takes four points to four points (Gauss with pivots). */
function solveHomography(from: readonly Xy[], to: readonly Xy[]): (x: number, y: number) => Xy {
  const rows = from.flatMap(([x, y], i) => {
    const [u, v] = to[i]!
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ]
  })
  for (let column = 0; column < 8; column++) {
    const pivot = rows
      .slice(column)
      .reduce((best, row, i) => (Math.abs(row[column]!) > Math.abs(rows[best]![column]!) ? i + column : best), column)
    ;[rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!]
    for (let row = 0; row < 8; row++) {
      if (row === column) continue
      const factor = rows[row]![column]! / rows[column]![column]!
      for (let k = column; k < 9; k++) rows[row]![k]! -= factor * rows[column]![k]!
    }
  }
  const m = rows.map((row, i) => row[8]! / row[i]!)
  return (x, y) => {
    const w = m[6]! * x + m[7]! * y + 1
    return [(m[0]! * x + m[1]! * y + m[2]!) / w, (m[3]! * x + m[4]! * y + m[5]!) / w]
  }
}

function toLevel(light: number): number {
  const value = Math.min(1, Math.max(0, light))
  return 255 * (value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055)
}

const SUBSAMPLES = 6

export function photograph(design: Design, camera: Camera): { width: number; height: number; data: Uint8ClampedArray } {
  const { width, height } = camera
  const paint = createPainter(design)
  const { widthMm: w, heightMm: h } = design
  const toCard = solveHomography(camera.corners, [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ])
  let light = new Float32Array(width * height * 3)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const fall = 1 + (camera.falloff - 1) * (x / width)
      const at = (px: number, py: number) => paint(...toCard(px, py)) ?? camera.background
      // Inside an even area one look is enough; across an edge the pixel is the average of many.
      const corner = at(x, y)
      const even = corner === at(x + 1, y) && corner === at(x, y + 1) && corner === at(x + 1, y + 1)
      const looks = even ? 1 : SUBSAMPLES * SUBSAMPLES
      for (let s = 0; s < looks; s++) {
        const colour = even
          ? corner
          : at(x + ((s % SUBSAMPLES) + 0.5) / SUBSAMPLES, y + (Math.floor(s / SUBSAMPLES) + 0.5) / SUBSAMPLES)
        for (let c = 0; c < 3; c++) light[3 * (y * width + x) + c]! += (colour[c]! * camera.light[c]! * fall) / looks
      }
    }
  }
  if (camera.blur > 0) light = blurred(light, width, height, camera.blur)
  const random = createRandom(camera.seed)
  const data = new Uint8ClampedArray(width * height * 4)
  for (let i = 0; i < width * height; i++) {
    const noise = camera.noise * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
    for (let c = 0; c < 3; c++) data[4 * i + c] = Math.round(toLevel(light[3 * i + c]!) + noise)
    data[4 * i + 3] = 255
  }
  return { width, height, data }
}

/** Gaussian in linear light, three channels interleaved. */
function blurred(light: Float32Array, width: number, height: number, sigma: number): Float32Array<ArrayBuffer> {
  const reach = Math.ceil(4 * sigma)
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)))
  const sum = kernel.reduce((a, b) => a + b, 0)
  const pass = (from: Float32Array, dx: number, dy: number) => {
    const to = new Float32Array(from.length)
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        for (let k = -reach; k <= reach; k++) {
          const sx = Math.min(width - 1, Math.max(0, x + k * dx))
          const sy = Math.min(height - 1, Math.max(0, y + k * dy))
          const weight = kernel[k + reach]! / sum
          for (let c = 0; c < 3; c++) to[3 * (y * width + x) + c]! += weight * from[3 * (sy * width + sx) + c]!
        }
      }
    }
    return to
  }
  return pass(pass(light, 1, 0), 0, 1)
}
