/**
 * Whether two pictures are one photo, changed – or two photos that look alike, such as of two copies of one design. Lays one over
 * the other as exactly as it goes and looks whether everything falls into place, the unprinted parts too. Says "same" only on
 * strong evidence; a likeness without it is for the person to look at.
 */

import type { Turn } from '../pdq.ts'
import { type Grey, shrink } from '../pixels.ts'
import type { Window } from './describe-photo.ts'

export interface Likeness {
  readonly same: boolean
  /** Part of the blocks with structure that fall into place, 0–1. */
  readonly agreeing: number
  /** Correlation of the fine texture where there is hardly any structure: noise, paper, cloth; lower quartile over blocks. */
  readonly texture: number | null
  /** Blocks that were compared. */
  readonly blocks: number
}

/** What the matching fingerprints stand for: `turn` makes the first like the second; the windows, after it, are where they match. */
export interface Hint {
  readonly turn: Turn
  readonly here: Window
  readonly there: Window
}

/** From parts of the first picture's sides to parts of the second's: u' = a·u + b·v + c, v' = d·u + e·v + f. */
type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number]

// Pixels of the longer side: at the coarsest a misfit of 2.5 % is one pixel.
const LEVELS = [48, 96, 192] as const
// Where it is judged: half a millimetre on a card is three pixels, and the texture of paper and noise is still there.
const JUDGED_AT = 384
const STEPS_PER_LEVEL = 12

/** A photo made ready for being compared with several. */
export interface PreparedPhoto {
  readonly levels: readonly Grey[]
  readonly fine: Grey
}

export function preparePhoto(grey: Grey, how: Turn = 'upright'): PreparedPhoto {
  const fine = turn(shrinkTo(grey, JUDGED_AT), how)
  return { levels: LEVELS.map((side) => shrinkTo(fine, side)), fine }
}

/** @param here already turned as the hint says */
export function compareForSamePhoto(
  here: PreparedPhoto,
  there: PreparedPhoto,
  { here: from, there: to }: Hint,
): Likeness {
  const [scaleX, scaleY] = [to.width / from.width, to.height / from.height]
  let map: Affine = [scaleX, 0, to.left - scaleX * from.left, 0, scaleY, to.top - scaleY * from.top]
  here.levels.forEach((level, i) => {
    map = align(level, there.levels[i]!, map)
  })
  return judge(here.fine, there.fine, map)
}

function shrinkTo(grey: Grey, side: number): Grey {
  const by = Math.min(1, side / Math.max(grey.width, grey.height))
  return shrink(grey, Math.max(8, Math.round(grey.width * by)), Math.max(8, Math.round(grey.height * by)))
}

/** Mirrored first, then turned clockwise. */
export function turn(grey: Grey, how: Turn): Grey {
  const mirrored = how.startsWith('mirrored')
  const quarters = how.endsWith('three-quarters') ? 3 : how.endsWith('quarter') ? 1 : how.endsWith('half') ? 2 : 0
  const swap = quarters % 2 === 1
  const [width, height] = swap ? [grey.height, grey.width] : [grey.width, grey.height]
  const data = new Float32Array(width * height)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let [fx, fy] = [x, y]
      if (quarters === 1) [fx, fy] = [y, grey.height - 1 - x]
      else if (quarters === 2) [fx, fy] = [grey.width - 1 - x, grey.height - 1 - y]
      else if (quarters === 3) [fx, fy] = [grey.width - 1 - y, x]
      if (mirrored) fx = grey.width - 1 - fx
      data[y * width + x] = grey.data[fy * grey.width + fx] as number
    }
  }
  return { width, height, data }
}

/** Gauss–Newton on brightness (Lucas and Kanade 1981), gain and offset taken out, large residuals held down (Huber). */
function align(a: Grey, b: Grey, start: Affine): Affine {
  let map = start
  for (let step = 0; step < STEPS_PER_LEVEL; step++) {
    const next = improve(a, b, map)
    if (next === null) return map
    const moved = Math.max(...next.map((value, i) => Math.abs(value - map[i]!)))
    map = next
    if (moved * Math.max(b.width, b.height) < 0.01) break
  }
  return map
}

