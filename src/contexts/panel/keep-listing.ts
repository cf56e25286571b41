/** Keeps the listing in front as a dossier: words, photos, screenshot, inspection and time, all or nothing. */
import type { Dossier, KeptPhoto } from '../../domain/dossier.ts'
import { takeScreenshot } from '../../platform/screenshot.ts'
import type { DossierDraft } from '../../storage/dossiers.ts'
import type { Stores } from '../stores.ts'
import type { ListingInFront } from './listing-state.ts'

export async function keepListing(
  front: ListingInFront,
  notes: string,
  windowId: number | null,
  stores: Stores,
): Promise<Dossier> {
  const { listing, snapshot, inspection, readAt, corrections, photos, kept } = front
  const screenshot = await takeScreenshot(windowId)
  const draft: DossierDraft = {
    title: listing.title ?? listing.url ?? '',
    url: listing.url,
    capturedAt: readAt,
    pageText: snapshot.pageText,
    inspection,
    viewCorrections: corrections,
    outcome: kept?.outcome ?? null,
    notes,
    tags: kept?.tags ?? [],
    photos: listing.photos.map(({ url, alt }): Omit<KeptPhoto, 'sha256'> & { bytes: ArrayBuffer | null } => {
      const shelved = photos.get(url)
      return {
        url,
        alt,
        mediaType: shelved?.mediaType ?? null,
        facts: shelved?.facts ?? null,
        bytes: shelved?.bytes?.buffer ?? null,
      }
    }),
    screenshot: screenshot?.buffer ?? null,
  }
  return kept === null ? stores.dossiers.keep(draft) : stores.dossiers.keepAgain(kept.id, draft)
}
