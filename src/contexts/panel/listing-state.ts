/** The listing in front of the panel, and how it is put into the panel's state. */

import type { Dossier } from '../../domain/dossier.ts'
import type { Grader } from '../../domain/grader-book.ts'
import type { Inspection } from '../../domain/inspection.ts'
import type { Listing } from '../../domain/listing.ts'
import type { MessageTone } from '../../domain/request/message-style.ts'
import type { ViewId } from '../../domain/views.ts'
import type { ListingState, PanelPhoto, PhotoAccess, SeenElsewhere } from '../../ui/panel/panel-state.ts'
import type { PageSnapshot } from '../protocol.ts'
import type { PhotoShelf } from './photo-shelf.ts'

export interface ListingInFront {
  readonly listing: Listing
  readonly snapshot: PageSnapshot
  /** ISO 8601 in UTC. */
  readonly readAt: string
  readonly photos: PhotoShelf
  /** Kept photos like those in hand, by the URL of the one in hand. */
  readonly seen: Map<string, readonly SeenElsewhere[]>
  /** The buyer's word on what a photo shows, by its URL. */
  readonly corrections: Record<string, ViewId | 'other'>
  /** The buyer's reason, by rule. */
  readonly settled: Record<string, string>
  graders: readonly Grader[]
  messageMostViews: number | null
  /** What the buyer wants and reckons with, beside this offer. */
  prices?: Pick<ListingState, 'want' | 'costs'>
  messageTone: MessageTone
  kept: Dossier | null
  access: PhotoAccess
  progress: ListingState['photoProgress']
  inspection: Inspection
}

export function stateOf(front: ListingInFront, update: ListingState['update']): ListingState {
  const { inspection, snapshot, kept, graders } = front
  const { listing, claim } = inspection
  return {
    phase: 'listing',
    inspection,
    photos: photosOf(front),
    photoAccess: front.access,
    photoHosts: askedHosts(listing, snapshot),
    photoProgress: front.progress,
    messageBox: snapshot.messageBox,
    messageMostViews: front.messageMostViews,
    messageTone: front.messageTone,
    kept: kept && {
      dossierId: kept.id,
      at: kept.capturedAt,
      notes: kept.notes,
      differs: differs(listing, kept.inspection.listing),
    },
    update,
    graders,
    unknownGrader: claim.grader !== null && !isKnown(claim.grader, graders) ? claim.grader : null,
    pageLanguage: listing.language,
    ...front.prices,
  }
}

/** Those of the page, then those that the person added. */
function photosOf({ listing, photos, corrections, seen }: ListingInFront): PanelPhoto[] {
  const show = ({ url, alt }: { url: string; alt: string | null }, added: boolean): PanelPhoto => {
    const shelved = photos.get(url)
    return {
      url,
      alt,
      thumbnail: shelved?.address ?? null,
      facts: shelved?.facts ?? null,
      assigned: corrections[url] ?? null,
      step: photos.step(url),
      added,
      seen: seen.get(url) ?? [],
      cornersByHand: photos.hasCard(url),
    }
  }
  const own = photos.added().filter(({ url }) => !listing.photos.some((photo) => photo.url === url))
  return [...listing.photos.map((photo) => show(photo, false)), ...own.map((photo) => show(photo, true))]
}

export function hostOf(url: string | null): string | null {
  return url !== null && URL.canParse(url) ? new URL(url).hostname : null
}

function askedHosts(listing: Listing, { photoOrigins }: PageSnapshot): string[] {
  const hosts = [listing.url, ...photoOrigins].map(hostOf).filter((host) => host !== null)
  return [...new Set(hosts)]
}

function isKnown(token: string, graders: readonly Grader[]): boolean {
  const fold = (word: string) => word.toLowerCase()
  return graders.some(({ name, abbreviations }) => [name, ...abbreviations].map(fold).includes(fold(token)))
}

/** What the page says, without where on the page it stood. */
function differs(now: Listing, kept: Listing): boolean {
  const words = ({ provenance: _provenance, disagreements: _disagreements, ...said }: Listing) => JSON.stringify(said)
  return words(now) !== words(kept)
}
