/**
 * The kept record of one listing. Plain data, stored as it is and exported as it is.
 * Bytes (photos, screenshots) are stored apart, by SHA-256, and referred to.
 */
import type { Outcome } from './facts.ts'
import type { Inspection } from './inspection.ts'
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

export interface LogEntry {
  /** ISO 8601 in UTC. */
  readonly at: string
  readonly event:
    | 'kept'
    | 'seen-again'
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
  readonly notes: string
  readonly tags: readonly string[]
  readonly log: readonly LogEntry[]
}
