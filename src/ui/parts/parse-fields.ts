/** What a person types into a field of several values, as values. Empty parts are left out; nothing is guessed. */
import type { Money } from '../../domain/money.ts'

export function parseWords(text: string): readonly string[] {
  return [
    ...new Set(
      text
        .split(/[,;\n]/)
        .map((part) => part.trim())
        .filter(Boolean),
    ),
  ]
}

/** Numbers of digits, 1–30: longer certificate numbers are not in use. */
export function parseDigits(text: string): readonly number[] {
  return parseWords(text.replace(/\s+/g, ','))
    .map(Number)
    .filter((count) => Number.isInteger(count) && count >= 1 && count <= 30)
}

/**
 * A plain amount with `.` or `,` as decimal mark and at most two decimals. Anything else is `null`: `1.100` is eleven hundred
 * to one reader and one point one to another, so the person is asked to write it without a mark.
 */
export function parseAmount(text: string): string | null {
  const match = /^(\d{1,12})(?:[.,](\d{1,2}))?$/.exec(text.trim())
  if (match === null) return null
  return match[2] === undefined ? match[1]! : `${match[1]}.${match[2]}`
}

export function parseAmountOf(text: string, currency: string): Money | null {
  const amount = parseAmount(text)
  return amount === null ? null : { amount, currency }
}
