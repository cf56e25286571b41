/**
 * Are two records one and the same sale, told by two sources? Price and day must agree, and nothing may contradict; the person can part
 * them again. Within one source two rows are two sales.
 */
import { foldForSearch } from '../dossier-summary.ts'
import type { Sale } from '../valuation.ts'
import { statedNumber } from './index-words.ts'
import { wordsOf } from './same-card.ts'
import { plainAddress } from './sold-lately.ts'

/** Two sources date a sale by its end and by its payment, or sit in two time zones. In days; ours. */
export const DAYS_APART = 2
/** Share of the words of both titles that they have in common: titles are shortened and adorned. Ours. */
const WORDS_IN_COMMON = 0.6

/** What must be the same before two records are looked at more closely. */
export function sameSaleKey({ price, title }: Pick<Sale, 'price' | 'title'>): string {
  const amount = price.amount.includes('.') ? price.amount.replace(/\.?0+$/, '') : price.amount
  return `${amount}|${price.currency ?? ''}|${statedNumber(title) ?? ''}`
}

export function isSameSale(a: Sale, b: Sale): boolean {
  if (a.id === b.id || sameSaleKey(a) !== sameSaleKey(b)) return false
  if (a.keptApart?.includes(b.id) || b.keptApart?.includes(a.id)) return false
  if (Math.abs(Date.parse(a.date.slice(0, 10)) - Date.parse(b.date.slice(0, 10))) > DAYS_APART * 86_400_000)
    return false
  const [left, right] = [a.url, b.url].map((url) => (url === null ? null : plainAddress(url))) as [
    string | null,
    string | null,
  ]
  if (left !== null && right !== null) {
    if (left === right) return true
    // Two pages of one house are two sales.
    if (left.split('/')[0] === right.split('/')[0]) return false
  }
  if (a.seller !== null && b.seller !== null && foldForSearch(a.seller) !== foldForSearch(b.seller)) return false
  if (a.venue !== null && b.venue !== null && !isOneVenue(a.venue, b.venue)) return false
  const [one, other] = [new Set(wordsOf(a.title)), new Set(wordsOf(b.title))]
  const common = [...one].filter((word) => other.has(word)).length
  return common / Math.max(1, new Set([...one, ...other]).size) >= WORDS_IN_COMMON
}

/** One source names a house, another its address: `Quayside Lots` and `quayside-lots.example`. */
function isOneVenue(a: string, b: string): boolean {
  const [left, right] = [a, b].map((name) => foldForSearch(name).replace(/[^\p{L}\p{N}]+/gu, '')) as [string, string]
  return left.startsWith(right) || right.startsWith(left)
}
