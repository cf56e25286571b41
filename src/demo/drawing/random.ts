/** Seeded randomness for everything drawn: the same seed gives the same card, the same wood and the same noise. */

export type Random = () => number

/** mulberry32, public domain: 32 bits of state, enough for pictures. */
export function createRandom(seed: number): Random {
  let state = (seed * 2_654_435_761) >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}

export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random()
}

export function pick<Item>(random: Random, items: readonly Item[]): Item {
  return items[Math.floor(random() * items.length)]!
}

/** Side of every noise tile in pixels; a power of two, so that wrapping is a mask. */
export const TILE = 512

const tiles = new Map<string, Float32Array>()

/**
 * A square tile of values around 0 (about −1 to 1) that repeats without a seam. `cells`: grid cells along a side for
 * each octave; fewer cells give larger blotches. Different counts along x and y give fibres and grain.
 */
export function noiseTile(
  seed: number,
  octaves: readonly (readonly [x: number, y: number, weight: number])[],
): Float32Array {
  const key = `${seed}:${JSON.stringify(octaves)}`
  const known = tiles.get(key)
  if (known) return known
  const random = createRandom(seed)
  const tile = new Float32Array(TILE * TILE)
  for (const [cellsX, cellsY, weight] of octaves) addOctave(tile, random, cellsX, cellsY, weight)
  tiles.set(key, tile)
  return tile
}

function addOctave(tile: Float32Array, random: Random, cellsX: number, cellsY: number, weight: number): void {
  const grid = Float32Array.from({ length: cellsX * cellsY }, () => random() * 2 - 1)
  for (let y = 0; y < TILE; y++) {
    const gy = (y * cellsY) / TILE
    const y0 = Math.floor(gy)
    const fy = smooth(gy - y0)
    const rowA = (y0 % cellsY) * cellsX
    const rowB = ((y0 + 1) % cellsY) * cellsX
    for (let x = 0; x < TILE; x++) {
      const gx = (x * cellsX) / TILE
      const x0 = Math.floor(gx)
      const fx = smooth(gx - x0)
      const a = x0 % cellsX
      const b = (x0 + 1) % cellsX
      const top = grid[rowA + a]! * (1 - fx) + grid[rowA + b]! * fx
      const bottom = grid[rowB + a]! * (1 - fx) + grid[rowB + b]! * fx
      tile[y * TILE + x]! += weight * (top * (1 - fy) + bottom * fy)
    }
  }
}

function smooth(part: number): number {
  return part * part * (3 - 2 * part)
}
