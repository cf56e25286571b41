/** Qualifiers of a grade, such as `(OC)`; trade marks in brackets are none. */
import type { Grader } from '../grader-book.ts'
import { gradeWordsAt } from './grade-forms.ts'
import { isJoined, type Reading, type Span } from './reading.ts'

/** One to three letters in brackets behind the grade, or bare ones that the grader's book knows. */
export function readQualifier(
  reading: Reading,
  around: Span,
  known: Grader | null,
): (Span & { letters: string }) | null {
  const { original } = reading.text
  let index = around.last + 1
  const words = gradeWordsAt(reading, index)
  if (words !== null && isJoined(reading, index) && !/^\s*[([]/.test(reading.tokens[index]?.separator ?? ''))
    index = words.last + 1
  const token = reading.tokens[index]
  if (token === undefined) return null
  const letters = reading.raw(index)
  if (!/^[A-Z]{1,3}$/.test(letters)) return null
  const span = { first: index, last: index, letters }
  if (/^\s?[([]$/.test(token.separator) && /^[)\]]/.test(original.slice(token.end, token.end + 1)))
    return QUALIFIER_LOOK_ALIKES.has(letters) ? null : span
  const inBook =
    known?.qualifiers !== undefined && Object.keys(known.qualifiers).some((key) => key.toUpperCase() === letters)
  return inBook && isJoined(reading, index) ? span : null
}

/** Trade marks that stand in brackets anywhere in a title. */
const QUALIFIER_LOOK_ALIKES = new Set([
  'RC',
  'SP',
  'SSP',
  'HOF',
  'RP',
  'RPA',
  'AU',
  'GU',
  'NM',
  'EX',
  'VG',
  'GD',
  'MT',
  'LE',
  'ROY',
  'MVP',
  'USA',
  'UK',
])
