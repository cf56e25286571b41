/** The few fields of a dossier that a list shows and a search looks through. Derived, never edited. */
import { type DeadlineState, deriveState, type Stage } from './dossier/derive-state.ts'
import type { Decision, Dossier } from './dossier.ts'
import type { Outcome } from './facts.ts'
import type { Stance } from './inspection.ts'
import type { Money } from './money.ts'

/** Where a dossier stands, as far as a list of what is due needs it. */
export interface SummaryLife {
  readonly stage: Stage
  /** ISO 8601 in UTC. */
  readonly since: string | null
  readonly decision: Decision | null
  /** A request went out then and nothing came back yet. */
  readonly waitingSince: string | null
  /** Those that are open, soonest first; none of a closed dossier. */
  readonly deadlines: readonly Pick<DeadlineState, 'id' | 'kind' | 'at' | 'zone'>[]
}

/** Grows with every change to what a summary holds: older ones are made again. */
export const SUMMARY_VERSION = 2

export interface DossierSummary {
  /** Absent in those of versions that did not count. */
  readonly version?: number
  readonly id: string
  readonly title: string
  readonly url: string | null
  readonly seller: string | null
  readonly price: Money | null
  readonly stance: Stance
  readonly openConcerns: number
  readonly certificate: string | null
  /** Hex SHA-256 of every kept photo. */
  readonly photoHashes: readonly string[]
  /** The beginning of the description, folded: two sellers with the same one did not both write it. `null`: too short to tell. */
  readonly textStart: string | null
  readonly outcome: Outcome | null
  /** Absent in summaries of older versions, whose dossiers had no steps: kept, or closed by their outcome. */
  readonly life?: SummaryLife
  /** Hex SHA-256 of the first kept photo. */
  readonly thumbnail: string | null
  /** Of the photos whose size is known; absent in summaries of older versions. */
  readonly bytes?: number
  readonly capturedAt: string
  readonly updatedAt: string
  readonly deletedAt: string | null
  /** Everything a search may hit, folded by `foldForSearch`. */
  readonly searchText: string
}

/** Case and accents removed, so that "Möwe" is found by "mowe". */
export function foldForSearch(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()
}

/** Characters: shorter descriptions ("see photos", "ships tomorrow") are alike by chance. Ours, no source. */
const SHORTEST_TELLING_TEXT = 80
const TEXT_START_LENGTH = 200

export function foldTextStart(description: string | null): string | null {
  const folded = foldForSearch(description ?? '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
  return folded.length < SHORTEST_TELLING_TEXT ? null : folded.slice(0, TEXT_START_LENGTH)
}

export function summarise(dossier: Dossier): DossierSummary {
  const { listing, claim, concerns, stance } = dossier.inspection
  const hashes = dossier.photos.flatMap((photo) => photo.sha256 ?? [])
  const words = [
    dossier.title,
    dossier.url,
    listing.seller?.name,
    claim.year,
    claim.set,
    claim.subject,
    claim.cardNumber,
    claim.grader,
    claim.certificate,
    dossier.notes,
    ...dossier.tags,
  ]
  return {
    version: SUMMARY_VERSION,
    id: dossier.id,
    title: dossier.title,
    url: dossier.url,
    seller: listing.seller?.name ?? null,
    price: listing.price,
    stance,
    openConcerns: concerns.filter((concern) => concern.settledBy === null).length,
    certificate: claim.certificate,
    photoHashes: hashes,
    textStart: foldTextStart(listing.description),
    outcome: dossier.outcome,
    life: summariseLife(dossier),
    thumbnail: hashes[0] ?? null,
    bytes: dossier.photos.reduce((sum, { facts }) => sum + (facts?.bytes ?? 0), 0),
    capturedAt: dossier.capturedAt,
    updatedAt: dossier.updatedAt,
    deletedAt: dossier.deletedAt,
    searchText: foldForSearch(words.filter(Boolean).join(' ')),
  }
}

function summariseLife({ log }: Dossier): SummaryLife {
  const { stage, since, decision, waitingSince, deadlines } = deriveState(log)
  const open = stage === 'closed' ? [] : deadlines.filter(({ status }) => status === 'open')
  return {
    stage,
    since,
    decision,
    waitingSince: stage === 'closed' ? null : waitingSince,
    deadlines: open.map(({ id, kind, at, zone }) => ({ id, kind, at, zone })),
  }
}

/** Every word of `query` must stand in the summary, whole or as a part. An empty query fits everything. */
export function fitsSearch(summary: DossierSummary, query: string): boolean {
  const wanted = foldForSearch(query).split(/\s+/).filter(Boolean)
  return wanted.every((word) => summary.searchText.includes(word))
}
