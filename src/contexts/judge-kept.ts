/** Judges a kept offer anew: the words as they were kept, the photos that came since, today's book. Nothing is decided here. */
import { deriveState } from '../domain/dossier/derive-state.ts'
import type { Dossier, KeptPhoto } from '../domain/dossier.ts'
import type { Book } from '../domain/grader-book.ts'
import type { Inspection } from '../domain/inspection.ts'
import type { Listing } from '../domain/listing.ts'
import type { MessageStyle } from '../domain/request/message-style.ts'
import type { Packs } from '../domain/rules/packs.ts'
import type { ViewId } from '../domain/views.ts'
import { judgeOffer, settledIn } from './judge-offer.ts'
import type { Stores } from './stores.ts'

export interface KeptOffer {
  /** `null`: not kept yet. */
  readonly id: string | null
  readonly listing: Listing
  readonly photos: readonly Omit<KeptPhoto, 'sha256'>[]
  readonly viewCorrections: Dossier['viewCorrections']
  readonly settled: Book['settled']
  /** The seller will not show these: they stay open, and no message asks for them again. */
  readonly refused: readonly ViewId[]
}

export interface Rejudging {
  readonly at: string
  readonly messageLanguage: string
  readonly messageStyle: MessageStyle
}

export function keptOffer(dossier: Dossier): KeptOffer {
  const { id, inspection, photos, viewCorrections, log } = dossier
  const { refusedViews } = deriveState(log)
  return {
    id,
    listing: inspection.listing,
    photos,
    viewCorrections,
    settled: settledIn(dossier),
    refused: refusedViews,
  }
}

export async function judgeKept(
  { id, listing, photos, viewCorrections, settled, refused }: KeptOffer,
  { at, messageLanguage, messageStyle }: Rejudging,
  stores: Stores,
  packs: Packs,
): Promise<Inspection> {
  const listed = new Set(listing.photos.map(({ url }) => url))
  const came = photos.filter(({ url }) => !listed.has(url)).map(({ url, alt }) => ({ url, alt }))
  const inspection = await judgeOffer(
    {
      // What came later is looked at like the listing's own photos, the words in its file name included.
      listing: { ...listing, photos: [...listing.photos, ...came] },
      // By its address in the dossier, whatever the file was called when it was examined.
      photos: photos.flatMap(({ url, facts }) => (facts === null ? [] : [{ ...facts, file: url }])),
      viewCorrections,
      settled,
      viewsRefused: refused,
      dossier: id,
      messageLanguage,
      messageMaxLength: null,
      messageMostViews: null,
      messageStyle,
      readAt: at,
    },
    stores,
    packs,
  )
  return { ...inspection, listing }
}
