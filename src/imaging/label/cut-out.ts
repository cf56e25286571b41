/** Cuts a quadrilateral out of a photo and lays it flat. Reads pixels, judges nothing. */
import { type Corners, createPlane } from '../homography.ts'
import type { Pixels } from '../pixels.ts'

/**
 * @param corners clockwise from what is to be the top left, in pixels of the photo.
 * @param width, height pixels of the result. Shrinking averages what lies under a pixel, enlarging is bilinear; what lies
 *   outside the photo repeats its rim. `null` where the corners make no convex quadrilateral.
 */
export function cutOut(pixels: Pixels, corners: Corners, width: number, height: number): Pixels | null {
  const plane = createPlane(corners, { widthMm: width, heightMm: height })
  if (!plane) return null
  const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!)
  const [p, q, r, s] = corners
  // Samples a side under each pixel, so that fine print is averaged and not skipped. More than 4 change nothing visible.
  const shrinking = Math.max(apart(p, q) / width, apart(s, r) / width, apart(p, s) / height, apart(q, r) / height)
  const samples = Math.min(4, Math.max(1, Math.round(shrinking)))
  const data = new Uint8ClampedArray(width * height * 4)
  const sum = new Float64Array(3)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      sum.fill(0)
      for (let i = 0; i < samples; i++) {
        for (let j = 0; j < samples; j++) {
          const at = plane.toPixels(x + (j + 0.5) / samples, y + (i + 0.5) / samples)
          addSample(pixels, at[0] - 0.5, at[1] - 0.5, sum)
        }
      }
      const to = (y * width + x) * 4
      const n = samples * samples
      data[to] = sum[0]! / n
      data[to + 1] = sum[1]! / n
      data[to + 2] = sum[2]! / n
      data[to + 3] = 255
    }
  }
  return { width, height, data }
}

function addSample({ width, height, data }: Pixels, x: number, y: number, sum: Float64Array): void {
  const left = Math.min(Math.max(x, 0), width - 1)
  const top = Math.min(Math.max(y, 0), height - 1)
  const x0 = Math.floor(left)
  const y0 = Math.floor(top)
  const dx = left - x0
  const dy = top - y0
  const a = (y0 * width + x0) * 4
  const b = x0 + 1 < width ? a + 4 : a
  const down = y0 + 1 < height ? width * 4 : 0
  for (let channel = 0; channel < 3; channel++) {
    const upper = data[a + channel]! * (1 - dx) + data[b + channel]! * dx
    const lower = data[a + down + channel]! * (1 - dx) + data[b + down + channel]! * dx
    sum[channel]! += upper * (1 - dy) + lower * dy
  }
}

/** The whole picture's own corners. */
export function cornersOfWhole({ width, height }: { width: number; height: number }): Corners {
  return [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ]
}
