/**
 * Whether an even area is solid ink or a halftone, with the screen's ruling and angle: an orthogonal pair of peaks in the two-
 * dimensional Fourier transform of native pixels. Peaks are turned into the card's own plane, so that a slanting camera does not
 * shift a ruling. It never says "solid" of what a photo could not show.
 */
import FFT from 'fft.js'
import type { Region } from '../../domain/exemplar.ts'
import type { PlacedPicture } from '../placed-picture.ts'

export interface Screen {
  readonly lpi: number
  /** 0–90 degrees: a square screen repeats after a quarter turn. */
  readonly angleDeg: number
  /** Angles of all pairs of this ruling: each ink of a colour print has its own. */
  readonly anglesDeg: readonly number[]
  /** How far the weaker peak of the pair stands above the noise around it. */
  readonly strength: number
  /** Half of the transform's own step, lpi. */
  readonly lpiError: number
}

export const MM_AN_INCH = 25.4
// Coarser than newsprint's coarsest, a pattern is drawing, not screen. Ours.
const COARSEST_LPI = 55
// The weaker peak over the median of its ring of frequencies. Ours: solid areas stay under 4 in the bench.
const LEAST_STRENGTH = 5.5
// JPEG's own blocks swing by a level or two in even areas; a screen that falls on their grid swings by more. Ours, levels.
const LEAST_LEVELS_ON_BLOCKS = 3.5
// Under the blur that is borne at most, a screen still swings by some levels; grain of two levels makes waves of a tenth. Ours.
const LEAST_LEVELS = 0.8
const LARGEST_SIDE = 256
const LEAST_SIDE = 48

/** A square of luma around the region's middle, the largest power of two of pixels that the region holds, at most 256. */
export function measureScreen(
  { grey, plane }: PlacedPicture,
  region: Region,
  finestLpi: number,
): Screen | null | 'too-small' {
  const [cx, cy] = [region.x + region.width / 2, region.y + region.height / 2]
  const scale = plane.scaleAt(cx, cy)
  const inside = Math.floor(Math.min(region.width, region.height) * scale)
  if (inside < LEAST_SIDE) return 'too-small'
  const taken = Math.min(LARGEST_SIDE, inside)
  let side = 64
  while (side < taken) side *= 2
  const [px, py] = plane.toPixels(cx, cy)
  const [left, top] = [Math.round(px - taken / 2), Math.round(py - taken / 2)]
  if (left < 0 || top < 0 || left + taken > grey.width || top + taken > grey.height) return 'too-small'
  const values = new Float64Array(side * side)
  detrend(grey.data, grey.width, left, top, taken, values, side)
  const power = spectrum(values, side)
  // Pixels to millimetres: a frequency f in cycles a pixel is Jᵀ f in cycles a mm.
  const step = 0.25
  const [ax, ay] = plane.toPixels(cx - step, cy)
  const [bx, by] = plane.toPixels(cx + step, cy)
  const [dx, dy] = plane.toPixels(cx, cy - step)
  const [ex, ey] = plane.toPixels(cx, cy + step)
  const jacobian = [
    (bx - ax) / (2 * step),
    (ex - dx) / (2 * step),
    (by - ay) / (2 * step),
    (ey - dy) / (2 * step),
  ] as const
  const toCard = (u: number, v: number): [number, number] => [
    jacobian[0] * u + jacobian[2] * v,
    jacobian[1] * u + jacobian[3] * v,
  ]
  return findPair(power, side, taken, scale, toCard, finestLpi)
}

/** Luma less its slow change, under a window that falls to nothing at the rim (Hann). */
function detrend(
  data: Float32Array,
  width: number,
  left: number,
  top: number,
  taken: number,
  values: Float64Array,
  side: number,
): void {
  const fit = [0, 0, 0]
  const middle = (taken - 1) / 2
  let spread = 0
  for (let y = 0; y < taken; y++) {
    for (let x = 0; x < taken; x++) {
      const value = data[(top + y) * width + left + x]!
      fit[0]! += value
      fit[1]! += value * (x - middle)
      fit[2]! += value * (y - middle)
      spread += (x - middle) ** 2
    }
  }
  const [mean, tiltX, tiltY] = [fit[0]! / (taken * taken), fit[1]! / spread, fit[2]! / spread]
  const hann = Array.from({ length: taken }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / taken))
  for (let y = 0; y < taken; y++) {
    for (let x = 0; x < taken; x++) {
      const ground = mean + tiltX * (x - middle) + tiltY * (y - middle)
      values[y * side + x] = (data[(top + y) * width + left + x]! - ground) * hann[x]! * hann[y]!
    }
  }
}

/** Magnitudes of a square's transform; the constant stands at [0]. */
function spectrum(values: Float64Array, side: number): Float64Array {
  const fft = new FFT(side)
  const rows = new Float64Array(2 * side * side)
  const input = new Array<number>(2 * side).fill(0)
  const output = fft.createComplexArray() as number[]
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      input[2 * x] = values[y * side + x]!
      input[2 * x + 1] = 0
    }
    fft.transform(output, input)
    for (let k = 0; k < 2 * side; k++) rows[2 * side * y + k] = output[k]!
  }
  const power = new Float64Array(side * side)
  for (let x = 0; x < side; x++) {
    for (let y = 0; y < side; y++) {
      input[2 * y] = rows[2 * (side * y + x)]!
      input[2 * y + 1] = rows[2 * (side * y + x) + 1]!
    }
    fft.transform(output, input)
    for (let y = 0; y < side; y++) power[y * side + x] = Math.hypot(output[2 * y]!, output[2 * y + 1]!)
  }
  return power
}

