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
  if (isScale(reading, index)) return null
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

const OF = /^(of|out|von|sur|de|su|di|over|aus)$/

/** The number before "of 10", "out of 10", "/10" that ends at this 10; `null` where it ends no such scale. */
function scaleStart(reading: Reading, index: number): number | null {
  const { tokens, text } = reading
  const ten = tokens[index]
  if (ten?.form !== '10') return null
  const slash = /\d\s?\/\s?$/.test(text.original.slice(Math.max(0, ten.start - 5), ten.start))
  if (slash) return index - 1
  let at = index - 1
  while (at > 0 && at > index - 3 && OF.test(tokens[at]?.form ?? '')) at -= 1
  return at < index - 1 && readGrade(tokens[at]?.form ?? '') !== null ? at : null
}

/** The 10 of "8 out of 10" is the scale, not the grade. */
function isScale(reading: Reading, index: number): boolean {
  return scaleStart(reading, index) !== null
}

/** "8/10", "8 out of 10" beside a grader: the grade and where the scale ends. Anywhere else such words praise, and grade nothing. */
export function gradeOfTenAt(reading: Reading, index: number): { grade: string; first: number; last: number } | null {
  for (let last = index; last <= index + 3; last += 1) {
    const first = scaleStart(reading, last)
    if (first !== index) continue
    const grade = readGrade(reading.tokens[first]?.form ?? '')
    return grade === null ? null : { grade, first, last }
  }
  return null
}

/** The same, ending at this token. */
export function gradeOfTenEndingAt(
  reading: Reading,
  index: number,
): { grade: string; first: number; last: number } | null {
  const first = scaleStart(reading, index)
  return first === null ? null : gradeOfTenAt(reading, first)
}

/** Right behind a grader of the book: "ABC 5 card". */
export function gradeBehindName(reading: Reading, index: number): string | null {
  const token = reading.tokens[index]
  if (token === undefined || !isJoined(reading, index)) return null
  const oneCard =
    isJoined(reading, index + 1) && /^(card|karte|carte|carta)$/.test(reading.tokens[index + 1]?.form ?? '')
  return oneCard ? readGrade(token.form) : null
}
