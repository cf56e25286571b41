/** Costs as a person types them, as exact terms. What is not a plain number is a fault of its field, never a guess. */
import type { Increment, PremiumTier } from '../../domain/pricing/all-in-cost.ts'

/** `25`, `12,5`: a percentage or an amount as a decimal string; `null`: no plain number. */
export function parseNumber(text: string): string | null {
  const plain = text.trim().replace(',', '.')
  if (plain === '') return '0'
  return /^\d{1,12}(?:\.\d{1,6})?$/.test(plain) ? plain : null
}

/** `10000: 25; 20`: tiers, the last without an end. `null`: not readable, or not ascending. */
export function parseTiers(text: string): readonly PremiumTier[] | null {
  const tiers: PremiumTier[] = []
  for (const part of text.split(';').map((each) => each.trim())) {
    const [left = '', right] = part.split(':').map((each) => each.trim())
    const upTo = right === undefined ? null : parseNumber(left)
    const percent = parseNumber(right ?? left)
    if (percent === null || (right !== undefined && upTo === null)) return null
    const before = tiers.at(-1)
    if (before && (before.upTo === null || (upTo !== null && Number(upTo) <= Number(before.upTo)))) return null
    tiers.push({ upTo, percent })
  }
  return tiers.at(-1)?.upTo === null ? tiers : [...tiers, { upTo: null, percent: '0' }]
}

export function writeTiers(tiers: readonly PremiumTier[]): string {
  return tiers.map(({ upTo, percent }) => (upTo === null ? percent : `${upTo}: ${percent}`)).join('; ')
}

/** `0: 5; 100: 10`: from an amount on, bids go up by so much. `null`: not readable, not ascending, or a step of nothing. */
export function parseIncrements(text: string): readonly Increment[] | null {
  const increments: Increment[] = []
  for (const part of text.split(';').map((each) => each.trim())) {
    const [left = '', right] = part.split(':').map((each) => each.trim())
    const from = right === undefined ? '0' : parseNumber(left)
    const step = parseNumber(right ?? left)
    if (from === null || step === null || Number(step) <= 0) return null
    const before = increments.at(-1)
    if (before && Number(from) <= Number(before.from)) return null
    increments.push({ from, step })
  }
  return increments[0] !== undefined && Number(increments[0].from) === 0 ? increments : null
}

export function writeIncrements(increments: readonly Increment[]): string {
  return increments.map(({ from, step }) => `${from}: ${step}`).join('; ')
}
