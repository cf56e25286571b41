/**
 * What a grade looks like in a text: the number, the words, and what only looks like them (a fraction, an amount, a count).
 */
import { GAP } from '../text/normalise-text.ts'
import { between, isJoined, type Reading } from './reading.ts'

const GRADE = /^(10|[1-9])(?:[.,]([05]))?$/
/** `8`, `8.5`, `8,5`, `10`; `null` for what is no grade. */
export function readGrade(form: string): string | null {
  const match = GRADE.exec(form)
  if (match === null) return null
  return match[2] === '5' && match[1] !== '10' ? `${match[1]}.5` : match[2] === '5' ? null : (match[1] ?? null)
}

/** The grade words that begin at a token: the number that they stand for and where they end. */
export function gradeWordsAt(reading: Reading, index: number): { grade: string; last: number } | null {
  const match = reading.startingAt('grade', index)
  return match === null ? null : { grade: match.id.slice('grade:'.length), last: match.last }
}

/** Whether the number at a token can be a grade: not a fraction, an amount, a count or a number by a label. */
export function gradeNumberAt(reading: Reading, index: number): string | null {
  const token = reading.tokens[index]
  if (token === undefined) return null
  const code = token.form.charCodeAt(0)
  if (code < 0x31 || code > 0x39) return null
  const half = reading.tokens[index + 1]?.form === '1⁄2' && isJoined(reading, index + 1)
  const written = readGrade(token.form.replace(/1⁄2$/, ''))
  if (written === null) return null
  const grade = (half || token.form.endsWith('1⁄2')) && /^[1-9]$/.test(written) ? `${written}.5` : written
  const { original } = reading.text
  const after = original.slice(token.end, token.end + 2)
  if (
    /^(of|out|von|sur|de|su|di|x)$/.test(reading.tokens[index + 1]?.form ?? '') &&
    /^[0-9]|^of$/.test(reading.tokens[index + 2]?.form ?? '')
  )
    return null
  // "9 / 10 auto": the card's grade and the autograph's.
  const dual = /^\s?\/\s?(?:10|[1-9])\s+auto/i.test(original.slice(token.end, token.end + 12))
  if ((/^\s?(?:[%€$£¥]|\/\s?[0-9])/.test(original.slice(token.end, token.end + 4)) && !dual) || /^[-–]\d/.test(after))
    return null
  if (/[#/$€£¥]\s?$/.test(original.slice(Math.max(0, token.start - 2), token.start))) return null
  const next = reading.tokens[index + 1]
  if (next !== undefined && next.gapBefore === GAP.none && /^["'′″]/.test(after)) return null
  if (
    isJoined(reading, index + 1) &&
    between(reading, index + 1) === '' &&
    reading.startingAt('label:count-noun', index + 1) !== null
  )
    return null
  return grade
}

/** Right behind a grader of the book a number is its grade in two more forms: "ABC 8/10", "ABC 5 card". */
export function gradeBehindName(reading: Reading, index: number): string | null {
  const token = reading.tokens[index]
  if (token === undefined || !isJoined(reading, index)) return null
  const grade = readGrade(token.form)
  if (grade === null) return null
  const ofTen = /^\s?\/\s?10(?![\d.,])/.test(reading.text.original.slice(token.end, token.end + 6))
  const oneCard =
    isJoined(reading, index + 1) && /^(card|karte|carte|carta)$/.test(reading.tokens[index + 1]?.form ?? '')
  return ofTen || oneCard ? grade : null
}
