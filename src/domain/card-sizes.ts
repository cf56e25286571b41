/** Nominal sizes of cards, so that pixels become millimetres. A card's own size may differ: these are starting points. */

export interface CardSize {
  readonly id: string
  readonly widthMm: number
  readonly heightMm: number
  /** Where the figure comes from. */
  readonly source: string
}

const HOBBY_PAGES = 'hobby size pages; tolerances are not published'

/** From the commonest to the rarest. */
export const CARD_SIZES: readonly [CardSize, ...CardSize[]] = [
  // 2½ × 3½ in; the date 1957 is from memory.
  { id: 'standard', widthMm: 63.5, heightMm: 88.9, source: HOBBY_PAGES },
  // 2⅝ × 3¾ in.
  { id: 'large-1952', widthMm: 66.7, heightMm: 95.3, source: HOBBY_PAGES },
  // 2⅜ × 2⅞ in.
  { id: 'gum-1933', widthMm: 60.3, heightMm: 73.0, source: HOBBY_PAGES },
  // 1 7/16 × 2⅝ in.
  { id: 'tobacco-1909', widthMm: 36.5, heightMm: 66.7, source: HOBBY_PAGES },
  // 2 1/16 × 3⅛ in.
  { id: 'small-1951', widthMm: 52.4, heightMm: 79.4, source: 'from memory' },
  // 2½ × 4 11/16 in.
  { id: 'tall-1965', widthMm: 63.5, heightMm: 119.1, source: HOBBY_PAGES },
]
