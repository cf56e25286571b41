/** An offer that is on no page – a pasted message, a card on a table – as a listing, so that it is judged like any other. */
import { emptyListing, type Listing, type Provenance } from './listing.ts'
import type { Money } from './money.ts'

/** Characters of a first line that still reads as a title. Ours, no source. */
const LONGEST_TITLE = 120

const BY_THE_BUYER: Provenance = { from: 'hint', confidence: 1, where: null }

export interface LooseWords {
  readonly title: string
  readonly words: string
  readonly seller: string
  readonly price: Money | null
  /** BCP 47; `null`: not known. */
  readonly language: string | null
  readonly photos: readonly string[]
}

/** Without a title of its own, the first line of the words is one. */
export function toListing({ title, words, seller, price, language, photos }: LooseWords): Listing {
  const description = words.trim() === '' ? null : words.trim()
  const own = title.trim() === '' ? firstLine(description) : title.trim()
  const name = seller.trim()
  const provenance: Record<string, Provenance> = {}
  if (own !== null) provenance.title = BY_THE_BUYER
  if (description !== null) provenance.description = BY_THE_BUYER
  if (price !== null) provenance.price = BY_THE_BUYER
  if (name !== '') provenance.seller = BY_THE_BUYER
  return {
    ...emptyListing(null),
    title: own,
    description,
    price,
    priceKind: price === null ? null : 'asking',
    seller: name === '' ? null : { name, url: null, feedbackCount: null, feedbackPercent: null, memberSince: null },
    language,
    photos: photos.map((url) => ({ url, alt: null })),
    provenance,
  }
}

function firstLine(text: string | null): string | null {
  const line = text
    ?.split('\n')
    .find((candidate) => candidate.trim() !== '')
    ?.trim()
  return line === undefined ? null : line.slice(0, LONGEST_TITLE)
}
