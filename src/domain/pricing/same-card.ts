/**
 * Is the card that a sale's words describe the card of the claim? Hard keys: year, number, variation, qualifier.
 * Subject and set are compared by their words. What neither side states is no difference; what only one states is, for
 * the keys that change the price.
 */
import type { Claim } from '../claim.ts'
import { foldForSearch } from '../dossier-summary.ts'
import { yearSpan } from '../rules/compare-facts.ts'

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

export function matchCard(claim: Claim, offered: Claim, title: string): CardMatch {
  const present = new Set(wordsOf(title))
  const subject = wordsOf(claim.subject)
  const set = wordsOf(claim.set)
  if (subject.length === 0 && (set.length === 0 || claim.cardNumber === null)) return ANOTHER_CARD
  if (subject.length > 0 && share(subject, present) < 1) return ANOTHER_CARD
  if (claim.year && offered.year && !mayBeOneSeason(claim.year, offered.year)) return ANOTHER_CARD
  const numbersKnown = claim.cardNumber !== null && offered.cardNumber !== null
  if (numbersKnown && plainNumber(claim.cardNumber as string) !== plainNumber(offered.cardNumber as string))
    return ANOTHER_CARD
  // Without a number on both sides the set has to carry the match; half of its words, since titles shorten set names (ours).
  if (!numbersKnown && set.length > 0 && share(set, present) < 0.5) return ANOTHER_CARD
  if (subject.length === 0 && !numbersKnown) return ANOTHER_CARD

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
