/**
 * A photo shrunk to a size at which outlines are looked for: luma and two colour differences, whole blocks averaged.
 * Outlines found here are refined in the photo itself.
 */
import type { Pixels } from '../pixels.ts'

export interface WorkingPicture {
  readonly width: number
  readonly height: number
  /** Photo pixels a pixel of this picture. */
  readonly scale: number
  readonly luma: Float32Array
  readonly blue: Float32Array
  readonly red: Float32Array
}

// At 600 px a border of 2 mm on a card that fills half of the photo is still 6 px wide. Ours.
const LONG_SIDE = 600
// Of large blocks every second row is looked at: the average of a dozen pixels is as good as that of fifty.
const EVERY_ROW_UP_TO = 3

export function shrinkForWork({ width, height, data }: Pixels): WorkingPicture {
  const scale = Math.max(1, Math.ceil(Math.max(width, height) / LONG_SIDE))
  const [w, h] = [Math.floor(width / scale), Math.floor(height / scale)]
  const [luma, blue, red] = [new Float32Array(w * h), new Float32Array(w * h), new Float32Array(w * h)]
  const rowStep = scale > EVERY_ROW_UP_TO ? 2 : 1
  const columnStep = scale > 2 * EVERY_ROW_UP_TO ? 2 : 1
  const [sums, counts] = [new Float64Array(3 * w), Math.ceil(scale / rowStep) * Math.ceil(scale / columnStep)]
  for (let y = 0; y < h; y++) {
    sums.fill(0)
    for (let dy = 0; dy < scale; dy += rowStep) {
      let at = 4 * (y * scale + dy) * width
      for (let x = 0; x < w; x++) {
        let [r, g, b] = [0, 0, 0]
        for (let dx = 0; dx < scale; dx += columnStep) {
          r += data[at + 4 * dx] as number
          g += data[at + 4 * dx + 1] as number
          b += data[at + 4 * dx + 2] as number
        }
        at += 4 * scale
        sums[3 * x] = (sums[3 * x] as number) + r
        sums[3 * x + 1] = (sums[3 * x + 1] as number) + g
        sums[3 * x + 2] = (sums[3 * x + 2] as number) + b
      }
    }
    for (let x = 0; x < w; x++) {
      const r = (sums[3 * x] as number) / counts
      const g = (sums[3 * x + 1] as number) / counts
      const b = (sums[3 * x + 2] as number) / counts
      // ITU-R BT.601, full range, without the offset of 128.
      luma[y * w + x] = 0.299 * r + 0.587 * g + 0.114 * b
      blue[y * w + x] = -0.1687 * r - 0.3313 * g + 0.5 * b
      red[y * w + x] = 0.5 * r - 0.4187 * g - 0.0813 * b
    }
  }
  return { width: w, height: h, scale, luma, blue, red }
}
