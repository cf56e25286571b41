/**
 * All that `inspect` is given about one offer. Plain data: whoever calls gathers it, `inspect` decides on it.
 * Must not hold anything that `inspect` itself derives (claims, views, concerns).
 */
import type { PointComparison } from './exemplar.ts'
import type { Listing } from './listing.ts'
import type { PhotoFacts } from './photo-facts.ts'
import type { MessageStyle } from './request/message-style.ts'
import type { Valuation } from './valuation.ts'
import type { ViewId } from './views.ts'

/** How a kept purchase turned out, in the buyer's words. */
export const OUTCOMES = [
  'genuine',
  'altered',
  'counterfeit',
  'not-as-described',
  'never-arrived',
  'never-known',
] as const
export type Outcome = (typeof OUTCOMES)[number]

/** What another dossier has in common with this listing. The listing's own dossier is never traced. */
export interface Trace {
  readonly kind: 'same-photo' | 'same-certificate' | 'same-text' | 'same-seller'
  /** Id and title of that dossier. */
  readonly dossier: string
  readonly title: string
  /** Seller named there; `null`: not known. */
  readonly seller: string | null
  /** ISO 8601 in UTC: when that dossier was captured. */
  readonly at: string
  readonly outcome: Outcome | null
  /** What is the same: the photo's URL here, the certificate number, the first words of the text. */
  readonly detail: string | null
}

export interface Facts {
  readonly listing: Listing
  readonly photos: readonly PhotoFacts[]
  readonly valuation: Valuation | null
  readonly traces: readonly Trace[]
  /** BCP 47 tag of a message pack. */
  readonly messageLanguage: string
  /** Characters that the page's message box takes; `null`: no limit known. */
  readonly messageMaxLength: number | null
  /** Ask for no more than this many views, the best ones; absent: for all that are open. */
  readonly messageMostViews?: number
  /** What the seller said they will not show: it stays open, and no message asks for it again. */
  readonly viewsRefused?: readonly ViewId[]
  /** Absent: plain, a first message, no terms. */
  readonly messageStyle?: MessageStyle
  /** The person's word on what a photo shows, by the photo's URL or file name. It outranks pixels and words. */
  readonly viewCorrections?: Readonly<Record<string, ViewId | 'other'>>
  /** What the listing's photos came to beside an exemplar, point by point. Absent: nothing was compared. */
  readonly points?: readonly PointComparison[]
  /** ISO 8601: when the page was read. Absent: rules that need the date stay silent. */
  readonly now?: string
}
