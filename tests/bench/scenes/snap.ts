/**
 * A camera whose truth is known: a flat card in a plane before a pinhole, under stated light, blur, noise and JPEG. Draws only the
 * windows that are asked for; the rest of the photo is the table. Shares nothing with `src/imaging`.
 */
import { createCanvas, ImageData, loadImage } from '@napi-rs/canvas'
import { createSheet, HEIGHT, type Piece, type Rgb, WIDTH } from './press.ts'
import { createRandom } from './simulate-market.ts'

export type Window = readonly [x: number, y: number, width: number, height: number]

export interface Snap {
  /** At the card's middle. */
  readonly pxPerMm: number
  /** Camera tilt about the card's two axes and turn in the picture, degrees. */
  readonly tiltX: number
  readonly tiltY: number
  readonly turn: number
  /** Standard deviation of the blur, px. */
  readonly blur: number
  /** Standard deviation of the noise, levels. */
  readonly noise: number
  readonly light: Rgb
  /** Light at the card's right edge over that at its left. */
  readonly falloff: number
  readonly table: Rgb
  readonly jpeg: number
  readonly seed: number
}

export interface Photo {
  readonly width: number
  readonly height: number
  readonly data: Uint8ClampedArray
  readonly bytes: Buffer
  /** Millimetres of the cut card to pixels. */
  toPixels(x: number, y: number): readonly [number, number]
}

/** Distance of the camera, mm: a phone over a table (from memory). */
const DISTANCE = 350
const MARGIN_MM = 10
const LOOKS = 3

function createPinhole(snap: Snap) {
  const rad = Math.PI / 180
  const [sx, cx] = [Math.sin(snap.tiltX * rad), Math.cos(snap.tiltX * rad)]
  const [sy, cy] = [Math.sin(snap.tiltY * rad), Math.cos(snap.tiltY * rad)]
  const [sz, cz] = [Math.sin(snap.turn * rad), Math.cos(snap.turn * rad)]
  const focal = snap.pxPerMm * DISTANCE
  const project = (x: number, y: number): [number, number] => {
    const [u, v] = [x - WIDTH / 2, y - HEIGHT / 2]
    const [a, b] = [u * cz - v * sz, u * sz + v * cz]
    // About the horizontal axis, then about the upright one.
    const [b2, depth] = [b * cx, b * sx]
    const [a2, depth2] = [a * cy, depth - a * sy]
    const z = DISTANCE + depth2
    return [(focal * a2) / z, (focal * b2) / z]
  }
  return project
}

export async function snapPhoto(piece: Piece, snap: Snap, windows: readonly Window[] | null): Promise<Photo> {
  const project = createPinhole(snap)
  const shown = windows ?? [[-MARGIN_MM, -MARGIN_MM, WIDTH + 2 * MARGIN_MM, HEIGHT + 2 * MARGIN_MM] as const]
  // The photo ends where its windows end: what lies beyond them is not looked at.
  const rim = shown.flatMap(([x, y, w, h]) => [
    project(x, y),
    project(x + w, y),
    project(x + w, y + h),
    project(x, y + h),
  ])
  const left = Math.floor(Math.min(...rim.map(([x]) => x)))
  const top = Math.floor(Math.min(...rim.map(([, y]) => y)))
  const width = Math.ceil(Math.max(...rim.map(([x]) => x))) - left
  const height = Math.ceil(Math.max(...rim.map(([, y]) => y))) - top
  const toPixels = (x: number, y: number): [number, number] => {
    const [u, v] = project(x, y)
    return [u - left, v - top]
  }
  const toCard = invertOf(toPixels)
  const random = createRandom(snap.seed)
  const data = new Uint8ClampedArray(width * height * 4)
  const table = snap.table.map((value, c) => toLevel(value * snap.light[c]!))
  for (let i = 0; i < width * height; i++) {
    data[4 * i] = table[0]!
    data[4 * i + 1] = table[1]!
    data[4 * i + 2] = table[2]!
    data[4 * i + 3] = 255
  }
  for (const window of shown) {
    drawWindow(piece, snap, window, toPixels, toCard, width, height, data, random)
  }
  const canvas = createCanvas(width, height)
  canvas.getContext('2d').putImageData(new ImageData(data, width, height), 0, 0)
  const bytes = canvas.toBuffer('image/jpeg', snap.jpeg)
  const image = await loadImage(bytes)
  const back = createCanvas(width, height).getContext('2d')
  back.drawImage(image, 0, 0)
  return { width, height, data: back.getImageData(0, 0, width, height).data, bytes, toPixels }
}

