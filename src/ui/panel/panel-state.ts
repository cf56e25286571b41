/**
 * What the panel shows, as plain data: one phase at a time. Built by the context, drawn by `Panel`.
 * No functions, no promises: a state can be stored, sent and put into the gallery as it is.
 */

import type { RecordField } from '../../domain/claim/compare-record.ts'
import type { SeenPhoto } from '../../domain/fingerprints/seen-photo.ts'
import type { Grader } from '../../domain/grader-book.ts'
import type { Inspection } from '../../domain/inspection.ts'
import type { ResultRow } from '../../domain/listing.ts'
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import type { CostPreset } from '../../domain/pricing/ceiling.ts'
import type { WantFit } from '../../domain/pricing/want.ts'
import type { MessageTone } from '../../domain/request/message-style.ts'
import type { ViewId } from '../../domain/views.ts'
import type { Fault } from '../fault.ts'

export interface PanelPhoto {
  /** As in `listing.photos`, which is also how the view findings name it. */
  readonly url: string
  readonly alt: string | null
  /** An object URL or data URL that the panel may show, `null` while the bytes are not at hand. */
  readonly thumbnail: string | null
  readonly facts: PhotoFacts | null
  /** What the person said it shows, if they did. */
  readonly assigned: ViewId | 'other' | null
  /** How far the examination is with it; absent: nothing goes on. */
  readonly step?: PhotoStep
  /** Handed over by the person, not found on the page. */
  readonly added?: boolean
  /** Kept photos that are, or may be, this one. */
  readonly seen?: readonly SeenElsewhere[]
  /** The card's outline is the person's. */
  readonly cornersByHand?: boolean
}

export type PhotoStep = 'none' | 'waiting' | 'loading' | 'looking'

export interface SeenElsewhere extends SeenPhoto {
  /** An object URL of the other picture, `null` where it was not kept. */
  readonly picture: string | null
}

/**
 * `unseen`: no permission was asked yet; `refused`: asked and refused; `allowed`: the bytes may be fetched;
 * `none`: the listing has no photos.
 */
export type PhotoAccess = 'unseen' | 'refused' | 'allowed' | 'none'

export interface KeptState {
  readonly dossierId: string
  /** ISO 8601 in UTC of the last keeping. */
  readonly at: string
  readonly notes: string
  /** The page now differs from what is kept. */
  readonly differs: boolean
}

export interface ListingState {
  readonly phase: 'listing'
  readonly inspection: Inspection
  readonly photos: readonly PanelPhoto[]
  readonly photoAccess: PhotoAccess
  /** Hosts that the one permission question would name. */
  readonly photoHosts: readonly string[]
  /** While photos are examined: how many are done. */
  readonly photoProgress: { readonly done: number; readonly total: number } | null
  /** The page's own message box, `null` where it has none; `maxLength` in characters, `null` where no limit is stated. */
  readonly messageBox: { readonly maxLength: number | null } | null
  /** The message asks for no more than so many views; `null`: for all that are open. */
  readonly messageMostViews: number | null
  readonly messageTone: MessageTone
  readonly kept: KeptState | null
  /** `changed`: the page is not as it was read; `reading`: it is being read again while this is shown. */
  readonly update: 'none' | 'changed' | 'reading'
  readonly graders: readonly Grader[]
  /** A grader token of the claim that is not in the book. */
  readonly unknownGrader: string | null
  /** A want of the buyer's that this offer fits. */
  readonly want?: WantFit | null
  /** The costs that the buyer reckoned with last. */
  readonly costs?: CostPreset | null
  /** BCP 47 of the page, for the `lang` of quoted text. */
  readonly pageLanguage: string | null
}

export interface ResultsRowState {
  readonly row: ResultRow
  readonly openConcerns: number
  /** Title of the strongest concern, in the interface's language. */
  readonly foremost: string | null
  readonly keptAs: string | null
  readonly singleCard: boolean
  /** A want of the buyer's that this row fits. */
  readonly want?: WantFit | null
}

/** A grader's record page beside the listing looked at before. */
export interface RecordState {
  readonly phase: 'record'
  /** Of that listing. */
  readonly title: string
  readonly fields: readonly RecordField[]
}

export type PanelState =
  | { readonly phase: 'reading'; readonly host: string | null }
  /** `remembered`: title of the listing looked at before, `null` or absent where there was none. */
  | { readonly phase: 'none'; readonly host: string | null; readonly remembered?: string | null }
  | RecordState
  | { readonly phase: 'results'; readonly rows: readonly ResultsRowState[]; readonly partlyRead: boolean }
  | { readonly phase: 'forbidden' }
  | { readonly phase: 'failed'; readonly fault: Fault }
  | ListingState
