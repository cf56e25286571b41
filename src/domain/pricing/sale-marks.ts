/**
 * What the buyer said about sales: this one does not count, none of this seller or venue counts, this one is another card. A marked
 * sale stays visible with its reason; the mark can be lifted. Must not change a sale.
 */
import type { Claim } from '../claim.ts'
import { foldForSearch } from '../dossier-summary.ts'
import { yearSpan } from '../rules/compare-facts.ts'
import type { Said, Sale } from '../valuation.ts'
import { said } from './words.ts'

export type SaleMark =
  | { readonly kind: 'sale'; readonly sale: string; readonly reason: string }
  | { readonly kind: 'seller'; readonly name: string; readonly reason: string }
  | { readonly kind: 'venue'; readonly name: string; readonly reason: string }
  /** Not the card of this key, whatever its words say. */
  | { readonly kind: 'another-card'; readonly sale: string; readonly card: string }

/** The card that a claim names, for remembering what a person said of it: year, number and subject, folded. */
export function cardKey(claim: Claim): string {
  const year = claim.year === null ? null : yearSpan(claim.year)
  const words = [claim.subject ?? claim.set, claim.variation].map((text) => foldForSearch(text ?? '').trim())
  const number = foldForSearch(claim.cardNumber ?? '').replace(/^(?:#|no\.?|nr\.?)\s*/, '')
  return [year?.[0] ?? claim.year ?? '', number.replace(/^0+(?=\d)/, ''), ...words].join('|')
}

/** @returns for a sale why the buyer does not count it, `null` where they do. */
export function createMarkReader(marks: readonly SaleMark[], card: string): (sale: Sale) => Said | null {
  const sales = new Map<string, string>()
  const sellers = new Map<string, string>()
  const venues = new Map<string, string>()
  const others = new Set<string>()
  for (const mark of marks) {
    if (mark.kind === 'sale') sales.set(mark.sale, mark.reason)
    else if (mark.kind === 'seller') sellers.set(foldForSearch(mark.name), mark.reason)
    else if (mark.kind === 'venue') venues.set(foldForSearch(mark.name), mark.reason)
    else if (mark.card === card) others.add(mark.sale)
  }
  return (sale) => {
    if (others.has(sale.id)) return said('why.rejected')
    const own = sales.get(sale.id)
    if (own !== undefined) return said('why.sale-not-counted', { words: own })
    const bySeller = sale.seller === null ? undefined : sellers.get(foldForSearch(sale.seller))
    if (bySeller !== undefined)
      return said('why.seller-not-counted', { seller: sale.seller as string, words: bySeller })
    const byVenue = sale.venue === null ? undefined : venues.get(foldForSearch(sale.venue))
    if (byVenue !== undefined) return said('why.venue-not-counted', { venue: sale.venue as string, words: byVenue })
    return null
  }
}
