/** The camera: tilts the flat drawing, lights it, adds the sensor's noise. Pixels in, pixels out. */
import type { Canvas } from '@napi-rs/canvas'
import { newCanvas } from './pen.ts'
import { between, createRandom, noiseTile, TILE } from './random.ts'
import type { Scene } from './scene.ts'
import type { Shot } from './shot.ts'

const SIZE = TILE - 1

/** `flat`: the scene's field at `flatPxPerMm`. */
export function takePhoto(shot: Shot, scene: Scene, flat: Canvas, flatPxPerMm: number): Canvas {
  const { width, height } = scene.photo
  const from = flat.getContext('2d').getImageData(0, 0, flat.width, flat.height)
  const canvas = newCanvas(width, height)
  const pen = canvas.getContext('2d')
  const image = pen.createImageData(width, height)
  const out = image.data
  const data = from.data
  const light = lightOf(shot)
  const grain = noiseTile(91, [[512, 512, 1]])
  const soft = noiseTile(92, [
    [200, 200, 0.6],
    [90, 80, 0.6],
    [22, 26, 0.5],
  ])
  const random = createRandom(shot.seed + 13)
  const grainX = Math.floor(random() * TILE)
  const grainY = Math.floor(random() * TILE)
  const [a, b, c, d, e, f, g, h] = scene.toField as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  const lastX = flat.width - 1.001
  const lastY = flat.height - 1.001
  const stride = flat.width * 4
  const relief = light.relief / flatPxPerMm
  const reliefStep = Math.max(1, Math.round(flatPxPerMm * 0.12))
  for (let y = 0; y < height; y++) {
    const v = y / height - 0.5
    const py = y + 0.5
    for (let x = 0; x < width; x++) {
      const px = x + 0.5
      const w = g * px + h * py + 1
      let fx = ((a * px + b * py + c) / w) * flatPxPerMm - 0.5
      let fy = ((d * px + e * py + f) / w) * flatPxPerMm - 0.5
      fx = fx < 0 ? 0 : Math.min(fx, lastX)
      fy = fy < 0 ? 0 : Math.min(fy, lastY)
      const x0 = fx | 0
      const y0 = fy | 0
      const tx = fx - x0
      const ty = fy - y0
      const at = y0 * stride + x0 * 4
      const w00 = (1 - tx) * (1 - ty)
      const w10 = tx * (1 - ty)
      const w01 = (1 - tx) * ty
      const w11 = tx * ty
      const u = x / width - 0.5
      let shade = light.level + light.slopeX * u + light.slopeY * v - light.vignette * (u * u + v * v)
      if (light.relief > 0) {
        const sx = (fx / flatPxPerMm) * 14
        const sy = (fy / flatPxPerMm) * 14
        const here = soft[((sy & SIZE) << 9) | (sx & SIZE)]!
        const there = soft[((sy & SIZE) << 9) | ((sx + reliefStep) & SIZE)]!
        shade *= 1 + (there - here) * relief * flatPxPerMm
      }
      const noise = grain[(((y + grainY) & SIZE) << 9) | ((x + grainX) & SIZE)]! * light.noise
      const place = (y * width + x) * 4
      for (let channel = 0; channel < 3; channel++) {
        const p = at + channel
        const value = data[p]! * w00 + data[p + 4]! * w10 + data[p + stride]! * w01 + data[p + stride + 4]! * w11
        const chroma = grain[(((x + channel * 57) & SIZE) << 9) | ((y + grainX) & SIZE)]! * light.noise * 0.5
        out[place + channel] = value * shade * light.tint[channel]! + noise + chroma
      }
      out[place + 3] = 255
    }
  }
  pen.putImageData(image, 0, 0)
  return canvas
}

interface Light {
  readonly level: number
  readonly slopeX: number
  readonly slopeY: number
  readonly vignette: number
  readonly tint: readonly [number, number, number]
  /** Grey levels. */
  readonly noise: number
  /** How strongly the surface's relief shows; 0 under diffuse light. */
  readonly relief: number
}

function lightOf(shot: Shot): Light {
  const random = createRandom(shot.seed * 5 + 1)
  if (shot.view === 'raking-light') {
    const side = random() < 0.5 ? -1 : 1
    return {
      level: 0.78,
      slopeX: side * 0.75,
      slopeY: 0.15,
      vignette: 0.3,
      tint: [1.03, 1, 0.93],
      noise: 4,
      relief: 0.55,
    }
  }
  if (shot.background === 'scanner') {
    return { level: 1.01, slopeX: 0, slopeY: -0.02, vignette: 0, tint: [1, 1, 1.005], noise: 1.2, relief: 0 }
  }
  const warm = between(random, -1, 1)
  return {
    level: between(random, 0.98, 1.08),
    slopeX: between(random, -0.22, 0.22),
    slopeY: between(random, -0.28, 0.05),
    vignette: between(random, 0.1, 0.32),
    tint: [1 + warm * 0.03, 1, 1 - warm * 0.045],
    noise: 2.4 + shot.tilt * 1.6,
    relief: 0,
  }
}
