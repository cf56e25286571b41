/**
 * The buyer's want list, and whether an offer fits one of its cards: the card, its condition, its price. What the offer's words leave open
 * does not fit; a price in a currency without a rate is said to be open. Must not judge the offer otherwise.
 */
import { Decimal } from 'decimal.js'
import { parseClaims } from '../claim/parse-claims.ts'
import type { Claim } from '../claim.ts'
import type { Money } from '../money.ts'
import { isGraded, type Knowledge } from './match-sales.ts'
import type { RateTable } from './rates.ts'
import { cardWords, matchCard } from './same-card.ts'

export interface Want {
  /** The card in the words of a title: year, set, number, subject. */
  readonly words: string
  readonly condition: 'any' | 'raw' | 'graded'
  /** Grade numbers; `null`: open on that side. They ask for a graded card. */
  readonly gradeFrom: number | null
  readonly gradeTo: number | null
  readonly most: Money | null
  readonly note: string
}

export interface WantFit {
  readonly id: string
  readonly want: Want
  /** Against the most to pay: `open` where no price, no limit or no rate is at hand. */
  readonly price: 'within' | 'above' | 'open'
}

type KnownWant = Want & { readonly id: string }

/** Wants parsed once, for the many rows of a results page. */
export function createWantReader(
  wants: readonly KnownWant[],
  knowledge: Knowledge,
  rates: RateTable | null,
  on: string,
): (claim: Claim, title: string, price: Money | null) => WantFit | null {
  const none = () => ({ sales: 0, count: () => 1 })
  const known = wants.map((want) => {
    const [claim] = parseClaims({ title: want.words, specifics: {}, description: null }, knowledge) as [Claim]
    return { want, claim, words: cardWords(claim, want.words, none) }
  })
  const order = { within: 0, open: 1, above: 2 } as const
  return (offered, title, price) => {
    const fits = known.flatMap(({ want, claim, words }): WantFit[] => {
      if (!matchCard(claim, words, offered, title).same) return []
      if (!fitsCondition(want, offered, knowledge)) return []
      return [{ id: want.id, want, price: comparePrice(price, want.most, rates, on) }]
    })
    return fits.sort((a, b) => order[a.price] - order[b.price])[0] ?? null
  }
}

function fitsCondition({ condition, gradeFrom, gradeTo }: Want, offered: Claim, { graders }: Knowledge): boolean {
  const graded = isGraded(offered, graders)
  if (condition === 'raw') return !graded
  const range = gradeFrom !== null || gradeTo !== null
  if (!graded) return condition === 'any' && !range
  if (!range) return true
  const grade = Number(offered.grade)
  if (Number.isNaN(grade)) return false
  return grade >= (gradeFrom ?? Number.NEGATIVE_INFINITY) && grade <= (gradeTo ?? Number.POSITIVE_INFINITY)
}

function comparePrice(price: Money | null, most: Money | null, rates: RateTable | null, on: string): WantFit['price'] {
  if (price === null || most === null) return 'open'
  const same = price.currency === most.currency || price.currency === null || most.currency === null
  const money = same ? price : (rates?.convert(price, most.currency as string, on)?.money ?? null)
  if (money === null) return 'open'
  return new Decimal(money.amount).lessThanOrEqualTo(most.amount) ? 'within' : 'above'
}
