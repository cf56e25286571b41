/** Seeded chance for drawn scenes: the same seed gives the same scene. */
export interface Chance {
  /** 0 ≤ x < 1. */
  next(): number
  between(low: number, high: number): number
  whole(low: number, high: number): number
  pick<T>(items: readonly T[]): T
  happens(probability: number): boolean
  normal(): number
}

/** xorshift128 (G. Marsaglia, Xorshift RNGs, 2003), its state mixed by MurmurHash3's last step (A. Appleby). */
export function createChance(seed: number): Chance {
  // Neighbouring seeds must not give neighbouring scenes.
  const mix = (value: number) => {
    let h = value | 0
    h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
    h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
    return h ^ (h >>> 16)
  }
  let [x, y, z, w] = [mix(seed + 1), mix(seed * 31 + 7), mix(seed * 977 + 5), mix(seed ^ 0x1f123bb5) | 1]
  const next = () => {
    const t = x ^ (x << 11)
    x = y
    y = z
    z = w
    w = w ^ (w >>> 19) ^ t ^ (t >>> 8)
    return (w >>> 0) / 4294967296
  }
  for (let i = 0; i < 24; i++) next()
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    whole: (low, high) => low + Math.floor(next() * (high - low + 1)),
    pick: (items) => items[Math.floor(next() * items.length)]!,
    happens: (probability) => next() < probability,
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  }
}
