/**
 * Rows of lettering, by form alone: pieces of ink of like height, side by side, of unlike width. Nothing is read. Bars, screens and
 * weaves are regular where lettering is not, and are left out by that.
 */
import type { Grey } from '../pixels.ts'

export interface TextRow {
  /** Of the row's box, in pixels of the picture given. */
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
  readonly glyphs: number
  /** Median height of its letters. */
  readonly height: number
  /** Share of the box that is ink. */
  readonly ink: number
}

interface Blob {
  left: number
  right: number
  top: number
  bottom: number
  area: number
}

const LEAST_HEIGHT = 4
const LEAST_GLYPHS = 5
// Letters of one row: capitals against small ones, with what JPEG takes away. Ours.
const HEIGHT_RATIO = 2.1
const MOST_GAP = 1.5
// Ink stands apart from its surroundings by this many levels; below it is paper grain. Ours.
const LEAST_INK = 14
const WINDOW = 11
// Widths of letters differ (an l, an m); dots and bars are alike. Coefficient of variation. Ours.
const LEAST_VARIATION = 0.17

export function findTextRows(grey: Grey, tallest: number): TextRow[] {
  const mean = localMean(grey)
  return [...rowsOf(grey, mean, -1, tallest), ...rowsOf(grey, mean, 1, tallest)]
}

function localMean({ width, height, data }: Grey): Float32Array {
  const sums = new Float64Array((width + 1) * (height + 1))
  for (let y = 0; y < height; y++) {
    let row = 0
    for (let x = 0; x < width; x++) {
      row += data[y * width + x] as number
      sums[(y + 1) * (width + 1) + x + 1] = (sums[y * (width + 1) + x + 1] as number) + row
    }
  }
  const mean = new Float32Array(width * height)
  for (let y = 0; y < height; y++) {
    const [y0, y1] = [Math.max(0, y - WINDOW), Math.min(height, y + WINDOW + 1)]
    for (let x = 0; x < width; x++) {
      const [x0, x1] = [Math.max(0, x - WINDOW), Math.min(width, x + WINDOW + 1)]
      const sum =
        (sums[y1 * (width + 1) + x1] as number) -
        (sums[y0 * (width + 1) + x1] as number) -
        (sums[y1 * (width + 1) + x0] as number) +
        (sums[y0 * (width + 1) + x0] as number)
      mean[y * width + x] = sum / ((x1 - x0) * (y1 - y0))
    }
  }
  return mean
}

function rowsOf(grey: Grey, mean: Float32Array, sign: 1 | -1, tallest: number): TextRow[] {
  const blobs = findBlobs(grey, mean, sign, tallest)
  blobs.sort((a, b) => a.left - b.left)
  // Neighbours are looked for in bands of rows, so that a page of text costs no more than its letters.
  const band = Math.max(8, tallest)
  const bands = new Map<number, number[]>()
  blobs.forEach((blob, i) => {
    const key = Math.floor((blob.top + blob.bottom) / 2 / band)
    const list = bands.get(key)
    if (list) list.push(i)
    else bands.set(key, [i])
  })
  const next = new Int32Array(blobs.length).fill(-1)
  const taken = new Uint8Array(blobs.length)
  blobs.forEach((blob, i) => {
    const height = blob.bottom - blob.top
    const key = Math.floor((blob.top + blob.bottom) / 2 / band)
    let [best, gap] = [-1, Number.POSITIVE_INFINITY]
    for (let k = key - 1; k <= key + 1; k++) {
      for (const j of bands.get(k) ?? []) {
        if (j <= i || taken[j] === 1) continue
        const other = blobs[j] as Blob
        const between = other.left - blob.right
        const otherHeight = other.bottom - other.top
        if (between > MOST_GAP * Math.max(height, otherHeight) || between >= gap || between < -0.4 * height) continue
        if (Math.max(height, otherHeight) > HEIGHT_RATIO * Math.min(height, otherHeight)) continue
        const overlap = Math.min(blob.bottom, other.bottom) - Math.max(blob.top, other.top)
        if (overlap < 0.55 * Math.min(height, otherHeight)) continue
        ;[best, gap] = [j, between]
      }
    }
    if (best >= 0) {
      next[i] = best
      taken[best] = 1
    }
  })
  const rows: TextRow[] = []
  blobs.forEach((_, i) => {
    if (taken[i] === 1) return
    const row: Blob[] = []
    for (let at = i; at >= 0; at = next[at] as number) row.push(blobs[at] as Blob)
    const found = row.length >= LEAST_GLYPHS ? asRow(row) : null
    if (found) rows.push(found)
  })
  return rows
}

function asRow(row: readonly Blob[]): TextRow | null {
  const middle = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1] as number
  const height = middle(row.map(({ top, bottom }) => bottom - top))
  const widths = row.map(({ left, right }) => right - left)
  const meanWidth = widths.reduce((a, b) => a + b, 0) / widths.length
  const spread = Math.sqrt(widths.reduce((sum, w) => sum + (w - meanWidth) ** 2, 0) / widths.length)
  // Bars: much higher than wide. Screens and weaves: all alike.
  if (height > 3.2 * meanWidth || spread < LEAST_VARIATION * meanWidth) return null
  const [left, right] = [row[0]!.left, Math.max(...row.map((blob) => blob.right))]
  if (right - left < 3 * height) return null
  const [top, bottom] = [Math.min(...row.map((blob) => blob.top)), Math.max(...row.map((blob) => blob.bottom))]
  // Feet of letters stand on one line, which may run at a slant.
  const slope = ((row.at(-1) as Blob).bottom - row[0]!.bottom) / Math.max(1, (row.at(-1) as Blob).left - left)
  const off = row.map((blob) => Math.abs(blob.bottom - row[0]!.bottom - slope * (blob.left - left)))
  if (middle(off) > 0.3 * height) return null
  const area = row.reduce((sum, blob) => sum + blob.area, 0)
  return { left, top, right, bottom, glyphs: row.length, height, ink: area / ((right - left) * height) }
}

function findBlobs({ width, height, data }: Grey, mean: Float32Array, sign: 1 | -1, tallest: number): Blob[] {
  const ink = new Uint8Array(width * height)
  for (let i = 0; i < ink.length; i++) ink[i] = sign * ((data[i] as number) - (mean[i] as number)) > LEAST_INK ? 1 : 0
  const blobs: Blob[] = []
  const open = new Int32Array(width * height)
  for (let start = 0; start < ink.length; start++) {
    if (ink[start] !== 1) continue
    let count = 1
    open[0] = start
    ink[start] = 2
    const blob = { left: width, right: 0, top: height, bottom: 0, area: 0 }
    while (count > 0) {
      const at = open[--count] as number
      const [x, y] = [at % width, Math.floor(at / width)]
      blob.area++
      if (x < blob.left) blob.left = x
      if (x >= blob.right) blob.right = x + 1
      if (y < blob.top) blob.top = y
      if (y >= blob.bottom) blob.bottom = y + 1
      for (const next of [x > 0 ? at - 1 : -1, x < width - 1 ? at + 1 : -1, at - width, at + width]) {
        if (next < 0 || ink[next] !== 1) continue
        ink[next] = 2
        open[count++] = next
      }
    }
    const [w, h] = [blob.right - blob.left, blob.bottom - blob.top]
    if (h < LEAST_HEIGHT || h > tallest || w > 2.6 * h + 4 || w < 1) continue
    if (blob.area < 0.14 * w * h) continue
    blobs.push(blob)
  }
  return blobs
}
