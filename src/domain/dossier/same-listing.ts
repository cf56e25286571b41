/**
 * Whether two readings are of one listing: the same address, else the same item number on the same host, else the same photos.
 * Must not guess from the words: two copies of one card are described alike.
 */
import type { Listing } from '../listing.ts'
import { isSamePicture, type Seen } from './diff-revision.ts'

/** Photos that must be known on both sides before photos alone may decide. One picture is often borrowed. Ours, no source. */
const FEWEST_PHOTOS = 2

export type Likeness = 'address' | 'item-number' | 'photos'

/** What makes them the same; `null`: nothing does. */
export function sameListing(a: Seen, b: Seen): Likeness | null {
  const [addressA, addressB] = [addressOf(a.listing), addressOf(b.listing)]
  if (addressA !== null && addressA === addressB) return 'address'
  const sameHost = hostOf(a.listing) !== null && hostOf(a.listing) === hostOf(b.listing)
  if (sameHost && a.listing.itemNumber !== null && a.listing.itemNumber === b.listing.itemNumber) return 'item-number'
  const sellers = [a.listing.seller?.name, b.listing.seller?.name]
  // The same photos under another seller are a matter for the traces: there the question is who took them.
  if (!sameHost || sellers[0] === undefined || sellers[0] !== sellers[1]) return null
  const knownA = a.photos.filter(({ sha256 }) => sha256 !== null)
  const knownB = b.photos.filter(({ sha256 }) => sha256 !== null)
  if (knownA.length < FEWEST_PHOTOS || knownA.length !== knownB.length) return null
  return knownA.every((photo) => knownB.some((other) => isSamePicture(photo, other))) ? 'photos' : null
}

/** Without the part after `#`, which never leads to another listing's page. */
export function addressOf({ url }: Pick<Listing, 'url'>): string | null {
  return url === null ? null : url.replace(/#.*$/, '')
}

function hostOf({ url }: Pick<Listing, 'url'>): string | null {
  return /^https?:\/\/([^/?#]+)/i.exec(url ?? '')?.[1]?.toLowerCase() ?? null
}
