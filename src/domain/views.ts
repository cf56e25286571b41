/** The named ways of photographing a card or its holder. Ids are a public contract, used by packs, panel and command line alike. */

export const VIEW_IDS = [
  'front',
  'back',
  'corners',
  'edges',
  'raking-light',
  'macro-print',
  'black-light',
  'transmitted-light',
  'with-ruler',
  'dated-note',
  'tilt-video',
  'out-of-holder',
  'holder-front',
  'holder-back',
  'label',
  'holder-edges',
  'holder-corners',
  'holder-code',
] as const

export type ViewId = (typeof VIEW_IDS)[number]

export type ViewStatus = 'shown' | 'missing' | 'not-readable' | 'cannot-tell'

export interface ViewFinding {
  readonly view: ViewId
  readonly status: ViewStatus
  /** URL or file name of the photo that shows it (or fails to), `null` where none does. */
  readonly photo: string | null
  /** Half a sentence in the interface's language: why this status. */
  readonly reason: string
}
