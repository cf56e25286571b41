/**
 * The words by which a sale is found in a ledger of many: those of its title, and apart from them those of seller and venue. What a claim
 * asks for is answered from these before any sale is read. Must not decide whether a sale matches.
 */
import type { Claim } from '../claim.ts'
import { foldForSearch } from '../dossier-summary.ts'
import { yearSpan } from '../rules/compare-facts.ts'
import type { Sale } from '../valuation.ts'
import { wordsOf } from './same-card.ts'

/** Stands before a word of seller or venue, so that it is none of the title's. */
export const NAME_MARK = '@'
/** The title states a card number, as `#17` or `No. 17`: a sale that states another one is another card. */
export const NUMBER_STATED = '#'
/** The title states a year of four digits: a sale that states other ones is another card. */
export const YEAR_STATED = '!'

/** `#17`, `No. 17`, `Nr 17`; not `#17/25`, which is a serial, and not the long number of a certificate. */
const STATED_NUMBER = /(?:#|\bn[or]\.?)\s?(\d{1,4})(?![\d/])(?!\s*\/)/i

/** Cards are younger than this century's forefathers and older than the next. */
const YEAR = /^(?:18|19|20)\d{2}$/

function tokens(text: string): string[] {
  return foldForSearch(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .map((word) => word.replace(/^0+(?=\d)/, ''))
}

export function statedNumber(title: string): string | null {
  return STATED_NUMBER.exec(title)?.[1]?.replace(/^0+(?=\d)/, '') ?? null
}

export function indexWords({ title, seller, venue }: Pick<Sale, 'title' | 'seller' | 'venue'>): Set<string> {
  const words = new Set(tokens(title))
  for (const name of [seller, venue]) {
    if (name !== null) for (const word of tokens(name)) words.add(NAME_MARK + word)
  }
  if (statedNumber(title) !== null) words.add(NUMBER_STATED)
  for (const word of words) if (YEAR.test(word)) words.add(YEAR_STATED)
  return words
}

/** What a ledger has to look for on behalf of a claim. */
export interface Asked {
  /** All of these stand in the title of every sale that can match. */
  readonly every: readonly string[]
  /** Of the card's number; where the title states a number at all. */
  readonly number: readonly string[]
  /** One of these stands in the title; where it states a year at all. Empty: any. */
  readonly years: readonly string[]
  /** Where no subject could be read: words whose rarity counts, of which some must stand in the title. */
  readonly some: readonly string[]
}

/** @returns `null` where the claim names too little for any sale to match. */
export function askOf(claim: Claim, title: string | null): Asked | null {
  const plain = (words: readonly string[]) => words.map((word) => word.replace(/^0+(?=\d)/, ''))
  const every = plain(wordsOf(claim.subject))
  const number = claim.cardNumber === null ? [] : tokens(claim.cardNumber)
  const span = claim.year === null ? null : yearSpan(claim.year)
  // A season that begins the year before may share its second year.
  const years = span === null ? [] : Array.from({ length: span[1] - span[0] + 2 }, (_, i) => String(span[0] - 1 + i))
  if (every.length > 0) return { every, number, years, some: [] }
  const some = plain([...new Set([...wordsOf(claim.set), ...wordsOf(title)])])
  return number.length === 0 || claim.year === null || some.length === 0 ? null : { every: number, number, years, some }
}

/** The words of a search: each must begin a word of the title, the seller or the venue. */
export function searchWords(query: string): readonly string[] {
  return tokens(query)
}
