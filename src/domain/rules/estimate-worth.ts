/**
 * What the card would be worth if it is genuine, and how that stands to the buyer's limit. The asking price is the last
 * resort: a cheaply priced copy of a valuable card must not slip under a limit. Must not say what the card is worth.
 */
import type { Book, RiskyIssue } from '../grader-book.ts'
import type { Listing } from '../listing.ts'
import type { Money } from '../money.ts'
import type { Valuation } from '../valuation.ts'

export interface Worth {
  readonly basis: 'sales' | 'risky-issue' | 'asking-price'
  readonly money: Money
  readonly sales: number
  /** Worth over the buyer's limit; `null` where the currencies cannot be compared. */
  readonly toLimit: number | null
  /** Asking price over worth; `null` where the worth is the asking price or the currencies cannot be compared. */
  readonly priceToWorth: number | null
}

/**
 * Without a rate, amounts of these currencies are compared as they stand: each pair has stood within a factor of about
 * two for decades (from memory), and a limit missed by less than that is better raised than passed over.
 */
const NEAR_PARITY = ['EUR', 'USD', 'GBP', 'CHF', 'CAD', 'AUD']

/** `left / right`, `null` where the currencies leave no honest answer. An open currency is taken for the other's. */
export function moneyRatio(left: Money, right: Money): number | null {
  const divisor = Number(right.amount)
  if (!(divisor > 0)) return null
  const same = left.currency === right.currency || left.currency === null || right.currency === null
  const near = !same && NEAR_PARITY.includes(left.currency) && NEAR_PARITY.includes(right.currency)
  return same || near ? Number(left.amount) / divisor : null
}

function larger(a: Money | null, b: Money | null): Money | null {
  if (a === null || b === null) return a ?? b
  const ratio = moneyRatio(a, b)
  return ratio !== null && ratio < 1 ? b : a
}

/** What the listing itself asks: of a running auction also its estimate, since a first bid says nothing of worth. */
export function askedPrice(listing: Listing): Money | null {
  return larger(listing.price, listing.estimate?.low ?? null)
}

export function estimateWorth(
  listing: Listing,
  valuation: Valuation | null,
  issue: RiskyIssue | null,
  book: Book,
): Worth | null {
  const { highValue } = book.limits
  // Sales of merely similar cards are not sales of this card.
  const centre = valuation && valuation.level !== null && valuation.level !== 'similar' ? valuation.centre : null
  const bySales: Money | null = centre === null ? null : { amount: centre, currency: valuation?.currency ?? null }
  const byIssue = issue?.worthIfGenuine ?? null
  const known = larger(bySales, byIssue)
  const asked = askedPrice(listing)
  const money = known ?? asked
  if (money === null) return null
  const basis = known === null ? 'asking-price' : known === bySales ? 'sales' : 'risky-issue'
  return {
    basis,
    money,
    sales: valuation?.n ?? 0,
    toLimit: moneyRatio(money, highValue),
    priceToWorth: known === null || listing.price === null ? null : moneyRatio(listing.price, known),
  }
}

function foldWords(text: string): Set<string> {
  const folded = text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()
  return new Set(folded.split(/[^\p{L}\p{N}]+/u).filter(Boolean))
}

/** The buyer's risky issue that the listing's words name: the one with the most words, if several do. */
export function findRiskyIssue(listing: Listing, issues: readonly RiskyIssue[]): RiskyIssue | null {
  if (issues.length === 0) return null
  const present = foldWords([listing.title ?? '', ...Object.values(listing.specifics)].join(' '))
  let best: RiskyIssue | null = null
  for (const issue of issues) {
    const words = issue.words.flatMap((word) => [...foldWords(word)])
    if (words.length === 0 || !words.every((word) => present.has(word))) continue
    if (best === null || issue.words.length > best.words.length) best = issue
  }
  return best
}
