/**
 * Whether a photo shows a halftone screen all over: in windows of its own pixels two peaks of the spectrum of like frequency at right
 * angles. Peaks at multiples of an eighth of a cycle along the axes are JPEG's blocks and are left out.
 */
import { type Grey, shrink } from '../pixels.ts'

export interface ScreenSigns {
  /** Windows with a screen, of those looked at. */
  readonly windows: number
  readonly of: number
  /** Median size of a screen cell, px of the photo. */
  readonly cellPx: number | null
}

const SIDE = 256
// Lower frequencies are the picture itself; higher ones than a cell of 2.5 px are aliases as likely as dots (measured).
const LEAST_BIN = 9
const LEAST_CELL_PX = 2.5
// A peak against the median of its ring of frequencies; random texture stays below eight. Ours.
const PROMINENCE = 10
const SECOND_PROMINENCE = 6
// Grain and weave spread over many frequencies; of one ink's dots a tenth and more of all variation is one peak. Ours.
const LEAST_CONCENTRATION = 0.045

export function findScreen(grey: Grey): ScreenSigns {
  const native = findAt(grey)
  if (native.windows >= 3 || grey.width < 2 * SIDE + 16 || grey.height < 2 * SIDE + 16) return native
  // Dots of a strong macro are larger than a fifth of a window: look again at half the size.
  const coarse = findAt(shrink(grey, grey.width >> 1, grey.height >> 1))
  return coarse.windows > native.windows ? { ...coarse, cellPx: coarse.cellPx && 2 * coarse.cellPx } : native
}

function findAt(grey: Grey): ScreenSigns {
  const places = [
    [0.5, 0.5],
    [0.28, 0.3],
    [0.72, 0.3],
    [0.28, 0.7],
    [0.72, 0.7],
  ] as const
  if (grey.width < SIDE + 8 || grey.height < SIDE + 8) return { windows: 0, of: 0, cellPx: null }
  const cells: number[] = []
  for (const [u, v] of places) {
    const left = Math.round(u * (grey.width - SIDE))
    const top = Math.round(v * (grey.height - SIDE))
    const cell = screenOf(grey, left, top)
    if (cell !== null) cells.push(cell)
  }
  cells.sort((a, b) => a - b)
  const middle = cells[cells.length >> 1] ?? null
  // One print has one ruling: windows that disagree are chance.
  const same = middle === null ? 0 : cells.filter((cell) => Math.abs(cell / middle - 1) < 0.08).length
  const harmonic = middle === null ? 0 : cells.filter((cell) => isHarmonic(cell / middle)).length
  // Three of one size, or four that are one screen's diagonals and doubles; a pair of chance is neither.
  return { windows: same >= 3 ? same : harmonic >= 4 ? harmonic : Math.min(2, same), of: places.length, cellPx: middle }
}

/** The same cell, or the diagonal or double of it, which a window may show more strongly. */
function isHarmonic(ratio: number): boolean {
  return [1, Math.SQRT2, Math.SQRT1_2, 2, 0.5].some((known) => Math.abs(ratio / known - 1) < 0.1)
}

