/**
 * Was this very item sold a short while ago? Told by what belongs to one item alone: its certificate number, its address, its photo.
 * Says nothing of why it is offered again.
 */
import type { Claim } from '../claim.ts'
import type { SoldLately } from '../valuation.ts'
import type { MatchedSale } from './match-sales.ts'

/** Days: what fell through is offered again within weeks, what was bought to sell within months. Ours, no source. */
const LATELY_DAYS = 180
/** Of the 64 bits of a perceptual hash, how many may differ in two pictures of one file: common practice for such hashes. */
const ALIKE_BITS = 4

export interface ThisItem {
  readonly url: string | null
  /** Perceptual hashes of its photos, hex. */
  readonly fingerprints: readonly string[]
}

export function findSoldLately(
  claim: Claim,
  item: ThisItem | null,
  matched: readonly Pick<MatchedSale, 'sale' | 'claim'>[],
  on: string,
): SoldLately | null {
  let latest: SoldLately | null = null
  for (const { sale, claim: sold } of matched) {
    const days = Math.round((Date.parse(on) - Date.parse(sale.date.slice(0, 10))) / 86_400_000)
    if (days < 0 || days > LATELY_DAYS || (latest !== null && days >= latest.days)) continue
    const by = sameItem(claim, item, sold, sale)
    if (by !== null) latest = { sale, by, days }
  }
  return latest
}

function sameItem(
  claim: Claim,
  item: ThisItem | null,
  sold: Claim,
  sale: MatchedSale['sale'],
): SoldLately['by'] | null {
  if (claim.certificate !== null && claim.certificate === sold.certificate) return 'certificate'
  if (item?.url != null && sale.url !== null && plainAddress(item.url) === plainAddress(sale.url)) return 'address'
  const print = sale.fingerprint ?? null
  if (print !== null && item?.fingerprints.some((other) => differingBits(other, print) <= ALIKE_BITS)) return 'photo'
  return null
}

/** Without what only says how one came there. */
export function plainAddress(url: string): string {
  return url
    .replace(/[?#].*$/, '')
    .replace(/^https?:\/\/(?:www\.)?/i, '')
    .replace(/\/+$/, '')
    .toLowerCase()
}

function differingBits(a: string, b: string): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY
  let bits = 0
  for (let i = 0; i < a.length; i++) {
    let rest = Number.parseInt(a[i] as string, 16) ^ Number.parseInt(b[i] as string, 16)
    for (; rest > 0; rest >>= 1) bits += rest & 1
  }
  return bits
}