function findPair(
  power: Float64Array,
  side: number,
  taken: number,
  scale: number,
  toCard: (u: number, v: number) => [number, number],
  finestLpi: number,
): Screen | null {
  const low = (COARSEST_LPI / MM_AN_INCH / scale) * side
  const high = Math.min(0.49, (1.25 * finestLpi) / MM_AN_INCH / scale) * side
  // Ring by ring: the median of its magnitudes is the noise there.
  const rings: number[][] = Array.from({ length: Math.ceil(side / 2) + 2 }, () => [])
  const wrap = (k: number) => (k + side) % side
  const at = (u: number, v: number) => power[wrap(v) * side + wrap(u)]!
  const half = side / 2
  for (let v = -half; v < half; v++) {
    for (let u = 0; u < half; u++) rings[Math.min(rings.length - 1, Math.round(Math.hypot(u, v)))]!.push(at(u, v))
  }
  const noise = rings.map((ring) => ring.sort((a, b) => a - b)[ring.length >> 1] ?? 0)
  const floor = Math.max(...noise.slice(Math.max(2, Math.floor(low)))) * 0.05 + 1e-9
  const strengthAt = (u: number, v: number) => {
    const radius = Math.min(noise.length - 1, Math.round(Math.hypot(u, v)))
    return at(u, v) / Math.max(noise[radius]!, floor)
  }
  // Amplitude in levels of a wave that gives this magnitude under the window.
  const levelsOf = (magnitude: number) => (2 * magnitude) / (taken / 2) ** 2
  const peaks: { u: number; v: number; strength: number }[] = []
  const spread = Math.max(1, Math.round(side / taken))
  for (let v = -half + 2; v < half - 2; v++) {
    for (let u = 0; u < half - 2; u++) {
      const radius = Math.hypot(u, v)
      if (radius < low || radius > high) continue
      if (levelsOf(at(u, v)) < LEAST_LEVELS_ON_BLOCKS && isBlockArtefact(u / side, v / side, 1.5 / taken)) continue
      if (levelsOf(at(u, v)) < LEAST_LEVELS) continue
      const strength = strengthAt(u, v)
      if (strength < LEAST_STRENGTH) continue
      let highest = true
      for (let j = -spread - 1; j <= spread + 1 && highest; j++) {
        for (let i = -spread - 1; i <= spread + 1; i++) if (at(u + i, v + j) > at(u, v)) highest = false
      }
      if (highest) peaks.push({ u, v, strength })
    }
  }
  peaks.sort((a, b) => b.strength - a.strength)
  let best: Screen | null = null
  let tallest = 0
  const pairs: { lpi: number; angle: number }[] = []
  const placed = peaks.slice(0, 24).map(({ u, v, strength }) => {
    const [su, sv] = refine(at, u, v)
    const [x, y] = toCard(su / side, sv / side)
    return { x, y, frequency: Math.hypot(x, y), angle: (Math.atan2(y, x) * 180) / Math.PI, strength, height: at(u, v) }
  })
  for (const [i, first] of placed.entries()) {
    for (const second of placed.slice(i + 1)) {
      const turn = (((first.angle - second.angle) % 180) + 180) % 180
      const ratio = first.frequency / second.frequency
      if (Math.abs(turn - 90) > 5 || ratio < 0.93 || ratio > 1.075) continue
      const angle = meanAngle(first.angle, second.angle, turn)
      pairs.push({ lpi: ((first.frequency + second.frequency) / 2) * MM_AN_INCH, angle })
      // The tallest pair is the screen itself; its harmonics stand out as much over their rings, but are lower.
      const height = Math.min(first.height, second.height)
      if (height <= tallest) continue
      tallest = height
      const strength = Math.min(first.strength, second.strength)
      best = {
        lpi: ((first.frequency + second.frequency) / 2) * MM_AN_INCH,
        angleDeg: angle,
        anglesDeg: [],
        strength,
        lpiError: (0.2 / taken) * scale * MM_AN_INCH,
      }
    }
  }
  if (best === null) return null
  const { lpi } = best
  return { ...best, anglesDeg: pairs.filter((pair) => Math.abs(pair.lpi / lpi - 1) < 0.04).map(({ angle }) => angle) }
}

/** The mean of two directions a quarter turn apart, on a circle of 90 degrees. */
function meanAngle(first: number, second: number, turn: number): number {
  const turned = (((second + (turn > 0 ? 90 : 0)) % 90) + 90) % 90
  const own = ((first % 90) + 90) % 90
  const shift = ((turned - own + 135) % 90) - 45
  return (((own + shift / 2) % 90) + 90) % 90
}

/** JPEG's blocks of eight pixels leave peaks on the axes at multiples of an eighth cycle a pixel, and at their crossings. */
function isBlockArtefact(fx: number, fy: number, near: number): boolean {
  const onGrid = (f: number) => Math.abs(f * 8 - Math.round(f * 8)) / 8 < near
  return onGrid(fx) && onGrid(fy)
}

/** Middle of a peak to a part of a step, from its neighbours' heights (parabola through logarithms). */
function refine(at: (u: number, v: number) => number, u: number, v: number): [number, number] {
  const place = (a: number, b: number, c: number) => {
    const [p, q, r] = [Math.log(a + 1e-12), Math.log(b + 1e-12), Math.log(c + 1e-12)]
    const bend = p - 2 * q + r
    return bend < 0 ? Math.max(-0.5, Math.min(0.5, (p - r) / (2 * bend))) : 0
  }
  return [u + place(at(u - 1, v), at(u, v), at(u + 1, v)), v + place(at(u, v - 1), at(u, v), at(u, v + 1))]
}
