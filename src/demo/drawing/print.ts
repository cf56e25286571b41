/**
 * Puts ink on paper: a tone layer through four halftone screens, a line layer as solid ink, on paper with grain.
 * `re-screened` sends the type through the screens too, as a copy made from a photo of a card does.
 */
import { newCanvas, type Pen } from './pen.ts'
import { noiseTile, TILE } from './random.ts'
import type { Printing } from './shot.ts'

export interface PrintJob {
  /** Size of the printed sheet in mm and where its top left lies on the card, for parts of a card. */
  readonly region: { readonly x: number; readonly y: number; readonly width: number; readonly height: number }
  readonly pxPerMm: number
  readonly paper: readonly [number, number, number]
  readonly cellsPerMm: number
  readonly inkStrength: number
  readonly printing: Printing
  readonly seed: number
  readonly drawTone: (pen: Pen) => void
  readonly drawLines: (pen: Pen) => void
}

// Transmission of each ink for red, green and blue; chosen by eye for worn letterpress and offset colours.
const INKS = [
  { angle: 15, pass: [0.18, 0.68, 0.84] },
  { angle: 75, pass: [0.89, 0.24, 0.42] },
  { angle: 0, pass: [0.99, 0.9, 0.26] },
  { angle: 45, pass: [0.17, 0.16, 0.17] },
] as const

const STEPS = 1024
const LAST_STEP = STEPS - 1
const LAST = TILE - 1
const LAST_OF_TILE = TILE * TILE - 1
const PART = 1 / 255
const WAVE = Float32Array.from({ length: STEPS }, (_, step) => Math.cos((2 * Math.PI * step) / STEPS))

/** How much of a cell lies below each height of the spot function, so that a tone of 30 % inks 30 % of the paper. */
const BELOW = (() => {
  const counts = new Float64Array(513)
  for (let a = 0; a < 256; a++) {
    for (let b = 0; b < 256; b++) {
      counts[Math.floor(((WAVE[a * 4]! + WAVE[b * 4]! + 2) / 4) * 511.999)]! += 1
    }
  }
  const sums = new Float32Array(513)
  let sum = 0
  for (let place = 0; place < 513; place++) {
    sum += counts[place]!
    sums[place] = sum / 65_536
  }
  return sums
})()

/** Below this many pixels a cell a screen cannot be shown without beats; plain tone is drawn instead. */
const FEWEST_PX_PER_CELL = 2.4

/** An opaque canvas of `region.width × pxPerMm` by `region.height × pxPerMm`. */
export function printSheet(job: PrintJob) {
  const { region, pxPerMm } = job
  const width = Math.max(1, Math.round(region.width * pxPerMm))
  const height = Math.max(1, Math.round(region.height * pxPerMm))
  const tone = layer(job, width, height, '#ffffff', (pen) => {
    job.drawTone(pen)
    if (isFromPhoto(job)) job.drawLines(pen)
  })
  const lines = layer(job, width, height, '#ffffff', (pen) => {
    if (isFromPhoto(job)) return
    if (job.printing === 'thick-type') spread(pen, job.drawLines)
    else job.drawLines(pen)
  })
  const sheet = newCanvas(width, height)
  const pen = sheet.getContext('2d')
  const image = pen.createImageData(width, height)
  ink(job, tone, lines, image.data, width, height)
  pen.putImageData(image, 0, 0)
  return sheet
}

/** A copy made from a photo of a card has no line layer of its own. */
function isFromPhoto({ printing }: PrintJob): boolean {
  return printing === 're-screened' || printing === 'ink-jet'
}

const PLATE_GREW_MM = 0.085

/** The line work drawn all round itself: every stroke wider, every counter narrower. */
function spread(pen: Pen, draw: (pen: Pen) => void): void {
  for (let turn = 0; turn < 12; turn++) {
    const angle = (turn * Math.PI) / 6
    pen.save()
    pen.translate(PLATE_GREW_MM * Math.cos(angle), PLATE_GREW_MM * Math.sin(angle))
    draw(pen)
    pen.restore()
  }
}

/** Where a sprayed drop falls: a number in 0–1 by drop and ink, the same for the same drop. */
function dropAt(x: number, y: number, ink: number): number {
  let z = (Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ (ink * 977)) | 0
  z = Math.imul(z ^ (z >>> 15), 0x2c1b3c6d)
  z = Math.imul(z ^ (z >>> 12), 0x297a2d39)
  return ((z ^ (z >>> 15)) >>> 0) / 4294967296
}

const DROPS_A_MM = 11

function layer(
  job: PrintJob,
  width: number,
  height: number,
  ground: string,
  draw: (pen: Pen) => void,
): Uint8ClampedArray {
  const canvas = newCanvas(width, height)
  const pen = canvas.getContext('2d')
  pen.fillStyle = ground
  pen.fillRect(0, 0, width, height)
  pen.scale(job.pxPerMm, job.pxPerMm)
  pen.translate(-job.region.x, -job.region.y)
  // A copy is softer than what it was made from: 0.05 mm of spread in camera and plate.
  if (isFromPhoto(job)) pen.filter = `blur(${0.05 * job.pxPerMm}px)`
  draw(pen)
  return pen.getImageData(0, 0, width, height).data
}

