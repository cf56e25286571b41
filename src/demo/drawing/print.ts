/**
 * Puts ink on paper: a tone layer through four halftone screens, a line layer as solid ink, on paper with grain.
 * `re-screened` sends the type through the screens too, as a copy made from a photo of a card does.
 */
import { newCanvas, type Pen } from './pen.ts'
import { noiseTile, TILE } from './random.ts'

export interface PrintJob {
  /** Size of the printed sheet in mm and where its top left lies on the card, for parts of a card. */
  readonly region: { readonly x: number; readonly y: number; readonly width: number; readonly height: number }
  readonly pxPerMm: number
  readonly paper: readonly [number, number, number]
  readonly cellsPerMm: number
  readonly printing: 'original' | 're-screened'
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
    if (job.printing === 're-screened') job.drawLines(pen)
  })
  const lines = layer(job, width, height, '#ffffff', (pen) => {
    if (job.printing === 'original') job.drawLines(pen)
  })
  const sheet = newCanvas(width, height)
  const pen = sheet.getContext('2d')
  const image = pen.createImageData(width, height)
  ink(job, tone, lines, image.data, width, height)
  pen.putImageData(image, 0, 0)
  return sheet
}

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
  if (job.printing === 're-screened') pen.filter = `blur(${0.05 * job.pxPerMm}px)`
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
    const a = ((angle + (copied ? 4 : 0)) * Math.PI) / 180
    const k = (cells * STEPS) / job.pxPerMm
    return [Math.cos(a) * k, Math.sin(a) * k] as const
  })
  const offset = job.region
  const paper = copied ? ([244, 241, 233] as const) : job.paper
  const amounts = [0, 0, 0, 0]
  for (let y = 0; y < height; y++) {
    const cardY = y + offset.y * job.pxPerMm
    for (let x = 0; x < width; x++) {
      const cardX = x + offset.x * job.pxPerMm
      const at = (y * width + x) * 4
      const c = 1 - tone[at]! / 255
      const m = 1 - tone[at + 1]! / 255
      const z = 1 - tone[at + 2]! / 255
      const k = Math.max(0, Math.min(c, m, z) - 0.2) * 0.9
      amounts[0] = (c - k) * 0.98
      amounts[1] = (m - k) * (copied ? 1.04 : 0.96)
      amounts[2] = (z - k) * 0.94
      amounts[3] = k
      const tileAt = (((cardY * toTile) & (TILE - 1)) << 9) | ((cardX * toTile) & (TILE - 1))
      const fibre =
        1 +
        grain[tileAt]! * 0.022 +
        blotch[(((cardY * toTile * 0.2) & 511) << 9) | ((cardX * toTile * 0.2) & 511)]! * 0.018
      let red = paper[0] * fibre
      let green = paper[1] * fibre
      let blue = paper[2] * (fibre + (fibre - 1) * 0.5)
      for (let n = 0; n < 4; n++) {
        let amount = amounts[n]!
        if (amount <= 0.012) continue
        amount = Math.min(1, amount + gain * 4 * amount * (1 - amount))
        if (screened && amount < 0.985) {
          const [tx, ty] = turns[n]!
          const u = (cardX * tx + cardY * ty) & (STEPS - 1)
          const v = (cardY * tx - cardX * ty) & (STEPS - 1)
          const below = BELOW[((WAVE[u]! + WAVE[v]! + 2) * 127.99) | 0]!
          amount = (below - (1 - amount)) / soft + 0.5
          amount = amount < 0 ? 0 : Math.min(amount, 1)
        }
        // Ink sits unevenly on uncoated board.
        const film = amount * (0.965 + grain[(tileAt * 7) & (TILE * TILE - 1)]! * 0.05)
        const pass = INKS[n]!.pass
        red *= 1 - film * (1 - pass[0])
        green *= 1 - film * (1 - pass[1])
        blue *= 1 - film * (1 - pass[2])
      }
      const wet = 1 - (grain[(tileAt * 3) & (TILE * TILE - 1)]! + 0.4) * 0.05
      out[at] = red * (1 - (1 - lines[at]! / 255) * wet)
      out[at + 1] = green * (1 - (1 - lines[at + 1]! / 255) * wet)
      out[at + 2] = blue * (1 - (1 - lines[at + 2]! / 255) * wet)
      out[at + 3] = 255
    }
  }
}
