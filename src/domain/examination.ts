/**
 * What is kept of exemplars and of examinations on the light table. An examination is one questioned piece beside one exemplar:
 * looked at alone first, its notes locked, then compared. Pictures are stored apart, by SHA-256, and referred to.
 */
import type { RecordMeta } from './dossier.ts'
import type { DrawnCorners, Exemplar, PointComparison, PointVerdict } from './exemplar.ts'

export interface StoredPicture {
  /** Hex. */
  readonly sha256: string
  readonly mediaType: string
}

/** An exemplar in the making or made: while it is drawn, names may be empty and pictures missing. */
export interface ExemplarDraft {
  readonly exemplar: Exemplar
  /** By file name of the exemplar's pictures. */
  readonly stored: Readonly<Record<string, StoredPicture>>
}
export type ExemplarRecord = RecordMeta & ExemplarDraft

export interface QuestionedPicture extends StoredPicture {
  /** As the comparison names it. */
  readonly file: string
  /** By the person; `null`: found. */
  readonly corners: DrawnCorners | null
}

/** The person's word on a point: on a judged one, or over what was measured. */
export interface PersonsVerdict {
  readonly verdict: PointVerdict
  readonly words: string
}

/** What was measured, as it came. */
export interface MeasuredComparison {
  /** ISO 8601 in UTC. */
  readonly at: string
  readonly registered: boolean
  readonly pxPerMm: number | null
  readonly points: readonly PointComparison[]
  /** Each photo: whether it could be laid over the exemplar, on which side, and where the piece lies in it. */
  readonly photos: readonly {
    readonly file: string
    readonly registered: boolean
    readonly side: Exemplar['pictures'][number]['side'] | null
    readonly pxPerMm: number | null
    /** Shares of the photo's sides, clockwise from the piece's own top left. */
    readonly outline: DrawnCorners | null
    readonly reason: string | null
    readonly cause: PointComparison['cause']
  }[]
}

/** What a second person found who saw neither price nor seller nor the first result. */
export interface BlindAnswer {
  readonly package: string
  readonly by: string
  /** ISO 8601 in UTC: when they locked their notes, and when they answered. */
  readonly lockedAt: string
  readonly answeredAt: string
  readonly notes: string
  readonly points: readonly { readonly point: string; readonly verdict: PointVerdict; readonly words: string }[]
}

export interface Examination {
  readonly title: string
  /** Id of the exemplar's record. */
  readonly exemplar: string
  /** Id of the dossier that the photos come from; `null`: from files. */
  readonly dossier: string | null
  readonly photos: readonly QuestionedPicture[]
  /** Of the questioned piece alone. Unalterable once locked. */
  readonly notes: string
  /** ISO 8601 in UTC. */
  readonly lockedAt: string | null
  readonly laterNotes: string
  readonly measured: MeasuredComparison | null
  /** By id of the point. */
  readonly judged: Readonly<Record<string, PersonsVerdict>>
  /** Id of the package that this examination answers; `null`: it is a first one. */
  readonly answers: string | null
  /** Ids of packages made of this examination. */
  readonly packages: readonly string[]
  readonly verifications: readonly BlindAnswer[]
}
export type ExaminationRecord = RecordMeta & Examination

/** A comparison as it is kept with a dossier. */
export interface KeptComparison {
  readonly examination: string
  /** ISO 8601 in UTC. */
  readonly at: string
  readonly exemplar: { readonly id: string; readonly title: string }
  readonly photos: readonly { readonly file: string; readonly sha256: string }[]
  readonly registered: boolean
  readonly pxPerMm: number | null
  /** With the person's word where there is one. */
  readonly points: readonly (PointComparison & { readonly name: string })[]
  readonly notes: string
  readonly lockedAt: string | null
  readonly verifications: readonly BlindAnswer[]
}

/** What a point ended in: the person's word where they gave one, else what was measured. */
export function concludePoint(measured: PointComparison, word: PersonsVerdict | undefined): PointComparison {
  if (word === undefined) return measured
  return {
    ...measured,
    verdict: word.verdict,
    ...(word.words !== '' && { explanation: { code: 'by-the-person', words: word.words } as const }),
  }
}
