/** The buyer's own knowledge: graders that they know, issues that are often copied, limits. Nothing here is built in. */
import type { Money } from './money.ts'

export interface Grader {
  readonly name: string
  readonly abbreviations: readonly string[]
  /** How many digits this grader's certificate numbers have; empty or absent: not known. */
  readonly certificateDigits?: readonly number[]
  /** Address of the grader's own record page, with `{certificate}` in it. */
  readonly lookUp?: string
  readonly halfGrades?: boolean
  /** Letters in brackets after the grade, and what they mean: `{ OC: "off-centre" }`. */
  readonly qualifiers?: Readonly<Record<string, string>>
  readonly accepted: boolean
  /** Set where `accepted` holds only under conditions, in the buyer's words. */
  readonly conditions?: string
  readonly notes?: string
  /** The buyer's own pictures of a genuine holder and label, kept by their hash. Never part of a shared list. */
  readonly pictures?: readonly GraderPicture[]
}

export interface GraderPicture {
  readonly of: 'holder' | 'label'
  /** Hex SHA-256 of the kept bytes. */
  readonly sha256: string
}

export interface RiskyIssue {
  readonly id: string
  readonly name: string
  /** All of these words must stand in the listing (folded for case and accents). */
  readonly words: readonly string[]
  readonly worthIfGenuine: Money | null
  readonly copies: readonly string[]
  readonly exemplar: string | null
  /** What to ask for with this issue, in the buyer's words. */
  readonly askFor: string | null
}

export interface Limits {
  /** From this worth on, an unexamined card is a concern. */
  readonly highValue: Money
}

/** How one rule did over the buyer's finished dossiers: raised or silent, where something was wrong or all was sound. */
export interface RuleOutcomes {
  readonly raisedWrong: number
  readonly silentWrong: number
  readonly raisedSound: number
  readonly silentSound: number
}

/** What a listing is judged by. */
export interface Book {
  readonly graders: readonly Grader[]
  readonly riskyIssues: readonly RiskyIssue[]
  readonly limits: Limits
  /** Concerns that the buyer settled for this listing, by rule id, each with the reason given. */
  readonly settled: Readonly<Record<string, string>>
  /** By rule id; absent: all weights are assumed. */
  readonly outcomes?: Readonly<Record<string, RuleOutcomes>>
}
