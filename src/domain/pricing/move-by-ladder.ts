/**
 * Sales of one card in other grades, moved to the claim's grade along the ladder that the sales themselves make; pooled with
 * other cards of the set, since one card alone seldom spans the grades.
 */
import type { Claim } from '../claim.ts'
import type { Said } from '../valuation.ts'
import { fitLadder, type GradedSale, levelAt } from './grade-ladder.ts'
import type { MatchedSale } from './match-sales.ts'
import { said } from './words.ts'

export interface MovedSale {
  readonly match: MatchedSale
  /** Logarithm of what it would have fetched in the claim's grade. */
  readonly log: number
}

export interface Moved {
  readonly sales: readonly MovedSale[]
  /** Standard error of the move, in logarithms. */
  readonly error: number
  /** Sales of other cards of the set that the ladder rests on. */
  readonly mates: number
  readonly step: Said
}

function cardOf(claim: Claim): string {
  return [claim.year, claim.cardNumber, claim.subject, claim.variation].join('|')
}

function graded({ claim, amount }: MatchedSale, card: string): GradedSale | null {
  const grade = Number(claim.grade)
  if (claim.grade === null || Number.isNaN(grade)) return null
  return { card, grade, log: Math.log(Number(amount)) }
}

/** @returns `null` where the sales make no ladder, or one that does not reach the claim's grade. */
export function moveByLadder(claim: Claim, own: readonly MatchedSale[], mates: readonly MatchedSale[]): Moved | null {
  const target = Number(claim.grade)
  if (claim.grade === null || Number.isNaN(target)) return null
  const ownIds = new Set(own.map(({ sale }) => sale.id))
  const others = mates.filter(({ sale }) => !ownIds.has(sale.id))
  const rows = [
    // A bound is moved like any sale, but the ladder rests on prices.
    ...own.filter(({ sale }) => !sale.bestOffer).map((match) => graded(match, 'this card')),
    ...others.map((match) => graded(match, cardOf(match.claim))),
  ].filter((row) => row !== null)
  const ladder = fitLadder(rows)
  const goal = ladder && levelAt(ladder, target)
  if (!ladder || !goal) return null
  const sales: MovedSale[] = []
  const errors: number[] = []
  for (const match of own) {
    const row = graded(match, 'this card')
    const from = row && levelAt(ladder, row.grade)
    if (!row || !from) continue
    sales.push({ match, log: row.log + goal.level - from.level })
    errors.push(row.grade === target ? 0 : Math.hypot(goal.error, from.error))
  }
  if (sales.length === 0) return null
  const grades = new Set(own.map((match) => match.claim.grade)).size
  const figures = { sales: sales.length, grades, grade: claim.grade }
  return {
    sales,
    error: errors.reduce((sum, error) => sum + error, 0) / errors.length,
    mates: others.length,
    step:
      others.length > 0 ? said('step.moved-pooled', { ...figures, mates: others.length }) : said('step.moved', figures),
  }
}
