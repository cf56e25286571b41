/**
 * Markets whose truth is known: one card in one grade, its level over time, honest sales around it and sellers whose prices are not
 * the market's. Shares nothing with `src/domain/pricing`.
 */

/** SplitMix32. */
export function createRandom(seed: number): () => number {
  let state = seed | 0
  return () => {
    state = (state + 0x9e3779b9) | 0
    let z = state ^ (state >>> 16)
    z = Math.imul(z, 0x21f0aaad)
    z ^= z >>> 15
    z = Math.imul(z, 0x735a2d97)
    return ((z ^ (z >>> 15)) >>> 0) / 4294967296
  }
}

export type MarketKind = 'calm' | 'trend' | 'jump' | 'contaminated' | 'mixed'

export interface Market {
  readonly kind: MarketKind
  readonly sales: readonly { readonly price: number; readonly age: number; readonly seller: string }[]
  /** The market's level on the day itself. */
  readonly level: number
  /** The next honest sale. */
  readonly next: number
  /** Spread of honest log prices. */
  readonly sd: number
}

export function simulateMarket(kind: MarketKind, n: number, random: () => number): Market {
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  // One sale in ten is from a wider crowd, as condition within a grade and the day's bidders make it.
  const noise = (sd: number) => sd * normal() * (random() < 0.1 ? 2 : 1)
  const sd = 0.08 + 0.27 * random()
  const years = 0.4 + 2.6 * random()
  const moving = kind === 'mixed' ? (['calm', 'trend', 'jump'] as const)[Math.floor(3 * random())]! : kind
  const perYear = moving === 'trend' ? (random() < 0.5 ? -1 : 1) * (0.1 + 0.3 * random()) : 0
  const jumpAt = moving === 'jump' ? years * (0.15 + 0.7 * random()) : 0
  const jumpBy = moving === 'jump' ? (random() < 0.5 ? -1 : 1) * (0.2 + 0.3 * random()) : 0
  const dirty = kind === 'contaminated' || (kind === 'mixed' && random() < 0.5)
  const dirtyShare = dirty ? 0.05 + 0.2 * random() : 0
  const dirtyBy = (random() < 0.5 ? -1 : 1) * (0.4 + 0.6 * random())
  const base = Math.log(20) + 5 * random()
  const levelAt = (age: number) => base - perYear * age - (jumpAt > 0 && age > jumpAt ? jumpBy : 0)
  const sellers = Math.max(2, Math.ceil(n * (0.3 + 0.5 * random())))
  const sales = Array.from({ length: n }, () => {
    const age = years * random() ** 1.2
    const bent = random() < dirtyShare
    const log = levelAt(age) + noise(sd) + (bent ? dirtyBy : 0)
    const seller = bent ? 'bent' : `seller ${Math.floor(sellers * random())}`
    return { price: Math.max(0.01, Math.round(Math.exp(log) * 100) / 100), age, seller }
  }).sort((a, b) => b.age - a.age)
  return { kind, sales, level: Math.exp(base), next: Math.exp(base + noise(sd)), sd }
}

export interface GradedMarket {
  readonly sales: readonly {
    readonly price: number
    readonly grade: number
    readonly age: number
    readonly seller: string
  }[]
  readonly grade: number
  readonly level: number
  readonly next: number
}

/** One card in several grades; the grade in question was sold at most four times, and lies between two others or on them. */
export function simulateGrades(random: () => number): GradedMarket {
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  const sd = 0.08 + 0.27 * random()
  const first = 2 + Math.floor(3 * random())
  const grades = Array.from({ length: 4 }, (_, i) => first + i)
  let level = Math.log(20) + 4 * random()
  const levels = grades.map(() => {
    // A grade more brings between nothing and a factor of two and a half.
    level += Math.log(2.5) * random()
    return level
  })
  const asked = 1 + Math.floor(2 * random())
  const sales = grades.flatMap((grade, i) =>
    Array.from({ length: i === asked ? Math.floor(5 * random()) : 3 + Math.floor(8 * random()) }, () => ({
      price: Math.exp(levels[i]! + sd * normal()),
      grade,
      age: 2 * random(),
      seller: `seller ${Math.floor(20 * random())}`,
    })),
  )
  return {
    sales,
    grade: grades[asked]!,
    level: Math.exp(levels[asked]!),
    next: Math.exp(levels[asked]! + sd * normal()),
  }
}
