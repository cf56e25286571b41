/**
 * Is the card that a sale's words describe the card of the claim? Hard keys: year, number, variation, qualifier.
 * Subject and set are compared by their words. What neither side states is no difference; what only one states is, for
 * the keys that change the price.
 */
import type { Claim } from '../claim.ts'
import { foldForSearch } from '../dossier-summary.ts'
import { yearSpan } from '../rules/compare-facts.ts'
import type { Said } from '../valuation.ts'
import { said } from './words.ts'

export interface WeighedWord {
  readonly word: string
  readonly weight: number
}

/** The words by which a card's sales are known: all of `every`, and half of the weight of `most`. */
export interface CardWords {
  readonly every: readonly string[]
  readonly most: readonly WeighedWord[]
}

/** In how many of so many sales a word stands. */
export type Frequencies = () => { readonly sales: number; readonly count: (word: string) => number }

/**
 * Subject and set, as the claim has them. Where no subject could be read, the words of the title that no other field of the
 * claim stands on take its place, the rarer ones among the sales counting more.
 */
export function cardWords(claim: Claim, title: string | null, frequencies: Frequencies): CardWords {
  const every = wordsOf(claim.subject)
  const set = wordsOf(claim.set)
  if (every.length > 0 || title === null) return { every, most: set.map((word) => ({ word, weight: 1 })) }
  const spoken = new Set(Object.values(claim.quotes).flatMap(({ quote }) => wordsOf(quote)))
  const left = wordsOf(title).filter((word) => !spoken.has(word) && !/^\d+$/.test(word))
  return { every, most: weighByRarity([...new Set([...set, ...left])], frequencies()) }
}

/**
 * Inverse document frequency (K. Spärck Jones, 1972). A word that no sale at hand contains is filler of the title ("quick
 * sale") or was never sold: it tells no sale from another and is left out.
 */
function weighByRarity(words: readonly string[], { sales, count: countOf }: ReturnType<Frequencies>): WeighedWord[] {
  const rarest = Math.log(sales + 1)
  return words.flatMap((word) => {
    const count = countOf(word)
    return count === 0 ? [] : [{ word, weight: rarest - Math.log(count + 1) }]
  })
}

/** `same`, or in half a sentence why not; `null` when it is simply another card. */
export type CardMatch = { readonly same: true } | { readonly same: false; readonly why: Said | null }

const ANOTHER_CARD: CardMatch = { same: false, why: null }

export function wordsOf(text: string | null): readonly string[] {
  return text === null
    ? []
    : foldForSearch(text)
        .split(/[^\p{L}\p{N}]+/u)
        .filter((word) => word.length > 1)
}

/** Two seasons that share a year: `"1931-32"` and `"1931"`. A year that cannot be read contradicts nothing. */
function mayBeOneSeason(a: string, b: string): boolean {
  const [left, right] = [yearSpan(a), yearSpan(b)]
  return left === null || right === null || (left[0] <= right[1] && right[0] <= left[1])
}

export function plainNumber(cardNumber: string): string {
  return foldForSearch(cardNumber)
    .replace(/^(?:#|no\.?|nr\.?)\s*/, '')
    .replace(/^0+(?=\d)/, '')
}

function hasAll(wanted: readonly string[], present: ReadonlySet<string>): boolean {
  return wanted.every((word) => present.has(word))
}

/** Half of the weight, since titles shorten the names of sets; and two words, unless there is only one. Ours. */
function hasMost(wanted: readonly WeighedWord[], present: ReadonlySet<string>): boolean {
  const found = wanted.filter(({ word }) => present.has(word))
  const weigh = (words: readonly WeighedWord[]) => words.reduce((sum, { weight }) => sum + weight, 0)
  return found.length >= Math.min(2, wanted.length) && weigh(found) >= weigh(wanted) / 2
}

export function matchCard(claim: Claim, words: CardWords, offered: Claim, title: string): CardMatch {
  const present = new Set(wordsOf(title))
  const { every, most } = words
  const numbersKnown = claim.cardNumber !== null && offered.cardNumber !== null
  const yearsKnown = claim.year !== null && offered.year !== null
  if (every.length === 0 && (most.length === 0 || !numbersKnown || !yearsKnown)) return ANOTHER_CARD
  if (!hasAll(every, present)) return ANOTHER_CARD
  if (claim.year && offered.year && !mayBeOneSeason(claim.year, offered.year)) return ANOTHER_CARD
  if (numbersKnown && plainNumber(claim.cardNumber as string) !== plainNumber(offered.cardNumber as string))
    return ANOTHER_CARD
  // Without a subject, or without a number on both sides, the other words carry the match.
  if ((every.length === 0 || !numbersKnown) && most.length > 0 && !hasMost(most, present)) return ANOTHER_CARD

  if (offered.object !== 'card' || offered.multiple) return differs(said('why.lot'))
  if (offered.reprint === 'stated' || offered.reprint === 'hedged') return differs(said('why.reprint'))
  if (folded(claim.variation) !== folded(offered.variation)) {
    return differs(offered.variation ? said('why.variation', { words: offered.variation }) : said('why.no-variation'))
  }
  if (folded(claim.qualifier) !== folded(offered.qualifier)) {
    return differs(offered.qualifier ? said('why.qualifier', { words: offered.qualifier }) : said('why.no-qualifier'))
  }
  if ((claim.autograph ?? false) !== (offered.autograph ?? false)) {
    return differs(said(offered.autograph ? 'why.autograph' : 'why.no-autograph'))
  }
  return { same: true }
}

function differs(why: Said): CardMatch {
  return { same: false, why }
}

function folded(text: string | null): string | null {
  return text === null ? null : wordsOf(text).join(' ')
}

/** Another card of the same set: its sales say nothing of this card's price, but of what a grade is worth. */
export function isSetMate(claim: Claim, offered: Claim, title: string): boolean {
  const set = wordsOf(claim.set)
  if (set.length === 0 || claim.year === null || offered.year === null) return false
  if (!mayBeOneSeason(claim.year, offered.year) || !hasAll(set, new Set(wordsOf(title)))) return false
  return offered.object === 'card' && !offered.multiple && offered.reprint === 'no' && offered.qualifier === null
}
