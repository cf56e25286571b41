/**
 * All fingerprints of one photo: of the whole, turned and mirrored, without an even border, and of four windows that stand for a
 * photo cropped by a tenth. They find candidates; whether two are one photo is judged on their pixels (`compare-prints.ts`).
 */
import type { PhotoPrints } from '../../domain/photo-facts.ts'
import { fingerprint, fingerprintTurns } from '../pdq.ts'
import { type Grey, shrink } from '../pixels.ts'

/** Parts of the photo's width and height. */
export interface Window {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

export const WHOLE: Window = { left: 0, top: 0, width: 1, height: 1 }
// A crop of a tenth lies within 2.5 % of one of these on every side, which the fingerprint bears.
export const WINDOWS: readonly Window[] = [
  { left: 0.025, top: 0.025, width: 0.9, height: 0.9 },
  { left: 0.075, top: 0.025, width: 0.9, height: 0.9 },
  { left: 0.025, top: 0.075, width: 0.9, height: 0.9 },
  { left: 0.075, top: 0.075, width: 0.9, height: 0.9 },
]
// Pixels: what the fingerprint works on anyway.
const WORKING_SIDE = 512

export function describePhoto(photo: Grey): PhotoPrints & { readonly quality: number; readonly hash: string } {
  const grey = shrink(photo, WORKING_SIDE, WORKING_SIDE)
  const { hash, quality, turns } = fingerprintTurns(grey)
  const border = findEvenBorder(grey)
  return {
    hash,
    quality,
    turns: Object.values(turns).slice(1),
    windows: WINDOWS.map((window) => fingerprint(cut(grey, window)).hash),
    trimmed: border === null ? null : { ...border, hash: fingerprint(cut(grey, border)).hash },
  }
}

export function cut({ width, height, data }: Grey, window: Window): Grey {
  const x = Math.round(window.left * width)
  const y = Math.round(window.top * height)
  const w = Math.max(1, Math.min(width - x, Math.round(window.width * width)))
  const h = Math.max(1, Math.min(height - y, Math.round(window.height * height)))
  const part = new Float32Array(w * h)
  for (let row = 0; row < h; row++) part.set(data.subarray((y + row) * width + x, (y + row) * width + x + w), row * w)
  return { width: w, height: h, data: part }
}

// Levels: JPEG leaves an even border within this of its colour. Ours, tried on qualities of 30 and more.
const EVEN_WITHIN = 10
// Part of the pixels of a border's row that must be of its colour: a border may carry specks.
const EVEN_PART = 0.985
// Parts of the side: a narrower border changes nothing; what would leave less than this is no border but the picture's ground.
const LEAST_BORDER = 0.008
const LEAST_LEFT = 0.5

/** What lies inside an even border; `null` where there is none. */
export function findEvenBorder({ width, height, data }: Grey): Window | null {
  const row = (y: number) => evenColour((i) => data[y * width + i] as number, width)
  const column = (x: number) => evenColour((i) => data[i * width + x] as number, height)
  const depth = (line: (at: number) => number | null, from: number, step: number, most: number) => {
    const colour = line(from)
    if (colour === null) return 0
    let n = 1
    while (n < most) {
      const next = line(from + step * n)
      if (next === null || Math.abs(next - colour) > EVEN_WITHIN) break
      n++
    }
    return n
  }
  const top = depth(row, 0, 1, height / 2)
  const bottom = depth(row, height - 1, -1, height / 2)
  const left = depth(column, 0, 1, width / 2)
  const right = depth(column, width - 1, -1, width / 2)
  const inside = {
    left: left / width,
    top: top / height,
    width: 1 - (left + right) / width,
    height: 1 - (top + bottom) / height,
  }
  if (Math.min(inside.width, inside.height) < LEAST_LEFT) return null
  return 1 - inside.width > LEAST_BORDER || 1 - inside.height > LEAST_BORDER ? inside : null
}

/** The median of a line whose pixels are all near it, else `null`. */
function evenColour(value: (i: number) => number, length: number): number | null {
  const values = Float32Array.from({ length }, (_, i) => value(i))
  const sorted = values.slice().sort()
  const median = sorted[length >> 1] as number
  let near = 0
  for (const one of values) if (Math.abs(one - median) <= EVEN_WITHIN) near++
  return near >= length * EVEN_PART ? median : null
}
