/** Gathers all that is known about one offer and lets `inspect` decide. Nothing is decided here. */
import { parseClaims } from '../domain/claim/parse-claims.ts'
import type { Dossier } from '../domain/dossier.ts'
import type { Facts } from '../domain/facts.ts'
import { type SeenPhoto, tracesOfSeen } from '../domain/fingerprints/seen-photo.ts'
import type { Book } from '../domain/grader-book.ts'
import { inspect } from '../domain/inspect.ts'
import type { Inspection } from '../domain/inspection.ts'
import type { Listing } from '../domain/listing.ts'
import type { PhotoFacts } from '../domain/photo-facts.ts'
import type { MessageStyle } from '../domain/request/message-style.ts'
import type { Packs } from '../domain/rules/packs.ts'
import { findTraces } from '../storage/traces.ts'
import { PANEL_POINTS, PANEL_SALES, priceOffer } from './price-offer.ts'
import type { Stores } from './stores.ts'

export interface Offer {
  readonly listing: Listing
  readonly photos: readonly PhotoFacts[]
  /** Kept photos like those in hand. */
  readonly seen?: readonly SeenPhoto[]
  readonly viewCorrections: NonNullable<Facts['viewCorrections']>
  readonly settled: Book['settled']
  /** Id of its own dossier, which is no trace; absent: known by its address. */
  readonly dossier?: string | null
  readonly messageLanguage: string
  readonly messageMaxLength: number | null
  /** `null`: the message asks for all that are open. */
  readonly messageMostViews: number | null
  readonly messageStyle?: MessageStyle
  readonly viewsRefused?: Facts['viewsRefused']
  /** ISO 8601 in UTC: when the page was read. */
  readonly readAt: string
}

export async function judgeOffer(offer: Offer, stores: Stores, packs: Packs): Promise<Inspection> {
  const { listing, photos } = offer
  const book = await stores.readBook(offer.settled)
  const knowledge = { graders: book.graders, vocabulary: packs.vocabulary }
  const { title, specifics, description } = listing
  const [claim] = parseClaims({ title, specifics: { ...specifics }, description }, knowledge)
  const hashes = new Map(photos.map((photo) => [photo.file, photo.sha256]))
  const traces = await findTraces(stores.database, {
    url: listing.url,
    dossier: offer.dossier ?? null,
    certificate: claim?.certificate ?? null,
    seller: listing.seller?.name ?? null,
    description,
    photos: listing.photos.map(({ url }) => ({ url, sha256: hashes.get(url) ?? null })),
  })
  const priced = claim && {
    claim,
    title,
    ask: listing.price,
    item: { url: listing.url, fingerprints: [] },
    on: offer.readAt.slice(0, 10),
  }
  const most = { sales: PANEL_SALES, points: PANEL_POINTS }
  const valuation = priced ? await priceOffer(priced, stores, knowledge, most) : null
  return inspect(
    {
      listing,
      photos,
      valuation,
      traces: [...traces, ...tracesOfSeen(offer.seen ?? [])],
      messageLanguage: offer.messageLanguage,
      messageMaxLength: offer.messageMaxLength,
      messageMostViews: offer.messageMostViews ?? undefined,
      messageStyle: offer.messageStyle,
      viewsRefused: offer.viewsRefused,
      viewCorrections: offer.viewCorrections,
      now: offer.readAt,
    },
    book,
    packs,
  )
}

/** The buyer's reasons that a kept listing carries, by rule. */
export function settledIn(kept: Pick<Dossier, 'inspection'> | null): Record<string, string> {
  const concerns = kept?.inspection.concerns ?? []
  return Object.fromEntries(concerns.flatMap(({ rule, settledBy }) => (settledBy === null ? [] : [[rule, settledBy]])))
}
