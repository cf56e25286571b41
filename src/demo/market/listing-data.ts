/**
 * The nouns of the fictional market: what a listing is before any page is built from it.
 * Everything here is invented. Pages, photos and expectations all start from this data.
 */
import type { ViewId } from '../../domain/views.ts'
import type { Shot } from '../drawing/shot.ts'

export const MARKET_IDS = ['quayside', 'moewenmarkt', 'lamplight', 'brambleboard'] as const
export type MarketId = (typeof MARKET_IDS)[number]

/** Where the pages and photos of one run of the market live. No trailing slash. */
export type Origins = Readonly<Record<MarketId | 'photos', string>>

/** What pages link to where no server runs: names that can never resolve (RFC 2606). */
export const EXAMPLE_ORIGINS: Origins = {
  quayside: 'https://www.quayside-lots.example',
  moewenmarkt: 'https://www.moewenmarkt.example',
  lamplight: 'https://www.lamplight-gavel-rooms.example',
  brambleboard: 'https://www.brambleboard.example',
  photos: 'https://pix.tidewater-images.example',
}

export interface DemoPhoto {
  /** File name, unique in the market. */
  readonly file: string
  /** What seller or site says it is; `null` where they say nothing. */
  readonly alt: string | null
  readonly view: ViewId
  readonly shot: Shot
}

export interface DemoSeller {
  readonly name: string
  readonly feedbackCount: number
  readonly feedbackPercent: number
  /** Year. */
  readonly memberSince: string
  readonly location: string
}

export interface DemoListing {
  readonly id: string
  readonly market: MarketId
  readonly path: string
  /** Language that the seller writes in. */
  readonly language: 'en' | 'de'
  readonly title: string
  readonly format: 'auction' | 'fixed' | 'classified'
  readonly priceKind: 'fixed' | 'current-bid' | 'starting-bid' | 'asking' | 'sold'
  /** Decimal string in the market's currency. */
  readonly price: string
  readonly bids: number | null
  readonly increment: string | null
  readonly bestOffer: boolean
  /** `null`: not said. `'0'`: free. */
  readonly shipping: string | null
  readonly estimate: { readonly low: string; readonly high: string } | null
  readonly premiumPercent: number | null
  readonly reserve: 'met' | 'not-met' | 'none' | null
  /** Hours from now; `null` where nothing ends. */
  readonly endsInHours: number | null
  /** Days before now; `null` where it is not sold. */
  readonly soldDaysAgo: number | null
  readonly seller: DemoSeller
  readonly condition: string
  readonly specifics: readonly (readonly [name: string, value: string])[]
  readonly description: readonly string[]
  readonly returns: { readonly accepted: boolean; readonly days: number | null; readonly words: string } | null
  readonly payments: readonly string[]
  readonly itemNumber: string
  readonly categories: readonly string[]
  readonly photos: readonly DemoPhoto[]
}

/** One row of a results or sold page that has no page of its own behind it. */
export interface DemoRow {
  readonly title: string
  readonly price: string
  readonly format: 'auction' | 'fixed'
  readonly bids: number | null
  readonly shipping: string | null
  readonly seller: string
  readonly endsInHours: number | null
  readonly soldDaysAgo: number | null
  readonly itemNumber: string
  readonly photo: { readonly file: string; readonly shot: Shot }
}
