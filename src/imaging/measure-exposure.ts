/**
 * Whether a photo is too dark to be judged, or burnt out. A white background is not burnt out: clipped areas that touch
 * the photo's border are taken for background and left out.
 */
import type { Grey } from './pixels.ts'
import { shrink } from './pixels.ts'

export interface Exposure {
  /** The level that 95 % of the photo lie below, 0–255. */
  readonly brightest: number
  /** Share of the photo inside its background that is clipped to white, 0–1. */
  readonly burntOut: number
}

const WORKING_SIDE = 256
// Decoders and JPEG leave clipped white a little below 255. Ours.
const CLIPPED = 252

export function measureExposure(grey: Grey): Exposure {
  const small = shrink(grey, WORKING_SIDE, WORKING_SIDE)
  const sorted = Float32Array.from(small.data).sort()
  const background = floodFromBorder(small)
  let inside = 0
  let clipped = 0
  for (let i = 0; i < small.data.length; i++) {
    if (background[i] === 1) continue
    inside++
    if ((small.data[i] as number) >= CLIPPED) clipped++
  }
  return {
    brightest: sorted[Math.floor(0.95 * (sorted.length - 1))] as number,
    burntOut: inside === 0 ? 0 : clipped / inside,
  }
}

function floodFromBorder({ width, height, data }: Grey): Uint8Array {
  const reached = new Uint8Array(width * height)
  const open: number[] = []
  const visit = (at: number) => {
    if (reached[at] === 1 || (data[at] as number) < CLIPPED) return
    reached[at] = 1
    open.push(at)
  }
  for (let x = 0; x < width; x++) {
    visit(x)
    visit((height - 1) * width + x)
  }
  for (let y = 0; y < height; y++) {
    visit(y * width)
    visit(y * width + width - 1)
  }
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const x = at % width
    if (x > 0) visit(at - 1)
    if (x < width - 1) visit(at + 1)
    if (at >= width) visit(at - width)
    if (at < (height - 1) * width) visit(at + width)
  }
  return reached
}
