/**
 * Whether two sets of pictures show one and the same piece, or two copies of one issue. A large difference says "different"; a match
 * says only "consistent with the same". Field names are a public contract (`compare --json`, `same`).
 */
import type { CannotTellCause } from './exemplar.ts'

export type SamePieceVerdict = 'consistent-with-same' | 'different' | 'cannot-tell'

/**
 * `offset`: how the print sits on the cut stock. `specks`: fine marks that only one of the two shows. `nicks`: the course of the cut
 * edges along the sides.
 */
export type SamePieceMark = 'offset' | 'specks' | 'nicks'

export interface SamePieceEvidence {
  readonly mark: SamePieceMark
  /** Offset: root mean square over the sides, mm. Specks: how many are unmatched. Nicks: correlation, −1 to 1. */
  readonly value: number
  readonly unit: 'mm' | 'specks' | 'correlation'
  readonly supports: 'same' | 'different' | 'neither'
  /** Natural logarithm of an assumed likelihood ratio, positive for the same piece: ours, from synthetic photos. */
  readonly weight: number
  /** Places that carry it, mm of the piece. */
  readonly places: readonly {
    readonly x: number
    readonly y: number
    readonly width: number
    readonly height: number
  }[]
}

export interface SamePiece {
  readonly verdict: SamePieceVerdict
  /** How strongly, in words of the interface: one key a step. Assumed weights bear no verbal scale of likelihood ratios. */
  readonly support: 'clear' | 'some' | 'none'
  readonly evidence: readonly SamePieceEvidence[]
  /** Sum of the weights; `null` where nothing could be compared. */
  readonly score: number | null
  /** The two pictures that were compared, by file. */
  readonly photos: readonly [string, string] | null
  readonly reason: string
  readonly cause: CannotTellCause | null
}
