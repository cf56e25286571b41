/** What lies under the card: wood, felt, linen, slate, board, a scanner's lid. Drawn once a kind and cut from a large sheet. */
import type { Canvas } from '@napi-rs/canvas'
import { newCanvas, type Pen } from './pen.ts'
import { createRandom, noiseTile, TILE } from './random.ts'
import type { Background } from './shot.ts'

const SHEET = { width: 1400, height: 1500 } as const
/** Pixels a mm of the sheets. */
const SCALE = 5

type Colour = readonly [number, number, number]
type Paint = (x: number, y: number) => Colour

const WOODS: Readonly<Record<'oak' | 'walnut', readonly [dark: Colour, light: Colour, seam: Colour]>> = {
  oak: [
    [140, 100, 62],
    [205, 165, 116],
    [78, 52, 30],
  ],
  walnut: [
    [58, 36, 25],
    [118, 78, 52],
    [28, 17, 12],
  ],
}

function mix(a: Colour, b: Colour, part: number): Colour {
  const t = part < 0 ? 0 : Math.min(part, 1)
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t]
}

function at(tile: Float32Array, x: number, y: number): number {
  return tile[((y & (TILE - 1)) << 9) | (x & (TILE - 1))]!
}

function wood(kind: 'oak' | 'walnut'): Paint {
  const [dark, light, seam] = WOODS[kind]
  const warp = noiseTile(21, [[4, 3, 1]])
  const grain = noiseTile(22, [
    [3, 64, 0.6],
    [6, 170, 0.5],
    [24, 256, 0.35],
  ])
  const pores = noiseTile(23, [[20, 256, 1]])
  return (x, y) => {
    const plank = Math.floor(y / 470)
    const along = x + plank * 217
    const across = y + at(warp, along * 0.4, y * 0.4) * 26
    const rings = Math.sin(across * 0.055 + at(warp, along * 0.25, across * 0.25) * 5) * 0.24
    const value = 0.52 + rings + at(grain, along * 0.35, across * 0.8) * 0.42 + (plank % 2 ? 0.08 : -0.04)
    const colour = mix(dark, light, value)
    if (at(pores, along * 0.6, y) > 0.62) return mix(colour, dark, 0.5)
    const gap = y % 470
    return gap < 5 ? mix(seam, colour, Math.abs(gap - 2.5) / 4) : colour
  }
}

function cloth(base: Colour): Paint {
  const fibres = noiseTile(31, [
    [256, 256, 0.7],
    [190, 90, 0.5],
    [90, 200, 0.5],
  ])
  const folds = noiseTile(32, [
    [5, 4, 0.7],
    [14, 12, 0.4],
  ])
  return (x, y) => {
    const lift = 1 + at(fibres, x * 1.3, y * 1.3) * 0.2 + at(folds, x * 0.5, y * 0.5) * 0.08
    return [base[0] * lift, base[1] * lift, base[2] * lift]
  }
}

const PAINTS: Readonly<Record<Background, () => Paint>> = {
  oak: () => wood('oak'),
  walnut: () => wood('walnut'),
  'felt-green': () => cloth([44, 82, 62]),
  'felt-grey': () => cloth([104, 108, 112]),
  scanner: () => (_x, y) => {
    const tone = 246 - (y / SHEET.height) * 5
    return [tone, tone, tone - 1]
  },
  linen: () => {
    const rough = noiseTile(41, [
      [64, 256, 0.6],
      [256, 64, 0.6],
    ])
    const folds = noiseTile(42, [[4, 4, 1]])
    return (x, y) => {
      const weave = Math.sin(x * 1.45) * 0.5 + Math.sin(y * 1.45) * 0.5 + Math.sin((x + y) * 0.72) * 0.2
      const lift = 1 + weave * 0.045 + at(rough, x, y) * 0.09 + at(folds, x * 0.4, y * 0.4) * 0.05
      return [214 * lift, 204 * lift, 184 * lift]
    }
  },
  slate: () => {
    const cleft = noiseTile(51, [
      [7, 9, 0.8],
      [30, 40, 0.5],
      [200, 220, 0.35],
    ])
    return (x, y) => {
      const lift = 1 + at(cleft, x * 0.6, y * 0.6) * 0.24
      return [66 * lift, 72 * lift, 78 * lift]
    }
  },
  kraft: () => {
    const fibre = noiseTile(61, [
      [60, 256, 0.6],
      [220, 120, 0.5],
      [8, 8, 0.3],
    ])
    return (x, y) => {
      const value = at(fibre, x, y)
      const lift = 1 + value * 0.1
      return value > 0.7 ? [150, 112, 72] : [186 * lift, 148 * lift, 104 * lift]
    }
  },
}

const sheets = new Map<Background, Canvas>()

function sheetOf(background: Background): Canvas {
  const known = sheets.get(background)
  if (known) return known
  const canvas = newCanvas(SHEET.width, SHEET.height)
  const pen = canvas.getContext('2d')
  const image = pen.createImageData(SHEET.width, SHEET.height)
  const paint = PAINTS[background]()
  for (let y = 0; y < SHEET.height; y++) {
    for (let x = 0; x < SHEET.width; x++) {
      const [red, green, blue] = paint(x, y)
      const place = (y * SHEET.width + x) * 4
      image.data[place] = red
      image.data[place + 1] = green
      image.data[place + 2] = blue
      image.data[place + 3] = 255
    }
  }
  pen.putImageData(image, 0, 0)
  sheets.set(background, canvas)
  return canvas
}

/** Fills `width` × `height` mm from the pen's origin. Small fields show the sheet enlarged, as a near lens would. */
export function fillBackground(pen: Pen, background: Background, width: number, height: number, seed: number): void {
  const sheet = sheetOf(background)
  const random = createRandom(seed + 77)
  const wide = Math.min(SHEET.width, Math.max(width * SCALE, 60))
  const high = Math.min(SHEET.height, Math.max(height * SCALE, 60))
  const fit = Math.min(wide / width, high / height)
  const left = random() * (SHEET.width - width * fit)
  const top = random() * (SHEET.height - height * fit)
  pen.imageSmoothingEnabled = true
  pen.imageSmoothingQuality = 'high'
  pen.drawImage(sheet, left, top, width * fit, height * fit, 0, 0, width, height)
}
