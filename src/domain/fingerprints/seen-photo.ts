/** A kept photo that is, or may be, the one in hand. Says how sure that is; what it means is a rule's business. */
import type { Outcome, Trace } from '../facts.ts'

/**
 * `same-file`: byte for byte; `same-photo-changed`: one photo, saved again, shrunk, marked, cropped, framed, mirrored or turned;
 * `look-yourself`: alike, as two photos of one design are.
 */
export type Sameness = 'same-file' | 'same-photo-changed' | 'look-yourself'

export interface SeenPhoto {
  /** URL of the photo in hand. */
  readonly photo: string
  readonly sameness: Sameness
  /** The dossier that holds the other, and what is known of it. */
  readonly dossier: string
  readonly title: string
  readonly seller: string | null
  /** ISO 8601 in UTC: when that dossier was captured. */
  readonly at: string
  readonly outcome: Outcome | null
  /** Hex SHA-256 of the other photo's kept bytes; `null`: not kept. */
  readonly sha256: string | null
  readonly mediaType: string | null
}

/** What a rule may rest on. A likeness that only the person can judge is none; the same file is traced by its hash already. */
export function tracesOfSeen(seen: readonly SeenPhoto[]): Trace[] {
  return seen
    .filter(({ sameness }) => sameness === 'same-photo-changed')
    .map(({ photo, dossier, title, seller, at, outcome }) => ({
      kind: 'same-photo',
      dossier,
      title,
      seller,
      at,
      outcome,
      detail: photo,
    }))
}
