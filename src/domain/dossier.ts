/**
 * The kept record of one listing. Plain data, stored as it is and exported as it is. What stage it is in, what was asked and
 * which deadlines are open is not stored: `dossier/derive-state.ts` derives it from the log.
 * Bytes (photos, screenshots) are stored apart, by SHA-256, and referred to.
 */
import type { KeptComparison } from './examination.ts'
import type { Outcome } from './facts.ts'
import type { Inspection } from './inspection.ts'
import type { Listing } from './listing.ts'
import type { PhotoFacts } from './photo-facts.ts'
import type { ViewId } from './views.ts'

/** Every stored record carries these from the first day, so that copies on two machines can be merged. */
export interface RecordMeta {
  readonly id: string
  /** Grows by one with every write. */
  readonly revision: number
  /** ISO 8601 in UTC. */
  readonly createdAt: string
  readonly updatedAt: string
  /** A tombstone: deleted at this time, kept so that a merge cannot bring it back. */
  readonly deletedAt: string | null
}

export interface KeptPhoto {
  readonly url: string
  readonly alt: string | null
  /** Hex; `null` where the bytes could not be kept. */
  readonly sha256: string | null
  readonly mediaType: string | null
  readonly facts: PhotoFacts | null
}

/** What happened before steps had fields of their own, and what still needs none. `detail` is all there is. */
export interface PlainEntry {
  /** ISO 8601 in UTC. */
  readonly at: string
  /** Absent in entries of older versions; those are called by their place, see `entryName`. */
  readonly id?: string
  readonly event:
    | 'kept'
    | 'request-copied'
    | 'request-inserted'
    | 'request-sent'
    | 'concern-settled'
    | 'note'
    | 'outcome'
    | 'deleted'
    | 'restored'
  readonly detail: string
}

/** A step in the life of a dossier. `detail` holds the person's or the seller's own words, empty where there are none. */
export type LifeStep =
  /** `revision`: place in `Dossier.revisions` of what was seen before; `null`: nothing differed. Absent in older entries. */
  | { readonly event: 'seen-again'; readonly detail: string; readonly revision?: number | null }
  /** `detail`: the exact words sent. */
  | {
      readonly event: 'asked'
      readonly detail: string
      readonly views: readonly ViewId[]
      readonly language: string | null
    }
  /** `detail`: the seller's words. `photos`: URLs among `Dossier.photos`. A refusal is a refusal, not a motive. */
  | {
      readonly event: 'answered'
      readonly detail: string
      readonly photos: readonly string[]
      readonly shows: readonly ViewId[]
      readonly refused: readonly ViewId[]
    }
  | { readonly event: 'decided'; readonly detail: string; readonly decision: Decision }
  | { readonly event: 'arrived'; readonly detail: string }
  | { readonly event: 'checked'; readonly detail: string; readonly findings: readonly ArrivalFinding[] }
  | { readonly event: 'closed'; readonly detail: string; readonly outcome: Outcome | null }
  /** The same id again moves the deadline. */
  | { readonly event: 'deadline-set'; readonly detail: string; readonly deadline: Deadline }
  | { readonly event: 'deadline-met' | 'deadline-lifted'; readonly detail: string; readonly deadline: string }
  /** Takes back the entry of that name; taking back an `undone` brings its entry back. */
  | { readonly event: 'undone'; readonly detail: string; readonly entry: string }

export type LifeEntry = LifeStep & { readonly at: string; readonly id?: string }

/** Append-only: an entry is never altered or removed. */
export type LogEntry = PlainEntry | LifeEntry

export const DECISIONS = ['bought', 'declined', 'lost'] as const
export type Decision = (typeof DECISIONS)[number]

export const DEADLINE_KINDS = ['auction-end', 'reply', 'payment', 'arrival', 'inspection', 'return', 'dispute'] as const
export type DeadlineKind = (typeof DEADLINE_KINDS)[number]

export interface Deadline {
  readonly id: string
  readonly kind: DeadlineKind
  /** ISO 8601 in UTC. */
  readonly at: string
  /** IANA name of the zone in which it was stated, so that it is shown as it was meant. */
  readonly zone: string
  /** Read off the page, entered, or taken from the usual periods that we offer. */
  readonly from: 'page' | 'entered' | 'offered'
  readonly note: string
}

/** One step of the arrival check with the piece in hand; the ids are in `dossier/arrival.ts`. */
export interface ArrivalFinding {
  readonly step: string
  readonly finding: 'as-listed' | 'differs' | 'cannot-tell' | 'not-done'
  readonly note: string
  /** In `unit`, as the person measured it; `null`: nothing was measured. */
  readonly measured: { readonly value: number; readonly unit: 'mm' | 'g' } | null
  /** URLs among `Dossier.photos` that show it. */
  readonly photos: readonly string[]
}

/** What a kept listing was before it was seen again otherwise. */
export interface ListingRevision {
  /** ISO 8601 in UTC: when this state was read. */
  readonly capturedAt: string
  readonly listing: Listing
  readonly pageText: string
  /** What the page showed then, in its order. */
  readonly photos: readonly {
    readonly url: string
    readonly sha256: string | null
    readonly pdq: string | null
  }[]
  /** Hex SHA-256 of the screenshot of then. */
  readonly screenshot: string | null
}

export interface Dossier extends RecordMeta {
  readonly title: string
  readonly url: string | null
  /** ISO 8601 in UTC: when the page was read. */
  readonly capturedAt: string
  /** The page's visible text as read. */
  readonly pageText: string
  readonly inspection: Inspection
  readonly photos: readonly KeptPhoto[]
  /** The person's word on what a photo shows, by the photo's URL; it outranks pixels and words. */
  readonly viewCorrections: Readonly<Record<string, ViewId | 'other'>>
  /** How it ended, `null` while it is open. */
  readonly outcome: Outcome | null
  /** Hex SHA-256 of the kept screenshot (PNG). */
  readonly screenshot: string | null
  /** Hex SHA-256 of the page's own markup as it stood, where it was kept. */
  readonly savedPage?: string | null
  readonly notes: string
  readonly tags: readonly string[]
  /** Earlier states, oldest first; absent: seen only once, or always alike. */
  readonly revisions?: readonly ListingRevision[]
  readonly log: readonly LogEntry[]
  /** Comparisons with exemplars, one an examination, the latest state of each. */
  readonly comparisons?: readonly KeptComparison[]
}
