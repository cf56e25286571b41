/** What finished sales say about an offer. Field names are a public contract (`value --json`). */
import type { Money } from './money.ts'

export interface Sale {
  readonly id: string
  /** ISO 8601 date. */
  readonly date: string
  readonly title: string
  readonly price: Money
  readonly venue: string | null
  readonly seller: string | null
  readonly url: string | null
  /** The buyer's premium is in the price; `null` or absent: not known. */
  readonly premiumIncluded?: boolean | null
  readonly shippingIncluded?: boolean | null
  /** Sold for an offer that was never published: the price is what was asked, and so no more than an upper bound. */
  readonly bestOffer?: boolean
  /** Perceptual hash of the sale's photo, hex, where it was seen. */
  readonly fingerprint?: string | null
  /** How it came into the ledger. */
  readonly source?: SaleSource
  /** Ids of records of this same sale from other sources, folded into this one. */
  readonly merged?: readonly string[]
  /** Id of the record that this one was folded into; it then counts no more by itself. */
  readonly mergedInto?: string | null
  /** Ids of records that a person said are not this sale: never folded together again. */
  readonly keptApart?: readonly string[]
}

export type SaleSource = 'csv' | 'results-page' | 'by-hand' | 'dossier'

/**
 * Something said in a code with figures, so that every language can say it. Names of figures tell what they are: `count` a
 * number, a name ending in `Share` a share of one, in `Amount` a decimal amount of the valuation's currency.
 */
export interface Said {
  readonly code: string
  readonly figures: Readonly<Record<string, string | number>>
}

/** One sale of this card, in whatever grade, and what became of it. */
export interface MatchedPoint {
  readonly sale: string
  readonly date: string
  readonly title: string
  /** In the valuation's currency. */
  readonly amount: string
  /** As it was paid, where it was converted. */
  readonly paid?: Money
  readonly grade: string | null
  readonly grader: string | null
  readonly venue: string | null
  readonly seller: string | null
  readonly url: string | null
  /** How near it is to the claim. */
  readonly level: MatchLevel
  /** The centre rests on it. */
  readonly counted: boolean
  /** An upper bound only. */
  readonly bound: boolean
  /** Why it is matched, or why it is not counted. */
  readonly why: Said
}

/** How near the matched sales are to the claim, nearest first. */
export type MatchLevel = 'same-card-same-grade' | 'same-card-other-grade' | 'same-card-raw' | 'similar'

export interface Valuation {
  readonly n: number
  readonly level: MatchLevel | null
  readonly currency: string | null
  /** Decimal string in `currency`. */
  readonly centre: string | null
  readonly interval: {
    readonly low: string
    readonly high: string
    /** Coverage that is aimed at, such as 0.9; `null` for a plain range. */
    readonly level: number | null
    readonly method: 'conformal' | 't-in-logs' | 'range'
  } | null
  readonly trend: {
    readonly perYear: number
    readonly low: number
    readonly high: number
    readonly applied: boolean
  } | null
  readonly excluded: readonly { readonly sale: Sale; readonly why: string; readonly reason?: Said }[]
  /** Fewer than five sales: a range, not an estimate. */
  readonly thin: boolean
  readonly ask: {
    readonly amount: string
    /** Share of the matched sales below the asked amount, 0–1. */
    readonly position: number
    readonly ratioToCentre: number
  } | null
  /**
   * What the card would fetch if it is what the words say, whoever examined it: for a raw claim the centre of its graded
   * sales, whatever the grade, or of its raw ones where none was graded. `null` where no sale of the card is at hand.
   */
  readonly worthIfGenuine?: WorthIfGenuine | null
  /** The sales that the centre rests on. */
  readonly used?: readonly Sale[]
  /** In words, each thing that was done. */
  readonly steps: readonly string[]
  /** The same as codes with figures, for other languages. */
  readonly said?: readonly Said[]
  /** All sales of this card, the newest first, those that do not count among them. At most `MOST_POINTS`. */
  readonly points?: readonly MatchedPoint[]
  /** Sales among those counted that are upper bounds only; `n` leaves them out. */
  readonly bounds?: number
  /** Sales of this card are at hand, and the buyer counts none of their sellers or venues. */
  readonly onlyNotCounted?: boolean
  /** This very item was sold a short while ago. */
  readonly soldLately?: SoldLately | null
  /** Sales in other currencies that a dated rate converted. */
  readonly converted?: number
}

export interface SoldLately {
  readonly sale: Sale
  readonly by: 'certificate' | 'address' | 'photo'
  /** Days between that sale and this offer. */
  readonly days: number
}

export interface WorthIfGenuine {
  readonly amount: string
  readonly currency: string | null
  readonly n: number
  readonly from: 'graded-sales' | 'raw-sales'
}
