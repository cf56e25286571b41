/** A pinhole camera over a flat world, and what lens, sensor and encoder do to the picture. */
import { createCanvas, ImageData } from '@napi-rs/canvas'
import type { Chance } from './random.ts'
import type { Four, Xy } from './scene-truth.ts'

export interface View {
  readonly width: number
  readonly height: number
  /** World to photo, 3 × 3 by rows. */
  readonly toPhoto: readonly number[]
}

const multiply = (a: readonly number[], b: readonly number[]) =>
  Array.from({ length: 9 }, (_, i) => {
    const [r, c] = [Math.floor(i / 3), i % 3]
    return a[3 * r]! * b[c]! + a[3 * r + 1]! * b[3 + c]! + a[3 * r + 2]! * b[6 + c]!
  })

/** @param pxPerMm at the aimed point. @param tilt of the table against the sensor, radians, towards `direction`. */
export function aim(
  width: number,
  height: number,
  pxPerMm: number,
  centre: Xy,
  tilt: number,
  direction: number,
  roll: number,
): View {
  const focal = 1.15 * Math.max(width, height)
  const distance = focal / pxPerMm
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)]
  const [dx, dy] = [Math.cos(direction), Math.sin(direction)]
  const [cr, sr] = [Math.cos(roll), Math.sin(roll)]
  // Rotation by the tilt about the axis across `direction`, after the roll in the table's plane.
  const turn = [cr, -sr, -(cr * centre[0] - sr * centre[1]), sr, cr, -(sr * centre[0] + cr * centre[1]), 0, 0, 1]
  const along = (x: number, y: number) => [
    x * (1 + (c - 1) * dx * dx) + y * (c - 1) * dx * dy,
    x * (c - 1) * dx * dy + y * (1 + (c - 1) * dy * dy),
    -s * (dx * x + dy * y),
  ]
  const [ux, uy] = [along(1, 0), along(0, 1)]
  const pose = [ux[0]!, uy[0]!, 0, ux[1]!, uy[1]!, 0, ux[2]!, uy[2]!, distance]
  const lens = [focal, 0, width / 2, 0, focal, height / 2, 0, 0, 1]
  return { width, height, toPhoto: multiply(lens, multiply(pose, turn)) }
}

export function project(m: readonly number[], [x, y]: Xy): Xy {
  const w = m[6]! * x + m[7]! * y + m[8]!
  return [(m[0]! * x + m[1]! * y + m[2]!) / w, (m[3]! * x + m[4]! * y + m[5]!) / w]
}

export const projectFour = (m: readonly number[], four: Four): Four => four.map((p) => project(m, p)) as unknown as Four

export function invert(m: readonly number[]): number[] {
  const [a, b, c, d, e, f, g, h, i] = m as [number, number, number, number, number, number, number, number, number]
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ]
}

export interface Film {
  readonly width: number
  readonly height: number
  /** Red, green, blue, 0–255, unclipped. */
  readonly data: Float32Array
}

/** The world's drawing seen by the camera. `worldScale` px of the drawing a mm, its origin in the drawing's middle. */
export function shoot(
  world: { width: number; height: number; data: Uint8ClampedArray },
  worldScale: number,
  view: View,
): Film {
  const { width, height } = view
  const back = invert(view.toPhoto)
  const data = new Float32Array(width * height * 3)
  const [cx, cy] = [world.width / 2, world.height / 2]
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const w = back[6]! * (x + 0.5) + back[7]! * (y + 0.5) + back[8]!
      const wx = ((back[0]! * (x + 0.5) + back[1]! * (y + 0.5) + back[2]!) / w) * worldScale + cx - 0.5
      const wy = ((back[3]! * (x + 0.5) + back[4]! * (y + 0.5) + back[5]!) / w) * worldScale + cy - 0.5
      const ix = Math.min(world.width - 2, Math.max(0, Math.floor(wx)))
      const iy = Math.min(world.height - 2, Math.max(0, Math.floor(wy)))
      const fx = Math.min(1, Math.max(0, wx - ix))
      const fy = Math.min(1, Math.max(0, wy - iy))
      const at = 4 * (iy * world.width + ix)
      const below = at + 4 * world.width
      const to = 3 * (y * width + x)
      for (let k = 0; k < 3; k++) {
        const upper = world.data[at + k]! * (1 - fx) + world.data[at + 4 + k]! * fx
        const lower = world.data[below + k]! * (1 - fx) + world.data[below + 4 + k]! * fx
        data[to + k] = upper * (1 - fy) + lower * fy
      }
    }
  }
  return { width, height, data }
}

