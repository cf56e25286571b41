/**
 * The words by which a sale is found in a ledger of many: those of its title, and apart from them those of seller and venue. What a claim
 * asks for is answered from these before any sale is read. Must not decide whether a sale matches.
 */
import type { Claim } from '../claim.ts'
import { foldForSearch } from '../dossier-summary.ts'
import type { Sale } from '../valuation.ts'
import { wordsOf } from './same-card.ts'

/** Stands before a word of seller or venue, so that it is none of the title's. */
export const NAME_MARK = '@'
/** The title states a card number as `#17`: a sale that states another one is another card. */
export const NUMBER_STATED = '#'

/** `#17`, `No. 17`, `Nr 17`; not `#17/25`, which is a serial, and not the long number of a certificate. */
const STATED_NUMBER = /(?:#|\bn[or]\.?)\s?(\d{1,4})(?![\d/])(?!\s*\/)/i

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
  if (/#\s?\d{1,4}(?![\d/])/.test(title)) words.add(NUMBER_STATED)
  return words
}

/** What a ledger has to look for on behalf of a claim. */
export interface Asked {
  /** All of these stand in the title of every sale that can match. */
  readonly every: readonly string[]
  /** Of the card's number; where the title states a number at all. */
  readonly number: readonly string[]
  /** Where no subject could be read: words whose rarity counts, of which some must stand in the title. */
  readonly some: readonly string[]
}

/** @returns `null` where the claim names too little for any sale to match. */
export function askOf(claim: Claim, title: string | null): Asked | null {
  const plain = (words: readonly string[]) => words.map((word) => word.replace(/^0+(?=\d)/, ''))
  const every = plain(wordsOf(claim.subject))
  const number = claim.cardNumber === null ? [] : tokens(claim.cardNumber)
  if (every.length > 0) return { every, number, some: [] }
  const some = plain([...new Set([...wordsOf(claim.set), ...wordsOf(title)])])
  return number.length === 0 || claim.year === null || some.length === 0 ? null : { every: number, number, some }
}

/** The words of a search: each must begin a word of the title, the seller or the venue. */
export function searchWords(query: string): readonly string[] {
  return tokens(query)
}