function improve(a: Grey, b: Grey, map: Affine): Affine | null {
  const n = a.width * a.height
  const values = new Float32Array(n).fill(Number.NaN)
  const [gradientX, gradientY] = [new Float32Array(n), new Float32Array(n)]
  let [sumA, sumB, squareA, squareB, count] = [0, 0, 0, 0, 0]
  for (let y = 0, i = 0; y < a.height; y++) {
    for (let x = 0; x < a.width; x++, i++) {
      const [px, py] = apply(map, (x + 0.5) / a.width, (y + 0.5) / a.height, b)
      if (px < 1 || py < 1 || px >= b.width - 2 || py >= b.height - 2) continue
      const value = sample(b, px, py)
      values[i] = value
      gradientX[i] = (sample(b, px + 1, py) - sample(b, px - 1, py)) / 2
      gradientY[i] = (sample(b, px, py + 1) - sample(b, px, py - 1)) / 2
      const other = a.data[i]!
      sumA += other
      sumB += value
      squareA += other * other
      squareB += value * value
      count++
    }
  }
  if (count < n / 4) return null
  const [meanA, meanB] = [sumA / count, sumB / count]
  const gain = Math.sqrt((squareA / count - meanA ** 2) / Math.max(1e-6, squareB / count - meanB ** 2))
  const spread = Math.sqrt(squareA / count - meanA ** 2)
  const matrix = Array.from({ length: 6 }, () => new Float64Array(7))
  for (let y = 0, i = 0; y < a.height; y++) {
    for (let x = 0; x < a.width; x++, i++) {
      if (Number.isNaN(values[i]!)) continue
      const residual = a.data[i]! - meanA - gain * (values[i]! - meanB)
      const weight = Math.min(1, (0.5 * spread) / Math.max(1e-6, Math.abs(residual)))
      const [u, v] = [(x + 0.5) / a.width, (y + 0.5) / a.height]
      const gx = gain * gradientX[i]! * b.width
      const gy = gain * gradientY[i]! * b.height
      const row = [gx * u, gx * v, gx, gy * u, gy * v, gy]
      for (let r = 0; r < 6; r++) {
        const weighted = weight * row[r]!
        const to = matrix[r]!
        for (let c = 0; c < 6; c++) to[c]! += weighted * row[c]!
        to[6]! += weighted * residual
      }
    }
  }
  const change = solve(matrix)
  return change && (map.map((value, i) => value + change[i]!) as unknown as Affine)
}

const apply = (m: Affine, u: number, v: number, b: Grey): [number, number] => [
  (m[0] * u + m[1] * v + m[2]) * b.width - 0.5,
  (m[3] * u + m[4] * v + m[5]) * b.height - 0.5,
]

function sample({ width, height, data }: Grey, x: number, y: number): number {
  const x0 = Math.max(0, Math.min(width - 2, Math.floor(x)))
  const y0 = Math.max(0, Math.min(height - 2, Math.floor(y)))
  const [dx, dy] = [x - x0, y - y0]
  const at = y0 * width + x0
  return (
    (data[at]! * (1 - dx) + data[at + 1]! * dx) * (1 - dy) +
    (data[at + width]! * (1 - dx) + data[at + width + 1]! * dx) * dy
  )
}

/** Gauss with pivoting; `null` where the picture says too little to be laid anywhere. */
function solve(matrix: Float64Array[]): number[] | null {
  const n = matrix.length
  for (let k = 0; k < n; k++) {
    let pivot = k
    for (let r = k + 1; r < n; r++) if (Math.abs(matrix[r]![k]!) > Math.abs(matrix[pivot]![k]!)) pivot = r
    if (Math.abs(matrix[pivot]![k]!) < 1e-9) return null
    ;[matrix[k], matrix[pivot]] = [matrix[pivot]!, matrix[k]!]
    for (let r = k + 1; r < n; r++) {
      const factor = matrix[r]![k]! / matrix[k]![k]!
      for (let c = k; c <= n; c++) matrix[r]![c]! -= factor * matrix[k]![c]!
    }
  }
  const solution = new Array<number>(n).fill(0)
  for (let k = n - 1; k >= 0; k--) {
    let sum = matrix[k]![n]!
    for (let c = k + 1; c < n; c++) sum -= matrix[k]![c]! * solution[c]!
    solution[k] = sum / matrix[k]![k]!
  }
  return solution
}

// Pixels: a block holds enough to correlate and is small enough to be on the print or beside it.
const BLOCK = 12
// Pixels of the mean that is taken away: leaves edges and texture, drops light.
const MEAN_OVER = 9
// Levels of standard deviation: from here on a block has structure; below, down to rounding, texture.
const STRUCTURE_FROM = 5
const TEXTURE_UP_TO = 3
const TEXTURE_FROM = 0.6
// Correlation from which a block falls into place.
const AGREES_FROM = 0.7