function ink(
  job: PrintJob,
  tone: Uint8ClampedArray,
  lines: Uint8ClampedArray,
  out: Uint8ClampedArray,
  width: number,
  height: number,
): void {
  const copied = job.printing === 're-screened'
  const sprayed = job.printing === 'ink-jet'
  const shifted = job.printing === 'shifted-tint'
  const cells = copied ? 150 / 25.4 : job.cellsPerMm
  const pxPerCell = job.pxPerMm / cells
  const screened = pxPerCell >= FEWEST_PX_PER_CELL
  const soft = Math.min(1.6, 2.1 / pxPerCell)
  const gain = copied ? 0.05 : 0.01
  const grain = noiseTile(3, [
    [128, 128, 0.5],
    [256, 170, 0.5],
    [40, 60, 0.4],
  ])
  const blotch = noiseTile(4 + (job.seed % 7), [
    [6, 6, 0.6],
    [17, 14, 0.4],
  ])
  const toTile = 30 / job.pxPerMm
  const turns = INKS.map(({ angle }) => {
    const turn = ((angle + (copied ? 4 : 0)) * Math.PI) / 180
    const steps = (cells * STEPS) / job.pxPerMm
    return [Math.cos(turn) * steps, Math.sin(turn) * steps] as const
  }) as unknown as readonly [Turn, Turn, Turn, Turn]
  const [[cx, cy], [mx, my], [yx, yy], [kx, ky]] = turns
  const [cyan, magenta, yellow, black] = INKS.map(({ pass }) => pass.map((part) => 1 - part)) as unknown as readonly [
    Stop,
    Stop,
    Stop,
    Stop,
  ]
  const strength = job.inkStrength * (shifted ? 0.8 : 1)
  const magentaGain = (copied ? 1.06 : 0.98) * (shifted ? 1.5 : 1)
  const sharp = 1 / soft

  /** The part of a pixel that one ink covers: the screen's dot, antialiased, or the plain tone. */
  let dropX = 0
  let dropY = 0
  const cover = (asked: number, u: number, v: number, ink: number): number => {
    const tone = Math.min(asked, 1)
    if (sprayed) return dropAt(dropX, dropY, ink) < tone ? 1 : 0
    const amount = tone + gain * 4 * tone * (1 - tone)
    if (!screened || amount >= 0.985) return Math.min(amount, 1)
    const below = BELOW[((WAVE[u & LAST_STEP]! + WAVE[v & LAST_STEP]! + 2) * 127.99) | 0]!
    const dot = (below - 1 + amount) * sharp + 0.5
    return dot < 0 ? 0 : Math.min(dot, 1)
  }

  const [paperRed, paperGreen, paperBlue] = copied || sprayed || shifted ? ([244, 241, 233] as const) : job.paper
  const left = job.region.x * job.pxPerMm
  for (let y = 0; y < height; y++) {
    const cardY = y + job.region.y * job.pxPerMm
    const tileRow = ((cardY * toTile) & LAST) << 9
    const blotchRow = ((cardY * toTile * 0.2) & LAST) << 9
    let at = y * width * 4
    for (let x = 0; x < width; x++, at += 4) {
      const cardX = x + left
      if (sprayed) {
        dropX = Math.floor((cardX * DROPS_A_MM) / job.pxPerMm)
        dropY = Math.floor((cardY * DROPS_A_MM) / job.pxPerMm)
      }
      const tileAt = tileRow | ((cardX * toTile) & LAST)
      const fibre = 1 + grain[tileAt]! * 0.022 + blotch[blotchRow | ((cardX * toTile * 0.2) & LAST)]! * 0.018
      let red = paperRed * fibre
      let green = paperGreen * fibre
      let blue = paperBlue * (fibre * 1.5 - 0.5)
      const c = (255 - tone[at]!) * PART
      const m = (255 - tone[at + 1]!) * PART
      const z = (255 - tone[at + 2]!) * PART
      if (c + m + z > 0.03) {
        const least = c < m ? Math.min(c, z) : Math.min(m, z)
        const k = least > 0.2 ? (least - 0.2) * 0.9 : 0
        // Ink sits unevenly on uncoated board.
        const film = 0.965 + grain[(tileAt * 7) & LAST_OF_TILE]! * 0.05
        if (c - k > 0.012) {
          const a = film * cover((c - k) * strength, cardX * cx + cardY * cy, cardY * cx - cardX * cy, 0)
          red *= 1 - a * cyan[0]
          green *= 1 - a * cyan[1]
          blue *= 1 - a * cyan[2]
        }
        if (m - k > 0.012) {
          const a = film * cover((m - k) * magentaGain * strength, cardX * mx + cardY * my, cardY * mx - cardX * my, 1)
          red *= 1 - a * magenta[0]
          green *= 1 - a * magenta[1]
          blue *= 1 - a * magenta[2]
        }
        if (z - k > 0.012) {
          const a = film * cover((z - k) * 0.95 * strength, cardX * yx + cardY * yy, cardY * yx - cardX * yy, 2)
          red *= 1 - a * yellow[0]
          green *= 1 - a * yellow[1]
          blue *= 1 - a * yellow[2]
        }
        if (k > 0.012) {
          const a = film * cover(k, cardX * kx + cardY * ky, cardY * kx - cardX * ky, 3)
          red *= 1 - a * black[0]
          green *= 1 - a * black[1]
          blue *= 1 - a * black[2]
        }
      }
      const wet = (0.98 - grain[(tileAt * 3) & LAST_OF_TILE]! * 0.05) * PART
      out[at] = red * (1 - (255 - lines[at]!) * wet)
      out[at + 1] = green * (1 - (255 - lines[at + 1]!) * wet)
      out[at + 2] = blue * (1 - (255 - lines[at + 2]!) * wet)
      out[at + 3] = 255
    }
  }
}

type Turn = readonly [alongX: number, alongY: number]
/** What an ink keeps back of red, green and blue. */
type Stop = readonly [number, number, number]
