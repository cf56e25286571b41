/**
 * What lies on either side of a quadrilateral's outline: the table, paper, the table seen through plastic. It tells a cut edge
 * (table outside, card inside) from a printed frame (paper outside) and from a holder (the table on both sides).
 */
import type { Point } from '../../domain/photo-facts.ts'
import type { Four } from './find-quads.ts'
import type { WorkingPicture } from './working-picture.ts'

export type Colour = readonly [luma: number, blue: number, red: number]

export interface Sides {
  /** Share of places just outside whose colour also lies along the photo's rim, seen through plastic or not. */
  readonly onTable: number
  /** Share of places just inside that could be what lies outside, seen through clear or frosted plastic. */
  readonly seeThrough: number
  /** Median difference of colour across the outline, levels. */
  readonly contrast: number
  /** Median colour just outside and just inside. */
  readonly outside: Colour
  readonly inside: Colour
}

const PLACES = 14
// Offsets across the outline, px of the working picture: past the blur of the edge, and not far into what lies beyond.
const OFFSETS = [3.5, 5.5]
// Two places of one table differ by up to this, levels; light falls off over a photo, hence luma counts less. Ours.
const SAME_TABLE = 20
const LEAST_RIM_SHARE = 0.04

export const colourDistance = (a: Colour, b: Colour) =>
  Math.sqrt(0.6 * (a[0] - b[0]) ** 2 + 2 * ((a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2))

export function colourAt({ width, height, luma, blue, red }: WorkingPicture, x: number, y: number): Colour | null {
  const [px, py] = [Math.floor(x), Math.floor(y)]
  if (px < 0 || py < 0 || px >= width || py >= height) return null
  const at = py * width + px
  return [luma[at] as number, blue[at] as number, red[at] as number]
}

/** Colours along the photo's rim, as a judge of whether a place may be the table. */
export function createRim(picture: WorkingPicture): (colour: Colour) => boolean {
  const { width, height } = picture
  const samples: Colour[] = []
  const add = (x: number, y: number) => {
    const colour = colourAt(picture, x, y)
    if (colour) samples.push(colour)
  }
  for (const inset of [2, 6, 11]) {
    for (let x = inset; x < width - inset; x += 7) {
      add(x, inset)
      add(x, height - 1 - inset)
    }
    for (let y = inset; y < height - inset; y += 7) {
      add(inset, y)
      add(width - 1 - inset, y)
    }
  }
  return (colour) => {
    let near = 0
    const needed = LEAST_RIM_SHARE * samples.length
    for (const sample of samples) {
      if (colourDistance(sample, colour) < SAME_TABLE || isThrough(colour, sample)) near++
      if (near > needed) return true
    }
    return false
  }
}

/**
 * Whether `inside` may be `outside` seen through plastic: plastic lays white over it, so that it grows lighter and paler, never more
 * coloured. Up to a third of the light may be the plastic's own. Ours, from how frosted acrylic looks; no source.
 */
export function isThrough(inside: Colour, outside: Colour): boolean {
  const lift = inside[0] - outside[0]
  if (lift < -14 || lift > 10 + 0.34 * (255 - outside[0])) return false
  const veil = Math.max(0, lift) / Math.max(30, 250 - outside[0])
  const keep = 1 - veil
  return (
    Math.hypot(inside[1] - keep * outside[1], inside[2] - keep * outside[2]) <
    5.5 + 0.12 * Math.hypot(outside[1], outside[2])
  )
}

export function compareSides(picture: WorkingPicture, corners: Four, isRim: (colour: Colour) => boolean): Sides {
  let [table, through, count] = [0, 0, 0]
  const differences: number[] = []
  const [outs, ins]: [Colour[], Colour[]] = [[], []]
  for (let i = 0; i < 4; i++) {
    const [a, b] = [corners[i], corners[(i + 1) % 4]] as [Point, Point]
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    const [nx, ny] = [(b[1] - a[1]) / length, -(b[0] - a[0]) / length]
    for (let k = 0; k < PLACES; k++) {
      const t = 0.08 + (0.84 * k) / (PLACES - 1)
      const [x, y] = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]
      for (const offset of OFFSETS) {
        const out = colourAt(picture, x + nx * offset, y + ny * offset)
        const inn = colourAt(picture, x - nx * offset, y - ny * offset)
        if (!out || !inn) continue
        count++
        outs.push(out)
        ins.push(inn)
        differences.push(colourDistance(out, inn))
        if (isRim(out)) table++
        if (isThrough(inn, out)) through++
      }
    }
  }
  const middle = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1] ?? 0
  const medianColour = (colours: Colour[]): Colour =>
    [0, 1, 2].map((c) => middle(colours.map((v) => v[c] as number))) as never
  return {
    onTable: count === 0 ? 0 : table / count,
    seeThrough: count === 0 ? 0 : through / count,
    contrast: middle(differences),
    outside: medianColour(outs),
    inside: medianColour(ins),
  }
}
