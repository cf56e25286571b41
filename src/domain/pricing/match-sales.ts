/**
 * Which sales speak about a claim, and how nearly. Near misses are kept with the reason, so that a person can see what
 * was left out; sales of other cards are passed over in silence.
 */

import { parseClaims } from '../claim/parse-claims.ts'
import type { Claim } from '../claim.ts'
import { foldForSearch } from '../dossier-summary.ts'
import type { Grader } from '../grader-book.ts'
import { findGrader } from '../rules/compare-facts.ts'
import type { Said, Sale } from '../valuation.ts'
import type { RateTable } from './rates.ts'
import { type CardWords, cardWords, type Frequencies, isSetMate, matchCard, wordsOf } from './same-card.ts'
import { inEnglish, said } from './words.ts'

export type Knowledge = Parameters<typeof parseClaims>[1]

export interface MatchedSale {
  readonly sale: Sale
  readonly claim: Claim
  /** Raw, or encapsulated by a grader that the book accepts. */
  readonly condition: 'raw' | 'graded'
  /** In the valuation's currency: as it was paid, or converted at the rate of its day. */
  readonly amount: string
}

export interface Excluded {
  readonly sale: Sale
  readonly why: string
  readonly reason: Said
}

export function leaveOut(sale: Sale, reason: Said): Excluded {
  return { sale, why: inEnglish(reason), reason }
}

export interface MatchedSales {
  readonly matched: readonly MatchedSale[]
  readonly excluded: readonly Excluded[]
}

const claimsOfSales = new WeakMap<Sale, Claim>()

export function claimOf(sale: Sale, knowledge: Knowledge): Claim {
  let claim = claimsOfSales.get(sale)
  if (!claim) {
    claim = parseClaims({ title: sale.title, specifics: {}, description: null }, knowledge)[0] as Claim
    claimsOfSales.set(sale, claim)
  }
  return claim
}

/**
 * Whether a claim counts as graded. A holder is worth what its maker's examination is worth: one from a grader that the
 * book does not accept counts as raw. With an empty book nobody was rejected, so every grader counts.
 */
export function isGraded(claim: Claim, graders: readonly Grader[]): boolean {
  if (claim.grader === null || claim.grade === null) return false
  return graders.length === 0 || findGrader(claim.grader, graders)?.accepted === true
}

export interface MatchOptions {
  /** ISO date; later sales are left out. */
  readonly on: string
  readonly knowledge: Knowledge
  /** The words that the claim was read from. */
  readonly title?: string | null
  /** In how many sales of the whole ledger a word stands, where `sales` are only its candidates. */
  readonly frequencies?: Frequencies
  /** Why the buyer does not count a sale, `null` where they do. */
  readonly notCounted?: (sale: Sale) => Said | null
  readonly rates?: RateTable | null
}

export function matchSales(claim: Claim, sales: readonly Sale[], options: MatchOptions): MatchedSales {
  const { on, knowledge } = options
  const words = cardWords(claim, options.title ?? null, options.frequencies ?? (() => countWords(sales)))
  const matched: MatchedSale[] = []
  const excluded: Excluded[] = []
  for (const sale of sales) {
    // The cheap questions first: most sales of a ledger are other cards.
    if (sale.mergedInto != null || !mayBeTheCard(words, sale)) continue
    const offered = claimOf(sale, knowledge)
    const match = matchCard(claim, words, offered, sale.title)
    if (!match.same) {
      if (match.why !== null) excluded.push(leaveOut(sale, match.why))
      continue
    }
    if (sale.date > on) {
      excluded.push(leaveOut(sale, said('why.later', { day: on })))
      continue
    }
    const graded = isGraded(offered, knowledge.graders)
    if (!graded && offered.grader !== null) {
      excluded.push(leaveOut(sale, said('why.grader', { grader: offered.grader })))
      continue
    }
    const refused = options.notCounted?.(sale) ?? null
    if (refused !== null) {
      excluded.push(leaveOut(sale, refused))
      continue
    }
    matched.push({ sale, claim: offered, condition: graded ? 'graded' : 'raw', amount: sale.price.amount })
  }
  return { matched, excluded }
}

function countWords(sales: readonly Sale[]): ReturnType<Frequencies> {
  const counts = new Map<string, number>()
  for (const { title } of sales) {
    for (const word of new Set(wordsOf(title))) counts.set(word, (counts.get(word) ?? 0) + 1)
  }
  return { sales: sales.length, count: (word) => counts.get(word) ?? 0 }
}

function mayBeTheCard({ every, most }: CardWords, sale: Sale): boolean {
  const folded = foldForSearch(sale.title)
  return every.length > 0
    ? every.every((word) => folded.includes(word))
    : most.some(({ word }) => folded.includes(word))
}

/** Graded sales of other cards of the claim's set, in one currency. */
export function findSetMates(
  claim: Claim,
  sales: readonly Sale[],
  currency: string | null,
  { on, knowledge, notCounted }: MatchOptions,
): MatchedSale[] {
  const [longest = ''] = [...wordsOf(claim.set)].sort((a, b) => b.length - a.length)
  if (longest === '') return []
  return sales.flatMap((sale) => {
    if (sale.date > on || sale.price.currency !== currency || sale.bestOffer || sale.mergedInto != null) return []
    if (!foldForSearch(sale.title).includes(longest) || (notCounted?.(sale) ?? null) !== null) return []
    const offered = claimOf(sale, knowledge)
    if (!isGraded(offered, knowledge.graders) || !isSetMate(claim, offered, sale.title)) return []
    return [{ sale, claim: offered, condition: 'graded' as const, amount: sale.price.amount }]
  })
}
