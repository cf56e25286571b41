/** Keeps the listing in front as a dossier: words, photos, screenshot, inspection and time, all or nothing. */
import type { Dossier, KeptPhoto } from '../../domain/dossier.ts'
import type { Translate } from '../../domain/translate.ts'
import { takeScreenshot } from '../../platform/screenshot.ts'
import { findActiveTab } from '../../platform/tabs.ts'
import type { DossierDraft } from '../../storage/dossiers.ts'
import type { Stores } from '../stores.ts'
import type { ListingInFront } from './listing-state.ts'
import { markListing } from './mark-page.ts'
import type { AttachedPage } from './page-link.ts'

/** Milliseconds in which a page has drawn itself without our marks. Ours, no source. */
const REDRAW_MS = 120

/** The page as the seller shows it, without our marks; `null` where another tab is in front or the browser refuses. */
async function picture(page: AttachedPage, windowId: number | null): Promise<Uint8Array<ArrayBuffer> | null> {
  const inFront = await findActiveTab(windowId)
  if (inFront?.tabId !== page.tabId) return null
  await page.call('clear', null)
  await new Promise((resolve) => setTimeout(resolve, REDRAW_MS))
  return takeScreenshot(windowId)
}

export interface Keeping {
  readonly front: ListingInFront
  readonly page: AttachedPage
  readonly notes: string
  readonly windowId: number | null
}

export async function keepListing(
  { front, page, notes, windowId }: Keeping,
  stores: Stores,
  t: Translate,
): Promise<Dossier> {
  const { listing, snapshot, inspection, readAt, corrections, photos, kept } = front
  const screenshot = await picture(page, windowId)
  await markListing(page, inspection, t)
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
    photos: [...listing.photos, ...photos.added()].map(
      ({ url, alt }): Omit<KeptPhoto, 'sha256'> & { bytes: ArrayBuffer | null } => {
        const shelved = photos.get(url)
        return {
          url,
          alt,
          mediaType: shelved?.mediaType ?? null,
          facts: shelved?.facts ?? null,
          bytes: shelved?.bytes?.buffer ?? null,
        }
      },
    ),
    screenshot: screenshot?.buffer ?? null,
  }
  return kept === null ? stores.dossiers.keep(draft) : stores.dossiers.keepAgain(kept.id, draft)
}
