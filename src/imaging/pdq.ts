/**
 * The PDQ photo fingerprint: 256 bits that stay near each other when one photo is re-encoded, shrunk or watermarked.
 * After the published description (Facebook, "The TMK+PDQF Video-Hashing Algorithm and the PDQ Image-Hashing
 * Algorithm", 2019): luma, two passes of a box filter (Jarosz), 64 × 64 samples, a 16 × 16 corner of its DCT
 * without the constant terms, each bit by the median. It knows the photo's design, never which copy of a card it shows.
 */
import { type Grey, shrink } from './pixels.ts'

export interface Fingerprint {
  /** 64 hex digits. */
  readonly hash: string
  /** 0–100: how much structure the photo has. Publishers of the algorithm drop hashes at 49 and below. */
  readonly quality: number
}

const SAMPLES = 64
const COEFFICIENTS = 16
// The reference implementation shrinks to this before filtering; so do we, and it bounds the cost.
const WORKING_SIDE = 512

/** Rows 1–16 of the orthonormal DCT-II matrix of 64 samples. */
const DCT: readonly Float64Array[] = Array.from({ length: COEFFICIENTS }, (_, i) =>
  Float64Array.from(
    { length: SAMPLES },
    (_, j) => Math.sqrt(2 / SAMPLES) * Math.cos((Math.PI / 2 / SAMPLES) * (i + 1) * (2 * j + 1)),
  ),
)

export function fingerprint(grey: Grey): Fingerprint {
  const { samples, coefficients } = analyse(grey)
  return { hash: hashOf(coefficients), quality: measureQuality(samples) }
}

/** How a picture may have been turned or mirrored. `mirrored`: left and right exchanged. */
export const TURNS = [
  'upright',
  'quarter',
  'half',
  'three-quarters',
  'mirrored',
  'mirrored-quarter',
  'mirrored-half',
  'mirrored-three-quarters',
] as const
export type Turn = (typeof TURNS)[number]

/**
 * The fingerprints that the picture has after each turn (clockwise; mirrored first, then turned), from one transform: mirroring
 * changes the sign of every odd coefficient along an axis, a quarter turn exchanges the axes. Published with the algorithm.
 */
export function fingerprintTurns(grey: Grey): Fingerprint & { readonly turns: Readonly<Record<Turn, string>> } {
  const { samples, coefficients } = analyse(grey)
  const side = COEFFICIENTS
  const turned = (swap: boolean, mirrorRows: boolean, mirrorColumns: boolean) => {
    const result = new Float64Array(side * side)
    for (let i = 0; i < side; i++) {
      for (let j = 0; j < side; j++) {
        // Index 0 is frequency 1: an odd one.
        const sign = (mirrorRows && i % 2 === 0 ? -1 : 1) * (mirrorColumns && j % 2 === 0 ? -1 : 1)
        result[i * side + j] = sign * (coefficients[swap ? j * side + i : i * side + j] as number)
      }
    }
    return hashOf(result)
  }
  const hash = hashOf(coefficients)
  return {
    hash,
    quality: measureQuality(samples),
    turns: {
      upright: hash,
      quarter: turned(true, false, true),
      half: turned(false, true, true),
      'three-quarters': turned(true, true, false),
      mirrored: turned(false, false, true),
      'mirrored-quarter': turned(true, true, true),
      'mirrored-half': turned(false, true, false),
      'mirrored-three-quarters': turned(true, false, false),
    },
  }
}

function analyse(grey: Grey): { samples: Float64Array; coefficients: Float64Array } {
  const samples = sample(smooth(shrink(grey, WORKING_SIDE, WORKING_SIDE)))
  return { samples, coefficients: transform(samples) }
}

/** Number of differing bits of two fingerprints, 0–256. */
export function hammingDistance(a: string, b: string): number {
  let distance = 0
  for (let i = 0; i < a.length; i++) {
    let bits = Number.parseInt(a[i] as string, 16) ^ Number.parseInt(b[i] as string, 16)
    for (; bits > 0; bits &= bits - 1) distance++
  }
  return distance
}

