/** What the parts of the reader hand each other: a value with its source, and the trace that `read --explain` prints. */
import type { Source } from '../domain/listing.ts'

export interface Found<T> {
  readonly value: T
  readonly from: Source
  /** 0–1, ours and uncalibrated. */
  readonly confidence: number
  /** Index of the element, −1 where none can be shown. */
  readonly node: number
  readonly quote?: string
  readonly note?: string
}

export interface Trace {
  readonly kind: {
    readonly decision: string
    readonly listing: number
    readonly results: number
    readonly reasons: readonly string[]
  }
  readonly headline: { readonly text: string; readonly score: number } | null
  readonly prices: readonly {
    readonly text: string
    readonly score: number
    readonly role: string | null
    readonly features: readonly string[]
    readonly where: string | null
  }[]
  readonly groups: readonly { readonly rows: number; readonly priced: number; readonly where: string | null }[]
  readonly notes: readonly string[]
}
