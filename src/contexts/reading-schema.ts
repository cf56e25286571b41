/**
 * What a content script may hand over as a reading. It runs in a process that the page's own code shares, so its messages are
 * parsed like any stranger's. Unknown fields are dropped; a field missing here does not compile.
 */
import * as v from 'valibot'
import type { Listing, NoListing, PageReading, Results } from '../domain/listing.ts'
import type { SiteHint } from '../domain/site-hint.ts'

// Generous for a listing, too small to fill the memory of a panel: the reader's own budget lies far below. Ours, no source.
const TEXT = v.pipe(v.string(), v.maxLength(200_000))
const ADDRESS = v.pipe(v.string(), v.maxLength(20_000))
const LONGEST_LIST = 2_000

const list = <Item>(item: v.GenericSchema<unknown, Item>) => v.pipe(v.array(item), v.maxLength(LONGEST_LIST))

const MONEY = v.object({
  amount: v.pipe(v.string(), v.regex(/^-?\d{1,20}(\.\d{1,10})?$/)),
  currency: v.nullable(v.pipe(v.string(), v.regex(/^[A-Z]{3}$/))),
})

const SOURCE = v.picklist(['hint', 'json-ld', 'microdata', 'rdfa', 'open-graph', 'twitter', 'meta', 'state', 'page'])

const PROVENANCE = v.object({
  from: SOURCE,
  confidence: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
  where: v.nullable(TEXT),
  quote: v.exactOptional(TEXT),
  note: v.exactOptional(TEXT),
})

const LISTING = v.object({
  kind: v.literal('listing'),
  url: v.nullable(ADDRESS),
  title: v.nullable(TEXT),
  price: v.nullable(MONEY),
  priceKind: v.nullable(v.picklist(['fixed', 'current-bid', 'starting-bid', 'asking', 'sold'])),
  estimate: v.nullable(v.object({ low: MONEY, high: MONEY })),
  shipping: v.nullable(MONEY),
  premiumPercent: v.nullable(v.number()),
  saleFormat: v.nullable(v.picklist(['auction', 'fixed', 'classified'])),
  endsAt: v.nullable(TEXT),
  sold: v.nullable(v.boolean()),
  soldAt: v.nullable(TEXT),
  seller: v.nullable(
    v.object({
      name: TEXT,
      url: v.nullable(ADDRESS),
      feedbackCount: v.nullable(v.number()),
      feedbackPercent: v.nullable(v.number()),
      memberSince: v.nullable(TEXT),
    }),
  ),
  condition: v.nullable(TEXT),
  specifics: v.record(TEXT, TEXT),
  description: v.nullable(TEXT),
  returns: v.nullable(v.picklist(['accepted', 'refused'])),
  returnsDays: v.nullable(v.number()),
  minimumIncrement: v.nullable(MONEY),
  bids: v.nullable(v.number()),
  reserve: v.nullable(v.picklist(['met', 'not-met', 'none'])),
  bestOffer: v.nullable(v.boolean()),
  payments: list(TEXT),
  location: v.nullable(TEXT),
  itemNumber: v.nullable(TEXT),
  categories: list(TEXT),
  language: v.nullable(TEXT),
  photos: list(v.object({ url: ADDRESS, alt: v.nullable(TEXT) })),
  disagreements: list(v.object({ field: TEXT, shown: TEXT, data: TEXT, source: SOURCE })),
  partlyRead: v.boolean(),
  provenance: v.record(TEXT, PROVENANCE),
}) satisfies v.GenericSchema<unknown, Listing>

const RESULTS = v.object({
  kind: v.literal('results'),
  url: v.nullable(ADDRESS),
  rows: list(
    v.object({
      title: TEXT,
      url: v.nullable(ADDRESS),
      price: v.nullable(MONEY),
      sold: v.nullable(v.boolean()),
      soldAt: v.nullable(TEXT),
      photo: v.nullable(ADDRESS),
      seller: v.nullable(TEXT),
      where: v.exactOptional(TEXT),
    }),
  ),
  partlyRead: v.boolean(),
}) satisfies v.GenericSchema<unknown, Results>

const NO_LISTING = v.object({
  kind: v.literal('none'),
  url: v.nullable(ADDRESS),
}) satisfies v.GenericSchema<unknown, NoListing>

export const PAGE_READING: v.GenericSchema<unknown, PageReading> = v.variant('kind', [LISTING, RESULTS, NO_LISTING])

export const SITE_HINT: v.GenericSchema<unknown, SiteHint> = v.object({
  host: TEXT,
  field: TEXT,
  selectors: list(TEXT),
})
