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
  readonly excluded: readonly { readonly sale: Sale; readonly why: string }[]
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
}

export interface WorthIfGenuine {
  readonly amount: string
  readonly currency: string | null
  readonly n: number
  readonly from: 'graded-sales' | 'raw-sales'
}