function screenOf({ width, data }: Grey, left: number, top: number): number | null {
  const [re, im] = [new Float64Array(SIDE * SIDE), new Float64Array(SIDE * SIDE)]
  let mean = 0
  for (let y = 0; y < SIDE; y++) for (let x = 0; x < SIDE; x++) mean += data[(top + y) * width + left + x] as number
  mean /= SIDE * SIDE
  for (let y = 0; y < SIDE; y++) {
    const wy = 0.5 - 0.5 * Math.cos((2 * Math.PI * y) / (SIDE - 1))
    for (let x = 0; x < SIDE; x++) {
      const wx = 0.5 - 0.5 * Math.cos((2 * Math.PI * x) / (SIDE - 1))
      re[y * SIDE + x] = ((data[(top + y) * width + left + x] as number) - mean) * wx * wy
    }
  }
  for (let y = 0; y < SIDE; y++) transformLine(re, im, y * SIDE, 1)
  for (let x = 0; x < SIDE; x++) transformLine(re, im, x, SIDE)
  const half = SIDE / 2
  const power = new Float64Array(SIDE * half)
  const rings: number[][] = Array.from({ length: half }, () => [])
  const radiusAt = (fx: number, fy: number) => Math.hypot(fx, fy)
  // Frequencies with fy ≥ 0 suffice: the picture is real.
  for (let fy = 0; fy < half; fy++) {
    for (let x = 0; x < SIDE; x++) {
      const fx = x < half ? x : x - SIDE
      const at = fy * SIDE + x
      const value = Math.hypot(re[at] as number, im[at] as number)
      power[at] = value
      const radius = radiusAt(fx, fy)
      if (radius < half) rings[Math.floor(radius)]?.push(value)
    }
  }
  const medians = rings.map((ring) => ring.sort((a, b) => a - b)[ring.length >> 1] ?? 0)
  const highest = SIDE / LEAST_CELL_PX
  const prominence = (at: number, radius: number) =>
    (power[at] as number) / Math.max(1e-6, medians[Math.floor(radius)] as number)
  let best = { strength: 0, fx: 0, fy: 0, radius: 0 }
  const usable = (fx: number, fy: number) => {
    const radius = radiusAt(fx, fy)
    if (radius < LEAST_BIN || radius > Math.min(highest, half - 2)) return false
    const onAxis = Math.abs(fx) <= 1 || fy <= 1
    return !(onAxis && Math.abs(((radius / 32 + 0.5) % 1) - 0.5) < 0.06)
  }
  for (let fy = 0; fy < half; fy++) {
    for (let x = 0; x < SIDE; x++) {
      const fx = x < half ? x : x - SIDE
      if (!usable(fx, fy)) continue
      const radius = radiusAt(fx, fy)
      const at = fy * SIDE + x
      // Of the peaks that stand out the strongest: harmonics of sharp dots stand out as much, far from everything else.
      if (prominence(at, radius) < PROMINENCE || (power[at] as number) <= best.strength) continue
      best = { strength: power[at] as number, fx, fy, radius }
    }
  }
  if (best.strength === 0) return null
  // At the lowest frequencies looked at the strongest is often the foot of something slower: a peak falls off on both sides.
  const [sx, sy] = [Math.round(best.fx * (1 - 3 / best.radius)), Math.round(best.fy * (1 - 3 / best.radius))]
  if ((power[sy * SIDE + (sx < 0 ? sx + SIDE : sx)] as number) > 0.6 * best.strength) return null
  if (concentration(power, best.fx, best.fy) < LEAST_CONCENTRATION) return null
  // Its fellow at a right angle, within a few degrees and a tenth of the frequency.
  let second = 0
  const reach = Math.max(2, Math.round(best.radius * 0.1))
  for (const sign of [1, -1]) {
    const [cx, cy] = [-sign * best.fy, sign * best.fx]
    for (let dy = -reach; dy <= reach; dy++) {
      for (let dx = -reach; dx <= reach; dx++) {
        const [fx, fy] = [cx + dx, cy + dy]
        if (fy < 0 || fy >= half || Math.abs(fx) >= half || !usable(fx, fy)) continue
        second = Math.max(second, prominence(fy * SIDE + (fx < 0 ? fx + SIDE : fx), radiusAt(fx, fy)))
      }
    }
  }
  return second >= SECOND_PROMINENCE ? SIDE / best.radius : null
}

/** Share of all that varies faster than the picture itself which lies at one frequency. */
function concentration(power: Float64Array, fx: number, fy: number): number {
  const half = SIDE / 2
  let [all, peak] = [0, 0]
  for (let y = 0; y < half; y++) {
    for (let x = 0; x < SIDE; x++) {
      const u = x < half ? x : x - SIDE
      if (Math.hypot(u, y) < LEAST_BIN) continue
      const energy = (power[y * SIDE + x] as number) ** 2
      all += energy
      if (Math.abs(u - fx) <= 2 && Math.abs(y - fy) <= 2) peak += energy
    }
  }
  return all === 0 ? 0 : peak / all
}

/** Radix-2 transform in place (J. Cooley, J. Tukey, 1965) of SIDE values from `start` at `stride`. */
function transformLine(re: Float64Array, im: Float64Array, start: number, stride: number): void {
  for (let i = 1, j = 0; i < SIDE; i++) {
    let bit = SIDE >> 1
    for (; j & bit; bit >>= 1) j ^= bit
    j ^= bit
    if (i < j) {
      const [a, b] = [start + i * stride, start + j * stride]
      ;[re[a], re[b]] = [re[b] as number, re[a] as number]
      ;[im[a], im[b]] = [im[b] as number, im[a] as number]
    }
  }
  for (let size = 2; size <= SIDE; size <<= 1) {
    const turn = (-2 * Math.PI) / size
    const [wr, wi] = [Math.cos(turn), Math.sin(turn)]
    for (let block = 0; block < SIDE; block += size) {
      let [cr, ci] = [1, 0]
      for (let k = 0; k < size / 2; k++) {
        const a = start + (block + k) * stride
        const b = a + (size / 2) * stride
        const tr = (re[b] as number) * cr - (im[b] as number) * ci
        const ti = (re[b] as number) * ci + (im[b] as number) * cr
        re[b] = (re[a] as number) - tr
        im[b] = (im[a] as number) - ti
        re[a] = (re[a] as number) + tr
        im[a] = (im[a] as number) + ti
        ;[cr, ci] = [cr * wr - ci * wi, cr * wi + ci * wr]
      }
    }
  }
}
