/**
 * What the reader takes from a page: one listing, or the rows of a results page, or nothing.
 * Field names are a public contract (`read --json`); add fields freely, never rename. Unknown is `null`, never a guess.
 */
import type { Money } from './money.ts'

/** Where on the page a field came from, strongest claim of origin first. */
export type Source = 'hint' | 'json-ld' | 'microdata' | 'rdfa' | 'open-graph' | 'twitter' | 'meta' | 'state' | 'page'

export interface Provenance {
  readonly from: Source
  /** 0 (no more than a guess) to 1 (stated twice, in agreement). Ours, uncalibrated: order, not probability. */
  readonly confidence: number
  /** A CSS selector of the element, `null` where the source has no element that can be shown. */
  readonly where: string | null
  /** The words as they stand on the page. */
  readonly quote?: string
  /** Set where something had to be assumed, such as which dollar a lone `$` is. */
  readonly note?: string
}

export type PriceKind = 'fixed' | 'current-bid' | 'starting-bid' | 'asking' | 'sold'
export type SaleFormat = 'auction' | 'fixed' | 'classified'

export interface Seller {
  readonly name: string
  readonly url: string | null
  readonly feedbackCount: number | null
  /** Share of positive feedback, 0–100. */
  readonly feedbackPercent: number | null
  /** As written on the page when no date can be read from it, else ISO 8601. */
  readonly memberSince: string | null
}

export interface ListingPhoto {
  /** Absolute URL of the largest variant that the page itself names. */
  readonly url: string
  /** Alternative text or caption, `null` where the page gives none. */
  readonly alt: string | null
}

/** The page shows one thing and its data says another; the page won. */
export interface Disagreement {
  readonly field: string
  readonly shown: string
  readonly data: string
  readonly source: Source
}

export interface Listing {
  readonly kind: 'listing'
  readonly url: string | null
  readonly title: string | null
  readonly price: Money | null
  readonly priceKind: PriceKind | null
  readonly estimate: { readonly low: Money; readonly high: Money } | null
  readonly shipping: Money | null
  /** Buyer's premium in per cent of the hammer price. */
  readonly premiumPercent: number | null
  readonly saleFormat: SaleFormat | null
  /** ISO 8601 in UTC. */
  readonly endsAt: string | null
  readonly sold: boolean | null
  /** ISO 8601 in UTC, or a date alone where the page gives no time. */
  readonly soldAt: string | null
  readonly seller: Seller | null
  readonly condition: string | null
  readonly specifics: Readonly<Record<string, string>>
  readonly description: string | null
  readonly returns: 'accepted' | 'refused' | null
  readonly returnsDays: number | null
  readonly minimumIncrement: Money | null
  readonly bids: number | null
  readonly reserve: 'met' | 'not-met' | 'none' | null
  readonly bestOffer: boolean | null
  readonly payments: readonly string[]
  readonly location: string | null
  readonly itemNumber: string | null
  /** From the broadest to the narrowest. */
  readonly categories: readonly string[]
  /** BCP 47 tag of the page's language. */
  readonly language: string | null
  readonly photos: readonly ListingPhoto[]
  readonly disagreements: readonly Disagreement[]
  /** `true` when the page was larger than the reader's budget and was read in part. */
  readonly partlyRead: boolean
  readonly provenance: Readonly<Record<string, Provenance>>
}

/** An offer of which nothing is known yet. */
export function emptyListing(url: string | null): Listing {
  return {
    kind: 'listing',
    url,
    title: null,
    price: null,
    priceKind: null,
    estimate: null,
    shipping: null,
    premiumPercent: null,
    saleFormat: null,
    endsAt: null,
    sold: null,
    soldAt: null,
    seller: null,
    condition: null,
    specifics: {},
    description: null,
    returns: null,
    returnsDays: null,
    minimumIncrement: null,
    bids: null,
    reserve: null,
    bestOffer: null,
    payments: [],
    location: null,
    itemNumber: null,
    categories: [],
    language: null,
    photos: [],
    disagreements: [],
    partlyRead: false,
    provenance: {},
  }
}

export interface ResultRow {
  readonly title: string
  readonly url: string | null
  readonly price: Money | null
  readonly sold: boolean | null
  readonly soldAt: string | null
  readonly photo: string | null
  readonly seller: string | null
  /** CSS selector of the row's element on the page. */
  readonly where?: string
}

export interface Results {
  readonly kind: 'results'
  readonly url: string | null
  readonly rows: readonly ResultRow[]
  readonly partlyRead: boolean
}

/** The page is no listing and no list of them. */
export interface NoListing {
  readonly kind: 'none'
  readonly url: string | null
}

export type PageReading = Listing | Results | NoListing