function smooth({ width, height, data }: Grey): Grey {
  const across = Math.ceil(width / (2 * SAMPLES))
  const down = Math.ceil(height / (2 * SAMPLES))
  let from = data
  let to: Float32Array<ArrayBufferLike> = new Float32Array(data.length)
  // Two box passes in each direction make a tent (W. Jarosz, Fast Image Convolutions, 2001).
  for (let pass = 0; pass < 2; pass++) {
    for (let y = 0; y < height; y++) boxFilter(from, to, y * width, 1, width, across)
    const scratch = pass === 0 ? new Float32Array(data.length) : from
    for (let x = 0; x < width; x++) boxFilter(to, scratch, x, width, height, down)
    from = scratch
    if (pass === 0) to = new Float32Array(data.length)
  }
  return { width, height, data: from }
}

/** A running mean over `window` values, narrower at the ends, where only what is there is averaged. */
function boxFilter(
  from: Float32Array,
  to: Float32Array,
  start: number,
  stride: number,
  n: number,
  window: number,
): void {
  const ahead = Math.floor((window + 2) / 2) - 1
  const behind = window - ahead - 1
  let sum = 0
  let count = 0
  for (let i = 0; i < Math.min(ahead, n); i++) {
    sum += from[start + i * stride] as number
    count++
  }
  for (let i = 0; i < n; i++) {
    if (i + ahead < n) {
      sum += from[start + (i + ahead) * stride] as number
      count++
    }
    if (i - behind - 1 >= 0) {
      sum -= from[start + (i - behind - 1) * stride] as number
      count--
    }
    to[start + i * stride] = sum / count
  }
}

function sample({ width, height, data }: Grey): Float64Array {
  const samples = new Float64Array(SAMPLES * SAMPLES)
  for (let i = 0; i < SAMPLES; i++) {
    const y = Math.floor(((i + 0.5) * height) / SAMPLES)
    for (let j = 0; j < SAMPLES; j++) {
      samples[i * SAMPLES + j] = data[y * width + Math.floor(((j + 0.5) * width) / SAMPLES)] as number
    }
  }
  return samples
}

/** Sum of the neighbouring differences in per cent of the full range, each cut to a whole number, over 90, at most 100. */
function measureQuality(samples: Float64Array): number {
  let sum = 0
  const step = (a: number, b: number) =>
    Math.abs(Math.trunc((((samples[a] as number) - (samples[b] as number)) * 100) / 255))
  for (let i = 0; i < SAMPLES; i++) {
    for (let j = 0; j < SAMPLES; j++) {
      const at = i * SAMPLES + j
      if (i + 1 < SAMPLES) sum += step(at, at + SAMPLES)
      if (j + 1 < SAMPLES) sum += step(at, at + 1)
    }
  }
  return Math.min(100, Math.trunc(sum / 90))
}

function transform(samples: Float64Array): Float64Array {
  const half = new Float64Array(COEFFICIENTS * SAMPLES)
  for (let i = 0; i < COEFFICIENTS; i++) {
    for (let j = 0; j < SAMPLES; j++) {
      let sum = 0
      for (let k = 0; k < SAMPLES; k++) sum += (DCT[i]?.[k] as number) * (samples[k * SAMPLES + j] as number)
      half[i * SAMPLES + j] = sum
    }
  }
  const coefficients = new Float64Array(COEFFICIENTS * COEFFICIENTS)
  for (let i = 0; i < COEFFICIENTS; i++) {
    for (let j = 0; j < COEFFICIENTS; j++) {
      let sum = 0
      for (let k = 0; k < SAMPLES; k++) sum += (half[i * SAMPLES + k] as number) * (DCT[j]?.[k] as number)
      coefficients[i * COEFFICIENTS + j] = sum
    }
  }
  return coefficients
}

/** Bit k is coefficient k against the lower median; printed with bit 255 first. */
function hashOf(coefficients: Float64Array): string {
  const median = Float64Array.from(coefficients).sort()[coefficients.length / 2 - 1] as number
  let hash = ''
  for (let digit = coefficients.length / 4 - 1; digit >= 0; digit--) {
    let value = 0
    for (let bit = 3; bit >= 0; bit--) {
      value = value * 2 + ((coefficients[4 * digit + bit] as number) > median ? 1 : 0)
    }
    hash += value.toString(16)
  }
  return hash
}
