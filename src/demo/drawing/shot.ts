/**
 * What one drawn photo shows, as plain data. The drawing decides nothing: the same shot gives the same pixels on the same
 * machine, and its truth (`truth.ts`) is computed from the same numbers.
 */
import type { HolderKind } from '../../domain/claim.ts'
import type { ViewId } from '../../domain/views.ts'

export type CardDesign =
  | 'harbour-ships'
  | 'fen-insects'
  | 'skerryball-stars'
  | 'tidal-league'
  | 'skerryball-asse'
  | 'tidal-prime'

/**
 * How a card was made. `re-screened`: printed from a photo of a card, so that its type and rules are dots too; `ink-jet`: sprayed from
 * such a photo; `thick-type`: from a plate that grew; `shifted-tint`: with other inks on other stock; `trimmed`: a genuine card cut down.
 */
export type Printing = 'original' | 're-screened' | 'ink-jet' | 'thick-type' | 'shifted-tint' | 'trimmed'

export interface CardSpec {
  readonly design: CardDesign
  readonly number: string
  readonly subject: string
  /** 0 (as cut) to 1 (carried in a pocket). */
  readonly wear: number
  readonly seed: number
  readonly printing: Printing
  /** Shift of the print on the cut card, in mm: right and down are positive. */
  readonly shift: readonly [x: number, y: number]
  /** Serial numbering printed on the card, such as `17/99`. */
  readonly serial: string | null
}

export interface HolderSpec {
  readonly kind: HolderKind
  /** Sealed holders only. */
  readonly label: LabelSpec | null
}

export interface LabelSpec {
  readonly grader: 'KVX' | 'OLQ' | 'ZWY'
  /** Description lines as printed. */
  readonly lines: readonly string[]
  readonly grade: string
  readonly gradeWords: string
  readonly certificate: string
  /** A strip of paper lies over the number and the code. */
  readonly covered: boolean
}

export type Background = 'oak' | 'walnut' | 'felt-green' | 'felt-grey' | 'scanner' | 'linen' | 'slate' | 'kraft'

/** Views that can be drawn. */
export type DrawnView = Extract<
  ViewId,
  | 'front'
  | 'back'
  | 'corners'
  | 'edges'
  | 'raking-light'
  | 'macro-print'
  | 'with-ruler'
  | 'dated-note'
  | 'holder-front'
  | 'holder-back'
  | 'label'
  | 'holder-edges'
  | 'holder-corners'
  | 'holder-code'
>

export interface Shot {
  readonly view: DrawnView
  readonly card: CardSpec
  readonly holder: HolderSpec | null
  readonly background: Background
  readonly seed: number
  /** Longer side in pixels. */
  readonly longSide: number
  /** Standard deviation of the lens blur in pixels of the finished photo. */
  readonly blurPx: number
  /** JPEG quality as the encoder takes it, 1–100. */
  readonly jpegQuality: number
  /** 0: square-on. 1: as a hand holds a phone. 2: careless. */
  readonly tilt: number
  /** The words on the slip of paper in a dated photo. */
  readonly note: readonly string[]
}
