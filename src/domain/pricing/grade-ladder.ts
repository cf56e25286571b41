/**
 * How much more a card fetches a grade higher, taken from sales alone: one non-decreasing ladder of log prices over the grades, with
 * a level of its own for each card, so that cards of one set can be pooled. Steps between grades are never assumed.
 */
import { isotonic } from './statistics/isotonic.ts'

export interface GradedSale {
  /** Which card; sales of one card share a level. */
  readonly card: string
  readonly grade: number
  /** Natural logarithm of the price. */
  readonly log: number
}

export interface Ladder {
  readonly rungs: readonly { readonly grade: number; readonly level: number; readonly n: number }[]
  /** Spread of the sales around the ladder, in logarithms. */
  readonly sd: number
}

const MOST_ROUNDS = 200
const STILL = 1e-10

/** @returns `null` where the sales do not span two grades. */
export function fitLadder(sales: readonly GradedSale[]): Ladder | null {
  const grades = [...new Set(sales.map(({ grade }) => grade))].sort((a, b) => a - b)
  if (grades.length < 2) return null
  const rungOf = new Map(grades.map((grade, i) => [grade, i]))
  const cards = [...new Set(sales.map(({ card }) => card))]
  const cardOf = new Map(cards.map((card, i) => [card, i]))
  const rows = sales.map(({ card, grade, log }) => ({
    card: cardOf.get(card) as number,
    rung: rungOf.get(grade) as number,
    log,
  }))
  const counts = new Array<number>(grades.length).fill(0)
  for (const { rung } of rows) counts[rung] = (counts[rung] as number) + 1
  let levels = new Array<number>(grades.length).fill(0)
  let own = cards.map(() => 0)
  // Backfitting: cards given the ladder, then the ladder given the cards; both steps only lower the sum of squares.
  for (let round = 0; round < MOST_ROUNDS; round++) {
    own = meansBy(
      rows,
      cards.length,
      ({ card }) => card,
      ({ log, rung }) => log - (levels[rung] as number),
    )
    const raw = meansBy(
      rows,
      grades.length,
      ({ rung }) => rung,
      ({ log, card }) => log - (own[card] as number),
    )
    const next = isotonic(raw, counts)
    const moved = Math.max(...next.map((level, i) => Math.abs(level - (levels[i] as number))))
    levels = next
    if (moved < STILL) break
  }
  const squares = rows.reduce(
    (sum, { card, rung, log }) => sum + (log - (own[card] as number) - (levels[rung] as number)) ** 2,
    0,
  )
  const freedom = Math.max(1, rows.length - cards.length - new Set(levels).size + 1)
  return {
    rungs: grades.map((grade, i) => ({ grade, level: levels[i] as number, n: counts[i] as number })),
    sd: Math.sqrt(squares / freedom),
  }
}

function meansBy<T>(rows: readonly T[], n: number, place: (row: T) => number, value: (row: T) => number): number[] {
  const sums = new Array<number>(n).fill(0)
  const counts = new Array<number>(n).fill(0)
  for (const row of rows) {
    sums[place(row)] = (sums[place(row)] as number) + value(row)
    counts[place(row)] = (counts[place(row)] as number) + 1
  }
  return sums.map((sum, i) => sum / Math.max(1, counts[i] as number))
}

/**
 * The ladder's level at a grade, between two rungs on the straight line, with its standard error.
 * @returns `null` above the highest and below the lowest rung: nothing is extrapolated.
 */
export function levelAt({ rungs, sd }: Ladder, grade: number): { level: number; error: number } | null {
  const above = rungs.findIndex((rung) => rung.grade >= grade)
  const upper = rungs[above]
  if (!upper) return null
  if (upper.grade === grade) return { level: upper.level, error: sd / Math.sqrt(upper.n) }
  const lower = rungs[above - 1]
  if (!lower) return null
  const share = (grade - lower.grade) / (upper.grade - lower.grade)
  const error = sd * Math.hypot((1 - share) / Math.sqrt(lower.n), share / Math.sqrt(upper.n))
  return { level: lower.level + share * (upper.level - lower.level), error }
}
