/** The pixels of one region as light: on a raster of millimetres, or each pixel of the photo at its own place. Reads only. */
import type { Region } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import { linearLevel } from '../linear-light.ts'
import type { PlacedPicture } from '../placed-picture.ts'

/** Linear light by rows; `y` is luminance (IEC 61966-2-1: Rec. 709 primaries). */
export interface LightRaster {
  readonly width: number
  readonly height: number
  readonly perMm: number
  /** Millimetres of its first pixel's corner. */
  readonly x: number
  readonly top: number
  readonly r: Float32Array
  readonly g: Float32Array
  readonly b: Float32Array
  readonly y: Float32Array
}

export const luminance = (r: number, g: number, b: number) => 0.2126 * r + 0.7152 * g + 0.0722 * b

// Channels from this share of full light on are clipped, and what they show is lost.
const CLIPPED = 0.985
const MOST_CLIPPED_SHARE = 0.05

const LINEAR = Float32Array.from({ length: 256 }, (_, level) => linearLevel(level))

/** @param perMm of the raster; where it is coarser than the photo, several places are averaged. */
export function readLight({ pixels, plane }: PlacedPicture, region: Region, perMm: number): LightRaster | CannotTell {
  const [width, height] = [
    Math.max(2, Math.round(region.width * perMm)),
    Math.max(2, Math.round(region.height * perMm)),
  ]
  const scale = plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
  const looks = Math.max(1, Math.min(4, Math.round(scale / perMm)))
  const n = width * height
  const [r, g, b, y] = [new Float32Array(n), new Float32Array(n), new Float32Array(n), new Float32Array(n)]
  const { data, width: w, height: h } = pixels
  let clipped = 0
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      let [sr, sg, sb] = [0, 0, 0]
      for (let k = 0; k < looks * looks; k++) {
        const [px, py] = plane.toPixels(
          region.x + (column + ((k % looks) + 0.5) / looks) / perMm,
          region.y + (row + (Math.floor(k / looks) + 0.5) / looks) / perMm,
        )
        const left = Math.floor(px - 0.5)
        const top = Math.floor(py - 0.5)
        if (left < 0 || top < 0 || left + 1 >= w || top + 1 >= h) return cannotTell('region-outside')
        const [fx, fy] = [px - 0.5 - left, py - 0.5 - top]
        const at = 4 * (top * w + left)
        const below = at + 4 * w
        const [w00, w10, w01, w11] = [(1 - fx) * (1 - fy), fx * (1 - fy), (1 - fx) * fy, fx * fy]
        sr +=
          w00 * LINEAR[data[at]!]! +
          w10 * LINEAR[data[at + 4]!]! +
          w01 * LINEAR[data[below]!]! +
          w11 * LINEAR[data[below + 4]!]!
        sg +=
          w00 * LINEAR[data[at + 1]!]! +
          w10 * LINEAR[data[at + 5]!]! +
          w01 * LINEAR[data[below + 1]!]! +
          w11 * LINEAR[data[below + 5]!]!
        sb +=
          w00 * LINEAR[data[at + 2]!]! +
          w10 * LINEAR[data[at + 6]!]! +
          w01 * LINEAR[data[below + 2]!]! +
          w11 * LINEAR[data[below + 6]!]!
      }
      const at = row * width + column
      const many = looks * looks
      r[at] = sr / many
      g[at] = sg / many
      b[at] = sb / many
      y[at] = luminance(r[at]!, g[at]!, b[at]!)
      if (r[at]! > CLIPPED && g[at]! > CLIPPED && b[at]! > CLIPPED) clipped++
    }
  }
  if (clipped > MOST_CLIPPED_SHARE * n) return cannotTell('burnt-out')
  return { width, height, perMm, x: region.x, top: region.y, r, g, b, y }
}

/** Each pixel of the photo inside a region: its place in mm and its luminance. */
export interface PlacedLight {
  readonly x: Float64Array
  readonly y: Float64Array
  readonly light: Float64Array
}

// More pixels than this would not make a fit better; of a finer photo every second or third is left out. Ours.
const MOST_PIXELS = 3500

export function readPixels({ pixels, plane }: PlacedPicture, region: Region): PlacedLight | CannotTell {
  const corners = [
    plane.toPixels(region.x, region.y),
    plane.toPixels(region.x + region.width, region.y),
    plane.toPixels(region.x + region.width, region.y + region.height),
    plane.toPixels(region.x, region.y + region.height),
  ]
  const xs = corners.map(([x]) => x)
  const ys = corners.map(([, y]) => y)
  const [left, right] = [Math.floor(Math.min(...xs)), Math.ceil(Math.max(...xs))]
  const [top, bottom] = [Math.floor(Math.min(...ys)), Math.ceil(Math.max(...ys))]
  if (left < 0 || top < 0 || right > pixels.width || bottom > pixels.height) return cannotTell('region-outside')
  const every = Math.max(1, Math.floor(((right - left) * (bottom - top)) / MOST_PIXELS))
  const [x, y, light]: [number[], number[], number[]] = [[], [], []]
  let clipped = 0
  let count = 0
  for (let row = top; row < bottom; row++) {
    for (let column = left; column < right; column++) {
      // A step that is prime to the row's length would alias; a counter over all rows does not.
      if (count++ % every !== 0) continue
      const [mx, my] = plane.toMillimetres(column + 0.5, row + 0.5)
      if (mx < region.x || my < region.y || mx > region.x + region.width || my > region.y + region.height) continue
      const at = 4 * (row * pixels.width + column)
      const [r, g, b] = [LINEAR[pixels.data[at]!]!, LINEAR[pixels.data[at + 1]!]!, LINEAR[pixels.data[at + 2]!]!]
      if (r > CLIPPED && g > CLIPPED && b > CLIPPED) clipped++
      x.push(mx)
      y.push(my)
      light.push(luminance(r, g, b))
    }
  }
  if (clipped > MOST_CLIPPED_SHARE * 4 * x.length) return cannotTell('burnt-out')
  return { x: Float64Array.from(x), y: Float64Array.from(y), light: Float64Array.from(light) }
}

/** Separable Gaussian over a raster's values, its rim held. @param sigma in pixels of the raster. */
export function blurRaster(values: Float32Array, width: number, height: number, sigma: number): Float32Array {
  if (sigma < 0.15) return values
  const reach = Math.ceil(3.5 * sigma)
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)))
  const total = kernel.reduce((a, b) => a + b, 0)
  const pass = (from: Float32Array, step: number, stride: number, length: number, lines: number) => {
    const to = new Float32Array(from.length)
    for (let line = 0; line < lines; line++) {
      for (let i = 0; i < length; i++) {
        let sum = 0
        for (let k = -reach; k <= reach; k++) {
          const at = Math.min(length - 1, Math.max(0, i + k))
          sum += kernel[k + reach]! * from[line * stride + at * step]!
        }
        to[line * stride + i * step] = sum / total
      }
    }
    return to
  }
  return pass(pass(values, 1, width, width, height), width, 1, height, width)
}
