/** All listings of all markets, and how to find one. */
import type { DemoListing, MarketId } from './listing-data.ts'
import { BRAMBLEBOARD_LISTINGS } from './listings/brambleboard.ts'
import { LAMPLIGHT_LISTINGS } from './listings/lamplight.ts'
import { MOEWENMARKT_LISTINGS } from './listings/moewenmarkt.ts'
import { QUAYSIDE_LISTINGS } from './listings/quayside.ts'

export const CURRENCIES: Readonly<Record<MarketId, string>> = {
  quayside: 'EUR',
  moewenmarkt: 'EUR',
  lamplight: 'GBP',
  brambleboard: 'EUR',
}

export const LISTINGS: readonly DemoListing[] = [
  ...QUAYSIDE_LISTINGS,
  ...MOEWENMARKT_LISTINGS,
  ...LAMPLIGHT_LISTINGS,
  ...BRAMBLEBOARD_LISTINGS,
]

export function listingsOf(market: MarketId): readonly DemoListing[] {
  return LISTINGS.filter((listing) => listing.market === market)
}

export function findListing(id: string): DemoListing {
  const listing = LISTINGS.find((candidate) => candidate.id === id)
  if (!listing) throw new Error(`no listing "${id}" in the market`)
  return listing
}