function drawWindow(
  piece: Piece,
  snap: Snap,
  window: Window,
  toPixels: (x: number, y: number) => [number, number],
  toCard: (x: number, y: number) => [number, number],
  width: number,
  height: number,
  data: Uint8ClampedArray,
  random: () => number,
): void {
  const [x, y, w, h] = window
  const corners = [toPixels(x, y), toPixels(x + w, y), toPixels(x + w, y + h), toPixels(x, y + h)]
  const reach = Math.ceil(4 * snap.blur)
  const clampX = (v: number) => Math.min(width, Math.max(0, v))
  const clampY = (v: number) => Math.min(height, Math.max(0, v))
  const [x0, x1] = [
    clampX(Math.floor(Math.min(...corners.map((c) => c[0])))),
    clampX(Math.ceil(Math.max(...corners.map((c) => c[0])))),
  ]
  const [y0, y1] = [
    clampY(Math.floor(Math.min(...corners.map((c) => c[1])))),
    clampY(Math.ceil(Math.max(...corners.map((c) => c[1])))),
  ]
  const [bw, bh] = [x1 - x0 + 2 * reach, y1 - y0 + 2 * reach]
  const sheet = createSheet(piece, window)
  const light = [new Float32Array(bw * bh), new Float32Array(bw * bh), new Float32Array(bw * bh)]
  const at = (px: number, py: number): Rgb => {
    const [cx, cy] = toCard(px, py)
    return sheet(cx, cy) ?? greyCardAt(cx, cy) ?? snap.table
  }
  let above = Array.from({ length: bw + 1 }, (_, column) => at(x0 - reach + column, y0 - reach))
  for (let row = 0; row < bh; row++) {
    const py = y0 - reach + row
    const below = Array.from({ length: bw + 1 }, (_, column) => at(x0 - reach + column, py + 1))
    for (let column = 0; column < bw; column++) {
      const px = x0 - reach + column
      // Inside an even area one look is enough; elsewhere the pixel is the average of many.
      const first = above[column]!
      const even =
        isAlike(first, above[column + 1]!) && isAlike(first, below[column]!) && isAlike(first, below[column + 1]!)
      let sum: [number, number, number] = [first[0], first[1], first[2]]
      if (!even || piece.dots) {
        sum = [0, 0, 0]
        for (let k = 0; k < LOOKS * LOOKS; k++) {
          const colour = at(px + ((k % LOOKS) + 0.5) / LOOKS, py + (Math.floor(k / LOOKS) + 0.5) / LOOKS)
          for (let c = 0; c < 3; c++) sum[c]! += colour[c]! / (LOOKS * LOOKS)
        }
      }
      const fall = 1 + (snap.falloff - 1) * ((px - x0) / snap.pxPerMm / WIDTH + x / WIDTH - 0.5)
      for (let c = 0; c < 3; c++) light[c]![row * bw + column] = sum[c]! * snap.light[c]! * fall
    }
    above = below
  }
  const blurred = light.map((channel) => smear(channel, bw, bh, snap.blur))
  for (let row = reach; row < bh - reach; row++) {
    for (let column = reach; column < bw - reach; column++) {
      const to = 4 * ((y0 - reach + row) * width + x0 - reach + column)
      const noise = snap.noise * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
      for (let c = 0; c < 3; c++) data[to + c] = Math.round(toLevel(blurred[c]![row * bw + column]!) + noise)
    }
  }
}

function isAlike(a: Rgb, b: Rgb): boolean {
  return Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) + Math.abs(a[2] - b[2]) < 1e-4
}

/** A grey card lies left of the card. */
function greyCardAt(x: number, y: number): Rgb | null {
  return x > -9 && x < -3 && y > 18 && y < 36 ? [0.5, 0.5, 0.5] : null
}

function toLevel(light: number): number {
  const value = Math.min(1, Math.max(0, light))
  return 255 * (value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055)
}

function smear(values: Float32Array, width: number, height: number, sigma: number): Float32Array {
  if (sigma <= 0) return values
  const reach = Math.ceil(4 * sigma)
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)))
  const total = kernel.reduce((a, b) => a + b, 0)
  let from = values
  for (const [dx, dy] of [
    [1, 0],
    [0, 1],
  ] as const) {
    const to = new Float32Array(from.length)
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        let sum = 0
        for (let k = -reach; k <= reach; k++) {
          const sx = Math.min(width - 1, Math.max(0, x + k * dx))
          const sy = Math.min(height - 1, Math.max(0, y + k * dy))
          sum += kernel[k + reach]! * from[sy * width + sx]!
        }
        to[y * width + x] = sum / total
      }
    }
    from = to
  }
  return from
}

/** The inverse of a projective map, found from four of its points. */
function invertOf(map: (x: number, y: number) => [number, number]): (x: number, y: number) => [number, number] {
  const to: [number, number][] = [
    [0, 0],
    [WIDTH, 0],
    [WIDTH, HEIGHT],
    [0, HEIGHT],
  ]
  const rows = to.flatMap(([u, v]) => {
    const [x, y] = map(u, v)
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ]
  })
  for (let column = 0; column < 8; column++) {
    let pivot = column
    for (let row = column; row < 8; row++)
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row
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