function judge(a: Grey, b: Grey, map: Affine): Likeness {
  const warped = new Float32Array(a.data.length).fill(Number.NaN)
  for (let y = 0, i = 0; y < a.height; y++) {
    for (let x = 0; x < a.width; x++, i++) {
      const [px, py] = apply(map, (x + 0.5) / a.width, (y + 0.5) / a.height, b)
      if (px >= 0 && py >= 0 && px <= b.width - 1 && py <= b.height - 1) warped[i] = sample(b, px, py)
    }
  }
  const [fineA, fineB] = [takeMeanAway(a.data, a.width, a.height), takeMeanAway(warped, a.width, a.height)]
  let [agreeing, structured] = [0, 0]
  const textures: number[] = []
  for (let y = 0; y + BLOCK <= a.height; y += BLOCK) {
    for (let x = 0; x + BLOCK <= a.width; x += BLOCK) {
      const block = correlate(fineA, fineB, a.width, x, y)
      if (block === null) continue
      if (Math.max(block.spreadA, block.spreadB) >= STRUCTURE_FROM) {
        structured++
        if (block.correlation >= AGREES_FROM) agreeing++
      } else if (isTexture(block)) textures.push(block.correlation)
    }
  }
  textures.sort((p, q) => p - q)
  const texture = textures.length < LEAST_TEXTURES ? null : textures[textures.length >> 2]!
  const share = structured === 0 ? 0 : agreeing / structured
  return { same: decide(share, structured, texture), agreeing: share, texture, blocks: structured }
}

// Blocks: fewer say nothing.
const LEAST_BLOCKS = 40
const LEAST_TEXTURES = 30
// From the experiment (`npm run bench -- fingerprints`): the texture of one photo, saved again at JPEG quality 30 or shrunk to a third,
// still correlated by .25 and more at its lower quartile, that of two copies by .01 and less. A mark across a photo covers a fifth.
const SAME_TEXTURE_FROM = 0.15
const SAME_STRUCTURE_FROM = 0.75

function isTexture({ spreadA, spreadB }: { spreadA: number; spreadB: number }): boolean {
  return Math.min(spreadA, spreadB) >= TEXTURE_FROM && Math.max(spreadA, spreadB) < TEXTURE_UP_TO
}

function decide(agreeing: number, structured: number, texture: number | null): boolean {
  if (structured < LEAST_BLOCKS || texture === null) return false
  return agreeing >= SAME_STRUCTURE_FROM && texture >= SAME_TEXTURE_FROM
}

/** Values less the mean around them; not a number where any of them is unknown. */
function takeMeanAway(data: Float32Array, width: number, height: number): Float32Array {
  const half = MEAN_OVER >> 1
  const rows = new Float32Array(data.length)
  const result = new Float32Array(data.length)
  const mean = (from: Float32Array, start: number, stride: number, n: number, to: Float32Array) => {
    for (let i = 0; i < n; i++) {
      let sum = 0
      let count = 0
      for (let k = Math.max(0, i - half); k <= Math.min(n - 1, i + half); k++) {
        sum += from[start + k * stride]!
        count++
      }
      to[start + i * stride] = sum / count
    }
  }
  for (let y = 0; y < height; y++) mean(data, y * width, 1, width, rows)
  for (let x = 0; x < width; x++) mean(rows, x, width, height, result)
  for (let i = 0; i < data.length; i++) result[i] = data[i]! - result[i]!
  return result
}

function correlate(a: Float32Array, b: Float32Array, width: number, left: number, top: number) {
  let [sumA, sumB, squareA, squareB, product] = [0, 0, 0, 0, 0]
  for (let y = top; y < top + BLOCK; y++) {
    for (let x = left; x < left + BLOCK; x++) {
      const [p, q] = [a[y * width + x]!, b[y * width + x]!]
      if (Number.isNaN(q) || Number.isNaN(p)) return null
      sumA += p
      sumB += q
      squareA += p * p
      squareB += q * q
      product += p * q
    }
  }
  const n = BLOCK * BLOCK
  const varianceA = Math.max(0, squareA / n - (sumA / n) ** 2)
  const varianceB = Math.max(0, squareB / n - (sumB / n) ** 2)
  const covariance = product / n - (sumA / n) * (sumB / n)
  const both = Math.sqrt(varianceA * varianceB)
  return {
    spreadA: Math.sqrt(varianceA),
    spreadB: Math.sqrt(varianceB),
    correlation: both < 1e-9 ? 0 : covariance / both,
  }
}
