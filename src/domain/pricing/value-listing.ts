/** The sales at hand, asked about one listing: its first card is claimed, and that claim is valued against what is asked. */
import { parseClaims } from '../claim/parse-claims.ts'
import type { Grader } from '../grader-book.ts'
import type { Listing } from '../listing.ts'
import type { Packs } from '../rules/packs.ts'
import type { Sale, Valuation } from '../valuation.ts'
import { valueClaim } from './value-claim.ts'

/** @param on ISO 8601 date. `null` where no sales are at hand, which is not the same as none that fit. */
export function valueListing(
  listing: Listing,
  sales: readonly Sale[],
  knowledge: { readonly graders: readonly Grader[]; readonly packs: Packs; readonly on: string },
): Valuation | null {
  if (sales.length === 0) return null
  const words = { graders: knowledge.graders, vocabulary: knowledge.packs.vocabulary }
  const { title, specifics, description, price } = listing
  const [claim] = parseClaims({ title, specifics: { ...specifics }, description }, words)
  if (claim === undefined) return null
  return valueClaim(claim, sales, { on: knowledge.on, ask: price, knowledge: words, title })
}
