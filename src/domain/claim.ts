/**
 * What a listing's words say the card is. Field names are a public contract (`claim`, `inspect --json`).
 * Unknown is `null`: a wrong field is worse than an empty one.
 */

/** Words as they stand in the listing, with their place in the named field (UTF-16 offsets). */
export interface Quote {
  readonly quote: string
  readonly field: string
  readonly start: number
  readonly end: number
}

export type HolderKind = 'sealed' | 'screw-down' | 'one-touch' | 'toploader' | 'semi-rigid' | 'sleeve'

export interface Claim {
  /** As the season is written: `"1931"`, `"1931-32"`. */
  readonly year: string | null
  readonly cardNumber: string | null
  readonly subject: string | null
  readonly set: string | null
  readonly variation: string | null
  /** `17/25`: the seventeenth of twenty-five. */
  readonly serial: { readonly number: number | null; readonly of: number } | null
  readonly encapsulation: 'raw' | 'encapsulated' | 'unclear'
  readonly grader: string | null
  /** `"8"`, `"8.5"`, `"authentic"`, `"altered"`. */
  readonly grade: string | null
  readonly qualifier: string | null
  readonly certificate: string | null
  readonly certificateHidden: boolean
  readonly holderKind: HolderKind | null
  readonly reprint: 'stated' | 'hedged' | 'ambiguous' | 'no'
  readonly multiple: boolean
  readonly autograph: boolean | null
  readonly relic: boolean | null
  readonly rookie: boolean | null
  /** What is offered: one card, or something that is not a single physical card. */
  readonly object: 'card' | 'lot' | 'sealed-product' | 'digital' | 'other'
  /** The words behind each field that is not `null`. */
  readonly quotes: Readonly<Record<string, Quote>>
}
