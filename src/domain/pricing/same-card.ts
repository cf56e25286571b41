/**
 * Is the card that a sale's words describe the card of the claim? Hard keys: year, number, variation, qualifier.
 * Subject and set are compared by their words. What neither side states is no difference; what only one states is, for
 * the keys that change the price.
 */
import type { Claim } from '../claim.ts'
import { foldForSearch } from '../dossier-summary.ts'
import { yearSpan } from '../rules/compare-facts.ts'

/** The words by which a card's sales are known: all of `every`, and at least half of `most`. */
export interface CardWords {
  readonly every: readonly string[]
  readonly most: readonly string[]
}

/**
 * Subject and set, as the claim has them. Where no subject could be read, the words of the title that no other field of the
 * claim stands on take its place, and most of them have to be there.
 */
export function cardWords(claim: Claim, title: string | null): CardWords {
  const every = wordsOf(claim.subject)
  const set = wordsOf(claim.set)
  if (every.length > 0 || title === null) return { every, most: set }
  const spoken = new Set(Object.values(claim.quotes).flatMap(({ quote }) => wordsOf(quote)))
  const left = wordsOf(title).filter((word) => !spoken.has(word) && !/^\d+$/.test(word))
  return { every, most: [...new Set([...set, ...left])] }
}

/** `same`, or in half a sentence why not; `null` when it is simply another card. */
export type CardMatch = { readonly same: true } | { readonly same: false; readonly why: string | null }

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

function plainNumber(cardNumber: string): string {
  return foldForSearch(cardNumber)
    .replace(/^(?:#|no\.?|nr\.?)\s*/, '')
    .replace(/^0+(?=\d)/, '')
}

function share(wanted: readonly string[], present: ReadonlySet<string>): number {
  return wanted.filter((word) => present.has(word)).length / wanted.length
}

export function matchCard(claim: Claim, words: CardWords, offered: Claim, title: string): CardMatch {
  const present = new Set(wordsOf(title))
  const { every, most } = words
  const numbersKnown = claim.cardNumber !== null && offered.cardNumber !== null
  if (every.length === 0 && (most.length === 0 || !numbersKnown)) return ANOTHER_CARD
  if (every.length > 0 && share(every, present) < 1) return ANOTHER_CARD
  if (claim.year && offered.year && !mayBeOneSeason(claim.year, offered.year)) return ANOTHER_CARD
  if (numbersKnown && plainNumber(claim.cardNumber as string) !== plainNumber(offered.cardNumber as string))
    return ANOTHER_CARD
  // Without a subject, or without a number on both sides, the other words carry the match; half of them, since titles shorten
  // the names of sets. Ours.
  if ((every.length === 0 || !numbersKnown) && most.length > 0 && share(most, present) < 0.5) return ANOTHER_CARD

  if (offered.object !== 'card' || offered.multiple) return differs('not a single card')
  if (offered.reprint === 'stated' || offered.reprint === 'hedged') return differs('its words speak of a reprint')
  if (folded(claim.variation) !== folded(offered.variation)) {
    return differs(offered.variation ? `another variation: ${offered.variation}` : 'the variation is not stated')
  }
  if (folded(claim.qualifier) !== folded(offered.qualifier)) {
    return differs(
      offered.qualifier ? `its grade carries the qualifier ${offered.qualifier}` : 'its grade carries no qualifier',
    )
  }
  if ((claim.autograph ?? false) !== (offered.autograph ?? false)) {
    return differs(offered.autograph ? 'it is autographed' : 'it is not autographed')
  }
  return { same: true }
}

function differs(why: string): CardMatch {
  return { same: false, why }
}

function folded(text: string | null): string | null {
  return text === null ? null : wordsOf(text).join(' ')
}

/** Another card of the same set: its sales say nothing of this card's price, but of what a grade is worth. */
export function isSetMate(claim: Claim, offered: Claim, title: string): boolean {
  const set = wordsOf(claim.set)
  if (set.length === 0 || claim.year === null || offered.year === null) return false
  if (!mayBeOneSeason(claim.year, offered.year) || share(set, new Set(wordsOf(title))) < 1) return false
  return offered.object === 'card' && !offered.multiple && offered.reprint === 'no' && offered.qualifier === null
}