/** Gaussian blur in place. */
export function soften({ width, height, data }: Film, sigma: number): void {
  if (sigma < 0.3) return
  const reach = Math.ceil(2.6 * sigma)
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)))
  const total = kernel.reduce((a, b) => a + b, 0)
  const weights = kernel.map((value) => value / total)
  const line = new Float32Array(Math.max(width, height) * 3)
  const run = (start: number, stride: number, count: number) => {
    for (let i = 0; i < count; i++) for (let k = 0; k < 3; k++) line[3 * i + k] = data[start + i * stride + k]!
    for (let i = 0; i < count; i++) {
      let [r, g, b] = [0, 0, 0]
      for (let j = -reach; j <= reach; j++) {
        const at = 3 * Math.min(count - 1, Math.max(0, i + j))
        const weight = weights[j + reach]!
        r += weight * line[at]!
        g += weight * line[at + 1]!
        b += weight * line[at + 2]!
      }
      const to = start + i * stride
      data[to] = r
      data[to + 1] = g
      data[to + 2] = b
    }
  }
  for (let y = 0; y < height; y++) run(3 * y * width, 3, width)
  for (let x = 0; x < width; x++) run(3 * x, 3 * width, height)
}

export interface Light {
  readonly white: readonly [number, number, number]
  readonly exposure: number
  /** How much darker the corners are, 0–1. */
  readonly vignette: number
  /** Light across the picture: exponent of falloff over the whole width, and its direction. */
  readonly slope: number
  readonly direction: number
  /** Share of channels mixed by the light itself; identity in daylight. */
  readonly dye: readonly number[] | null
}

export function expose({ width, height, data }: Film, light: Light, noise: number, chance: Chance): void {
  const [dx, dy] = [Math.cos(light.direction), Math.sin(light.direction)]
  const long = Math.max(width, height)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [u, v] = [(x - width / 2) / long, (y - height / 2) / long]
      const fall =
        light.exposure * Math.exp(light.slope * (dx * u + dy * v)) * (1 - light.vignette * (u * u + v * v) * 2)
      const at = 3 * (y * width + x)
      let [r, g, b] = [data[at]!, data[at + 1]!, data[at + 2]!]
      if (light.dye) {
        const m = light.dye
        ;[r, g, b] = [
          m[0]! * r + m[1]! * g + m[2]! * b,
          m[3]! * r + m[4]! * g + m[5]! * b,
          m[6]! * r + m[7]! * g + m[8]! * b,
        ]
      }
      const grain = noise * chance.normal()
      data[at] = r * light.white[0] * fall + grain + noise * 0.4 * (chance.next() - 0.5)
      data[at + 1] = g * light.white[1] * fall + grain
      data[at + 2] = b * light.white[2] * fall + grain + noise * 0.6 * (chance.next() - 0.5)
    }
  }
}

export function develop({ width, height, data }: Film, jpegQuality: number): Uint8Array {
  const pixels = new Uint8ClampedArray(width * height * 4)
  for (let i = 0, j = 0; i < pixels.length; i += 4, j += 3) {
    pixels[i] = data[j]!
    pixels[i + 1] = data[j + 1]!
    pixels[i + 2] = data[j + 2]!
    pixels[i + 3] = 255
  }
  const canvas = createCanvas(width, height)
  canvas.getContext('2d').putImageData(new ImageData(pixels, width, height), 0, 0)
  return canvas.toBuffer('image/jpeg', jpegQuality)
}
