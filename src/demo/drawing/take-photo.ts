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
  const { level, slopeX, slopeY, vignette, noise, relief } = light
  const [tintRed, tintGreen, tintBlue] = light.tint
  const toRelief = 14 / flatPxPerMm
  const reliefStep = Math.max(1, Math.round(flatPxPerMm * 0.12))
  for (let y = 0; y < height; y++) {
    const v = y / height - 0.5
    const py = y + 0.5
    const grainRow = ((y + grainY) & SIZE) << 9
    const colourRow = ((y * 3 + grainX) & SIZE) << 9
    const rowShade = level + slopeY * v - vignette * v * v
    let place = y * width * 4
    for (let x = 0; x < width; x++, place += 4) {
      const px = x + 0.5
      const scale = flatPxPerMm / (g * px + h * py + 1)
      let fx = (a * px + b * py + c) * scale - 0.5
      let fy = (d * px + e * py + f) * scale - 0.5
      fx = fx < 0 ? 0 : Math.min(fx, lastX)
      fy = fy < 0 ? 0 : Math.min(fy, lastY)
      const x0 = fx | 0
      const y0 = fy | 0
      const tx = fx - x0
      const ty = fy - y0
      const at = y0 * stride + x0 * 4
      const below = at + stride
      const w11 = tx * ty
      const w10 = tx - w11
      const w01 = ty - w11
      const w00 = 1 - tx - w01
      const u = x / width - 0.5
      let shade = rowShade + slopeX * u - vignette * u * u
      if (relief > 0) {
        const reliefRow = ((fy * toRelief) & SIZE) << 9
        const sx = fx * toRelief
        shade *= 1 + (soft[reliefRow | ((sx + reliefStep) & SIZE)]! - soft[reliefRow | (sx & SIZE)]!) * relief
      }
      const bright = grain[grainRow | ((x + grainX) & SIZE)]! * noise
      const colour = grain[colourRow | (x & SIZE)]! * noise * 0.5
      out[place] =
        (data[at]! * w00 + data[at + 4]! * w10 + data[below]! * w01 + data[below + 4]! * w11) * shade * tintRed +
        bright +
        colour
      out[place + 1] =
        (data[at + 1]! * w00 + data[at + 5]! * w10 + data[below + 1]! * w01 + data[below + 5]! * w11) *
          shade *
          tintGreen +
        bright -
        colour * 0.4
      out[place + 2] =
        (data[at + 2]! * w00 + data[at + 6]! * w10 + data[below + 2]! * w01 + data[below + 6]! * w11) *
          shade *
          tintBlue +
        bright -
        colour
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
      relief: 0.4,
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
