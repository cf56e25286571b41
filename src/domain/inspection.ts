/**
 * The result that panel, page marks, triage, command line and tests all show. Field names are a public contract
 * (`inspect --json`). Built by `inspect` and by nothing else.
 */
import type { Claim } from './claim.ts'
import type { Listing } from './listing.ts'
import type { Valuation } from './valuation.ts'
import type { ViewFinding, ViewId } from './views.ts'

export type Stance = 'wait' | 'ask' | 'nothing-open'
export type Strength = 'strong' | 'medium' | 'weak'

/** Words of the listing, or a fact about it where there are no words to quote (`field: null`). */
export interface Evidence {
  readonly quote: string
  readonly field: string | null
  readonly start: number | null
  readonly end: number | null
}

export interface Weight {
  /** How much likelier this sign is where something is wrong than where nothing is. */
  readonly likelihoodRatio: number
  readonly basis: 'assumed' | 'learned'
  /** Outcomes behind a learned weight. */
  readonly count: number
  /** What the weight rests on, as a sentence; with both propositions where it is learned. */
  readonly words?: string
}

/** The open concerns together: an order and its sensitivity, never a probability. */
export interface Weighing {
  /** Sum over groups of log₁₀ of the likelihood ratio; a group counts once, by its strongest. */
  readonly log10: number
  /** The same with every weight halved and doubled in log. */
  readonly sensitivity: { readonly halved: number; readonly doubled: number }
  /** `learned` only where every group's weight is. */
  readonly basis: 'assumed' | 'learned'
  /** Strongest first, each with the rule that counts for it. */
  readonly groups: readonly { readonly group: string; readonly rule: string; readonly weight: Weight }[]
}

export interface Concern {
  readonly rule: string
  readonly title: string
  readonly strength: Strength
  readonly evidence: readonly Evidence[]
  readonly why: string
  readonly request: readonly ViewId[]
  readonly settles: string
  /** Rules of one group depend on each other; a group counts once, by its strongest. */
  readonly group: string
  readonly weight: Weight
  /** The buyer's reason, where they settled it. */
  readonly settledBy: string | null
}

export interface RequestMessage {
  readonly text: string
  readonly language: string
  /** The views asked for, in the order of the message. */
  readonly views: readonly ViewId[]
  /** Views that the page's message box left no room for, least informative last; for a second message. */
  readonly leftOut?: readonly ViewId[]
}

/** One line of the decision's trace: which rule was looked at, and what came of it. */
export interface TraceLine {
  readonly rule: string
  readonly raised: boolean
  readonly reason: string
}

export interface Inspection {
  readonly stance: Stance
  /** One sentence in the interface's language. */
  readonly stanceReason: string
  readonly listing: Listing
  /** The claim of the first card offered. */
  readonly claim: Claim
  readonly claims: readonly Claim[]
  readonly concerns: readonly Concern[]
  readonly views: readonly ViewFinding[]
  readonly request: RequestMessage
  readonly weighing?: Weighing
  /** The view to ask for if only one may be, and how far its answer is expected to move the weight, in log₁₀. */
  readonly nextQuestion?: { readonly view: ViewId; readonly expectedChange: number } | null
  readonly valuation: Valuation | null
  readonly trace: readonly TraceLine[]
}
