/**
 * What differs between two readings of one listing: price, words, photos, end time, seller. Pure; words are compared by a
 * library. Says what changed, never why.
 */
import { diffWordsWithSpace } from 'diff'
import type { Listing } from '../listing.ts'
import type { Money } from '../money.ts'

export interface SeenPhoto {
  readonly url: string
  /** Hex; `null`: its bytes were not had. */
  readonly sha256: string | null
  /** PDQ hash, 64 hex digits; `null`: not computed. */
  readonly pdq: string | null
}

export interface Seen {
  readonly listing: Listing
  readonly photos: readonly SeenPhoto[]
}

export interface Change<T> {
  readonly before: T
  readonly after: T
}

export interface WordPart {
  readonly kind: 'same' | 'added' | 'removed'
  readonly text: string
}

export interface TextChange {
  /** `title`, `description`, `condition` or `specifics.<name>`. */
  readonly field: string
  readonly parts: readonly WordPart[]
}

export interface RevisionDiff {
  readonly price: Change<Money | null> | null
  readonly endsAt: Change<string | null> | null
  /** Only where both readings name one. */
  readonly seller: Change<string> | null
  readonly texts: readonly TextChange[]
  readonly photosAdded: readonly string[]
  readonly photosRemoved: readonly string[]
  /** Another picture under the same address. */
  readonly photosSwapped: readonly { readonly url: string; readonly before: SeenPhoto; readonly after: SeenPhoto }[]
}

/**
 * Bits of 256 up to which two PDQ hashes are of one picture: the threshold that PDQ's authors give for matching
 * (ThreatExchange, "Hashing at Facebook": distance 31). A host that compresses a photo anew has not swapped it.
 */
const SAME_PICTURE_BITS = 31

/** Milliseconds after which texts count as wholly rewritten: a comparison word by word would tell nobody anything. Ours. */
const MOST_MS_PER_TEXT = 200

export function diffRevision(before: Seen, after: Seen): RevisionDiff {
  const a = before.listing
  const b = after.listing
  const sellers = a.seller && b.seller && a.seller.name !== b.seller.name
  return {
    price:
      a.price?.amount === b.price?.amount && a.price?.currency === b.price?.currency ? null : change(a.price, b.price),
    endsAt: a.endsAt === b.endsAt ? null : change(a.endsAt, b.endsAt),
    seller: sellers ? change(a.seller.name, b.seller.name) : null,
    texts: diffTexts(a, b),
    ...diffPhotos(before.photos, after.photos),
  }
}

export function isUnchanged(diff: RevisionDiff): boolean {
  return Object.values(diff).every((part) => part === null || (Array.isArray(part) && part.length === 0))
}

function change<T>(before: T, after: T): Change<T> {
  return { before, after }
}

function textsOf(listing: Listing): Map<string, string> {
  const texts = new Map<string, string>()
  for (const field of ['title', 'condition', 'description'] as const) texts.set(field, listing[field] ?? '')
  for (const [name, value] of Object.entries(listing.specifics)) texts.set(`specifics.${name}`, value)
  return texts
}

function diffTexts(a: Listing, b: Listing): TextChange[] {
  const before = textsOf(a)
  const after = textsOf(b)
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((field) => {
    const parts = diffText(before.get(field) ?? '', after.get(field) ?? '')
    return parts.some(({ kind }) => kind !== 'same') ? [{ field, parts }] : []
  })
}

/** Word by word. White space alone is no difference: a page lays the same words out anew. */
export function diffText(before: string, after: string): WordPart[] {
  const squeeze = (text: string) => text.replace(/\s+/g, ' ').trim()
  if (squeeze(before) === squeeze(after)) return before === '' ? [] : [{ kind: 'same', text: after }]
  const parts = diffWordsWithSpace(before, after, { timeout: MOST_MS_PER_TEXT })
  if (parts === undefined)
    return [
      { kind: 'removed', text: before },
      { kind: 'added', text: after },
    ]
  return parts.map(({ added, removed, value }) => ({
    kind: added ? 'added' : removed ? 'removed' : 'same',
    text: value,
  }))
}

function diffPhotos(before: readonly SeenPhoto[], after: readonly SeenPhoto[]) {
  const urlsAfter = new Map(after.map((photo) => [photo.url, photo]))
  const urlsBefore = new Set(before.map(({ url }) => url))
  const among = (photo: SeenPhoto, others: readonly SeenPhoto[]) => others.some((other) => isSamePicture(photo, other))
  return {
    photosAdded: after.filter((photo) => !urlsBefore.has(photo.url) && !among(photo, before)).map(({ url }) => url),
    photosRemoved: before.filter((photo) => !urlsAfter.has(photo.url) && !among(photo, after)).map(({ url }) => url),
    photosSwapped: before.flatMap((photo) => {
      const now = urlsAfter.get(photo.url)
      const known = now !== undefined && photo.sha256 !== null && now.sha256 !== null
      return known && !isSamePicture(photo, now) ? [{ url: photo.url, before: photo, after: now }] : []
    }),
  }
}

/** The same bytes, or as good as the same pixels. Pictures of which neither is known are not the same. */
export function isSamePicture(a: SeenPhoto, b: SeenPhoto): boolean {
  if (a.sha256 !== null && a.sha256 === b.sha256) return true
  return a.pdq !== null && b.pdq !== null && differingBits(a.pdq, b.pdq) <= SAME_PICTURE_BITS
}

function differingBits(a: string, b: string): number {
  let bits = 0
  for (let at = 0; at < Math.max(a.length, b.length); at++) {
    let differing = Number.parseInt(a[at] ?? '0', 16) ^ Number.parseInt(b[at] ?? '0', 16)
    for (; differing > 0; differing &= differing - 1) bits++
  }
  return bits
}
