/**
 * What a careful buyer finds on each listing of the market, written by hand from the trade’s practice before any rule ran.
 * Concerns are complete for the rules named in `COVERED_RULES`; on a clean listing no rule at all may raise anything.
 */
import type { Claim } from '../../domain/claim.ts'
import type { Stance } from '../../domain/inspection.ts'
import type { Listing } from '../../domain/listing.ts'
import type { ViewId, ViewStatus } from '../../domain/views.ts'
import { shiftHours } from '../market/clock.ts'
import type { DemoListing, MarketId } from '../market/listing-data.ts'
import { CURRENCIES } from '../market/market-data.ts'

export const COVERED_RULES = [
  'raw-high-value',
  'unknown-grader',
  'screw-down-holder',
  'price-far-below-sales',
  'missing-holder-views',
  'missing-back',
  'too-few-photos',
  'buried-reprint',
  'hedged-authenticity',
  'off-platform-payment',
  'no-returns',
  'urgency',
  'certificate-missing',
  'certificate-hidden',
  'low-resolution-photos',
] as const

export type CoveredRule = (typeof COVERED_RULES)[number]

export interface ExpectedInspection {
  /** Why the listing is in the market. */
  readonly about: string
  /** By the words alone. */
  readonly stance: Stance
  readonly concerns: readonly CoveredRule[]
  /** Those of `concerns` that words alone cannot raise: the photos' bytes are needed. */
  readonly needsPixels: readonly CoveredRule[]
  /** Views that the words beside the photos decide; a view that is not named is not judged. */
  readonly views: Readonly<Partial<Record<ViewId, ViewStatus>>>
  /** What changes once the photos' pixels are seen. */
  readonly viewsFromPixels: Readonly<Partial<Record<ViewId, ViewStatus>>>
  /** Fields that the words state; a field that is not named is not judged. */
  readonly claim: Readonly<Partial<Omit<Claim, 'quotes'>>>
}

export interface ExpectedListing
  extends Pick<
    Listing,
    'title' | 'price' | 'priceKind' | 'saleFormat' | 'endsAt' | 'sold' | 'premiumPercent' | 'estimate' | 'shipping'
  > {
  readonly sellerName: string
  readonly returns: Listing['returns']
  /** Of the gallery, in its order. */
  readonly photoFiles: readonly string[]
}

/** Markets whose data says that an offer is open; the others say so only by offering it. */
const STATES_AVAILABILITY: readonly MarketId[] = ['quayside', 'moewenmarkt']

/** What the reader should find on the listing's page. From the data, since the data is what the page was built from. */
export function expectedListing(listing: DemoListing, now: string): ExpectedListing {
  const currency = CURRENCIES[listing.market]
  const money = (amount: string) => ({ amount, currency })
  return {
    title: listing.title,
    price: money(listing.price),
    priceKind: listing.priceKind,
    saleFormat: listing.format,
    endsAt: listing.endsInHours === null ? null : shiftHours(now, listing.endsInHours),
    sold: listing.soldDaysAgo !== null ? true : STATES_AVAILABILITY.includes(listing.market) ? false : null,
    premiumPercent: listing.premiumPercent,
    estimate: listing.estimate && { low: money(listing.estimate.low), high: money(listing.estimate.high) },
    shipping: listing.shipping === null ? null : money(listing.shipping),
    sellerName: listing.seller.name,
    returns: listing.returns === null ? null : listing.returns.accepted ? 'accepted' : 'refused',
    photoFiles: listing.photos.map((photo) => photo.file),
  }
}
