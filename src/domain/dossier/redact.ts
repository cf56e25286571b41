/**
 * Takes out of words what says who sold something and for how much, so that a case can be shown for teaching. Leaves a mark where
 * something stood. It takes out what has a form; a name that stands in the words and nowhere else it cannot know.
 */
import { parseAllMoney } from '../parse-money.ts'

export const TAKEN_OUT = '▇▇▇'

export interface Redaction {
  /** Names to take out wherever they stand, whatever their case. */
  readonly names: readonly string[]
  /** Amounts of money too. */
  readonly prices: boolean
}

/** Addresses of pages and of mail, and numbers long enough to be a telephone's. Forms only; order matters. */
const CONTACTS = [
  /\bhttps?:\/\/[^\s<>"']+/giu,
  /\bwww\.[^\s<>"']+/giu,
  /[\p{L}\p{N}._%+-]+@[\p{L}\p{N}-]+(?:\.[\p{L}\p{N}-]+)+/gu,
  /(?<![\p{L}\p{N}])\+?\d[\d ()/-]{7,18}\d(?![\p{L}\p{N}])/gu,
] as const

export function redact(text: string, { names, prices }: Redaction): string {
  let left = text
  for (const form of CONTACTS) left = left.replace(form, TAKEN_OUT)
  for (const name of [...names].sort((a, b) => b.length - a.length)) left = replaceName(left, name)
  return prices ? replaceAmounts(left) : left
}

function replaceName(text: string, name: string): string {
  const wanted = name.trim()
  if (wanted === '') return text
  const escaped = wanted.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
  return text.replace(new RegExp(`(?<![\\p{L}\\p{N}])${escaped}(?![\\p{L}\\p{N}])`, 'giu'), TAKEN_OUT)
}

function replaceAmounts(text: string): string {
  let out = ''
  let at = 0
  for (const { money, start, end } of parseAllMoney(text)) {
    // A bare number is a year, a card's number or a grade sooner than a price.
    if (start < at || money.currency === null) continue
    out += text.slice(at, start) + TAKEN_OUT
    at = end
  }
  return out + text.slice(at)
}
