/**
 * Pictures whose truth is known by formula: steps under a Gaussian blur, averaged over each pixel's area.
 * Shares nothing with `src/imaging`.
 */

/** Abramowitz & Stegun 7.1.26, absolute error under 1.5e-7. */
function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x))
  const tail =
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp(-x * x)
  return x >= 0 ? 1 - tail : tail - 1
}

/** Integral of the normal distribution function Φ(x / σ). */
function integratedStep(x: number, sigma: number): number {
  if (sigma === 0) return Math.max(0, x)
  const z = x / sigma
  const cdf = 0.5 * (1 + erf(z / Math.SQRT2))
  return x * cdf + sigma * (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI))
}

export interface Stripes {
  readonly width: number
  readonly height: number
  readonly dark: number
  readonly light: number
  /** Width of a stripe, px. */
  readonly period: number
  /** Blur's standard deviation, px. */
  readonly sigma: number
  /** Slope of the edges, px across a px down. */
  readonly slant: number
}

/** Dark and light stripes, nearly upright. */
export function stripes({ width, height, dark, light, period, sigma, slant }: Stripes): Float32Array {
  const data = new Float32Array(width * height)
  // Blur along the row is wider than across the edge, where the edge crosses the row at an angle.
  const along = sigma * Math.sqrt(1 + slant * slant)
  for (let y = 0; y < height; y++) {
    const edges: number[] = []
    for (let e = -4; e * period < width + 4 * period; e++) edges.push(e * period + slant * y)
    for (let x = 0; x < width; x++) {
      let level = 0
      edges.forEach((edge, i) => {
        const rise = integratedStep(x + 1 - edge, along) - integratedStep(x - edge, along)
        level += i % 2 === 0 ? rise : -rise
      })
      data[y * width + x] = dark + (light - dark) * level
    }
  }
  return data
}

/** Mulberry32: small, seeded, good enough for noise. */
export function createRandom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/** Normal noise by Box and Muller, added in place. */
export function addNoise(data: Float32Array, sd: number, random: () => number): Float32Array {
  for (let i = 0; i < data.length; i++) {
    const radius = Math.sqrt(-2 * Math.log(1 - random()))
    data[i] = Math.round((data[i] as number) + sd * radius * Math.cos(2 * Math.PI * random()))
  }
  return data
}
