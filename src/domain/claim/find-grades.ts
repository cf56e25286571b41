/**
 * Who graded a card and how: `ABC 9`, `ABC NM-MT 8`, `graded 8.5 by ABC`, `ABC Authentic`, `8 (OC)`. A grader is known by the buyer's
 * book or by its form – two to five capitals before a grade –, never by a built-in list; a name that is only hoped for,
 * remembered or compared with is none.
 */
import type { Grader } from '../grader-book.ts'
import { GAP } from '../text/normalise-text.ts'
import { findGraderNames, type NamedGrader } from './find-grader-names.ts'
import { findNameless } from './find-nameless-grades.ts'
import type { FoundGrade } from './found-grade.ts'
import {
  gradeBehindName,
  gradeNumberAt,
  gradeOfTenAt,
  gradeOfTenEndingAt,
  gradeWordsAt,
  readGrade,
} from './grade-forms.ts'
import { isEvident, isGraderLabelled, isLikely, isUnpronounceable } from './grader-evidence.ts'
import { isHypothetical } from './judge-hypothetical.ts'
import { readQualifier } from './read-qualifier.ts'
import { between, isJoined, type Reading, type Span } from './reading.ts'

/** Tokens between a grader and its grade that are looked at. */
const REACH = 7

/** @param running in running text capitals before a number need company that a title gives by itself. */
export function findGrades(reading: Reading, graders: readonly Grader[], running: boolean): FoundGrade[] {
  const found: FoundGrade[] = []
  const names = findGraderNames(reading, graders)
  const free = new Set<number>()
  for (const name of names) {
    const grade = readAround(reading, name, names)
    if (grade === null) continue
    if (name.known === null && !grade.evident && !running) {
      const likely = grade.hypothetical ? isUnpronounceable(name.written) : isLikely(reading, name, grade)
      if (!likely) continue
    }
    found.push(grade)
    for (let index = grade.first; index <= grade.last; index += 1) free.add(index)
  }
  for (const grade of findNameless(reading)) {
    let taken = false
    for (let index = grade.first; index <= grade.last; index += 1) taken ||= free.has(index)
    if (!taken) found.push(grade)
  }
  return found.sort((a, b) => a.first - b.first)
}

function readAround(reading: Reading, name: NamedGrader, names: readonly NamedGrader[]): FoundGrade | null {
  const forward = readForward(reading, name)
  if (forward !== null && forward.grade !== null) return finish(reading, name, forward)
  const around = readBackward(reading, name, names) ?? forward
  return around === null ? null : finish(reading, name, around)
}

interface Around extends Span {
  readonly grade: string | null
  readonly gradeSpan: Span | null
  /** A word of grading stands beside it. */
  readonly labelled: boolean
}

const OPEN_BEFORE_GRADE = new Set([
  '',
  '-',
  ':',
  '(',
  '–',
  '—',
  ',',
  '"',
  '#:',
  '/',
  '.',
  '[',
  '|',
  '“',
  '=',
  '->',
  '+',
  '#',
])

function readForward(reading: Reading, name: NamedGrader): Around | null {
  const { tokens } = reading
  let labelled = isLabelledBefore(reading, name.first) || isGraderLabelled(reading, name.first)
  if (name.glued !== null) {
    if (name.weak && !labelled) return null
    const span = { first: name.first, last: name.last }
    return { ...span, grade: name.glued, gradeSpan: span, labelled: true }
  }
  let words: { grade: string; first: number; last: number } | null = null
  let authentic: Span | null = null
  let altered: Span | null = null
  let index = name.last + 1
  const end = Math.min(tokens.length, index + REACH)
  while (index < end) {
    const token = tokens[index]
    if (token === undefined || token.gapBefore === GAP.sentence) break
    const separator = between(reading, index)
    if (!OPEN_BEFORE_GRADE.has(separator)) break
    // "ABC Authentic - Altered"
    const goesOn =
      authentic !== null && index === authentic.last + 1 && reading.startingAt('label:altered', index) !== null
    if (
      token.gapBefore === GAP.clause &&
      !goesOn &&
      index > name.last + 1 &&
      separator !== '(' &&
      separator !== ':' &&
      separator !== ''
    )
      break
    // A hyphen right behind letters by form alone is a card's own number (`TLS-5`).
    if (
      index === name.last + 1 &&
      name.known === null &&
      !labelled &&
      token.separator === '-' &&
      /^\d/.test(token.form) &&
      (gradeWordsAt(reading, index + 1)?.grade !== readGrade(token.form) ||
        /#/.test(tokens[name.first]?.separator ?? ''))
    )
      break
    const ofTen = name.known === null ? null : gradeOfTenAt(reading, index)
    if (ofTen !== null)
      return { first: name.first, last: ofTen.last, grade: ofTen.grade, gradeSpan: ofTen, labelled: true }
    const grade =
      gradeNumberAt(reading, index) ??
      (name.known !== null && index === name.last + 1 ? gradeBehindName(reading, index) : null)
    if (grade !== null) {
      if (authentic !== null && index > name.last + 3) break
      if (name.weak && !labelled) return null
      return {
        first: name.first,
        last: index,
        grade,
        gradeSpan: { first: words?.first ?? index, last: index },
        labelled: true,
      }
    }
    // "ABC gave it a 7"
    const gave = reading.startingAt('label:gave', index)
    if (gave !== null && isJoined(reading, index)) {
      labelled = true
      index = gave.last + 1
      continue
    }
    const label = reading.startingAt('label:grade-label', index)
    if (label !== null) {
      labelled = true
      index = label.last + 1
      continue
    }
    const alteredHere = reading.startingAt('label:altered', index)
    const authenticHere = reading.startingAt('label:authentic', index)
    if (alteredHere !== null || authenticHere !== null) {
      if (alteredHere !== null) altered = alteredHere
      if (authenticHere !== null) authentic ??= authenticHere
      index = Math.max(alteredHere?.last ?? 0, authenticHere?.last ?? 0) + 1
      continue
    }
    // "ABC A" is how an authentic card without a number is labelled.
    if (name.known !== null && index === name.last + 1 && reading.raw(index) === 'A' && separator === '') {
      authentic ??= { first: index, last: index }
      index += 1
      continue
    }
    // "ABC 84 NM 7": an older scale before the words and the grade.
    if (index === name.last + 1 && /^(?:[1-9][0-9]|100)$/.test(token.form)) {
      const scale = gradeWordsAt(reading, index + 1)
      if (scale !== null && isJoined(reading, index + 1) && gradeNumberAt(reading, scale.last + 1) !== null) {
        index += 1
        continue
      }
    }
    if (name.known !== null && /^[0-9]{5,}$/.test(token.form)) {
      index += 1
      continue
    }
    const certificate = reading.startingAt('label:certificate', index)
    if (certificate !== null && /[0-9]{5}/.test(tokens[certificate.last + 1]?.form ?? '')) {
      labelled = true
      index = certificate.last + 2
      continue
    }
    const graded = gradeWordsAt(reading, index)
    if (graded !== null) {
      words ??= { grade: graded.grade, first: index, last: graded.last }
      index = graded.last + 1
      continue
    }
    if (
      (labelled || name.known !== null) &&
      FILLER.test(token.form) &&
      reading.startingAt('label:authentic', index + 1) !== null
    ) {
      index += 1
      continue
    }
    // "von ABC mit 8 benotet", "graded by ABC as a 9"
    if (FILLER.test(token.form)) {
      let next = index + 1
      while (FILLER.test(tokens[next]?.form ?? '')) next += 1
      const filled = gradeNumberAt(reading, next)
      if (filled !== null && (labelled || name.known !== null || isLabelAfter(reading, next)))
        return { first: name.first, last: next, grade: filled, gradeSpan: { first: next, last: next }, labelled: true }
    }
    break
  }
  if (name.weak && !labelled) return null
  if (altered !== null || authentic !== null) {
    const span = altered ?? authentic ?? name
    // "ABC authentic jersey" speaks of the cloth.
    if (name.known === null && !labelled && reading.startingAt('mark:relic', span.last + 1) !== null) return null
    if (name.known === null && !labelled && authentic !== null && /^[a-z]/.test(reading.raw(authentic.first)))
      return null
    return {
      first: name.first,
      last: span.last,
      grade: altered !== null ? 'altered' : 'authentic',
      gradeSpan: { first: authentic?.first ?? span.first, last: span.last },
      labelled: true,
    }
  }
  if (words !== null && (name.known !== null || labelled || words.last > words.first))
    return { first: name.first, last: words.last, grade: words.grade, gradeSpan: words, labelled: true }
  if (labelled) return { first: name.first, last: name.last, grade: null, gradeSpan: null, labelled }
  if (name.known !== null) return { first: name.first, last: name.last, grade: null, gradeSpan: null, labelled: true }
  return null
}

const FILLER = /^(label|flip|mit|einem|avec|as|a|an|at|con|un|una|une|eine|einer|als|der|note|nota|voto)$/

function isLabelAfter(reading: Reading, index: number): boolean {
  return (
    reading.startingAt('label:grade-label', index + 1) !== null ||
    reading.startingAt('encapsulation:encapsulated', index + 1) !== null
  )
}

/** "graded by ABC", "slabbed ABC": a word of grading before the letters. "Low grade" and "grade" alone are none. */
function isLabelledBefore(reading: Reading, index: number): boolean {
  if (!isJoined(reading, index) && between(reading, index) !== ':') return false
  const by = reading.endingAt('label:by', index - 1)
  const at = by === null ? index - 1 : by.first - 1
  if (reading.endingAt('encapsulation:encapsulated', at) !== null) return true
  const label = reading.endingAt('label:grade-label', at)
  return label !== null && by !== null
}

function readBackward(reading: Reading, name: NamedGrader, names: readonly NamedGrader[]): Around | null {
  if (reading.tokens[name.first]?.gapBefore === GAP.sentence) return null
  let index = name.first - 1
  const by = reading.endingAt('label:by', index)
  if (by !== null) index = by.first - 1
  const separator = between(reading, name.first)
  if (separator !== '' && separator !== '(' && separator !== '-') return null
  if (names.some((other) => other !== name && other.last === index - 1 && other.known !== null)) return null
  let words: Span | null = null
  let wordGrade: string | null = null
  // "8 NM-MT ABC": words between the number and the letters.
  const before = reading.endingAt('grade', index)
  if (before !== null) {
    words = before
    wordGrade = before.id.slice('grade:'.length)
  }
  if (words !== null) index = words.first - 1
  // "auto 10 ABC" grades the autograph.
  if (/^auto(?:graph)?$/.test(reading.tokens[index - 1]?.form ?? '')) return null
  const ofTen = name.known === null || (by === null && separator !== '') ? null : gradeOfTenEndingAt(reading, index)
  if (ofTen !== null)
    return { first: ofTen.first, last: name.last, grade: ofTen.grade, gradeSpan: ofTen, labelled: true }
  const grade = gradeNumberAt(reading, index)
  const labelled = reading.endingAt('label:grade-label', index - 1) !== null || isAfterGradeWords(reading, index - 1)
  if (grade !== null) {
    const first = labelled ? index - 1 : index
    if (by === null && name.known === null && !labelled && words === null) return null
    // "a 9 from …", and "8 by …" of letters that are no word.
    if (
      by !== null &&
      name.known === null &&
      !labelled &&
      words === null &&
      (name.weak || !isUnpronounceable(name.written))
    )
      return null
    return { first, last: name.last, grade, gradeSpan: { first: index, last: words?.last ?? index }, labelled: true }
  }
  const saidAt = by === null || name.known === null ? name.first - 1 : by.first - 1
  const authentic = reading.endingAt('label:authentic', saidAt)
  const altered = reading.endingAt('label:altered', saidAt)
  const said = altered ?? authentic
  if (said !== null && (name.known !== null || reading.endingAt('label:grade-label', said.first - 1) !== null)) {
    if (name.known !== null || reading.endingAt('label:grade-label', said.first - 1) !== null)
      return {
        first: said.first,
        last: name.last,
        grade: altered === null ? 'authentic' : 'altered',
        gradeSpan: said,
        labelled: true,
      }
  }
  if (words !== null && wordGrade !== null && by !== null && reading.endingAt('label:grade-label', index) !== null)
    return { first: words.first, last: name.last, grade: wordGrade, gradeSpan: words, labelled: true }
  return null
}

function isAfterGradeWords(reading: Reading, index: number): boolean {
  return reading.endingAt('grade', index) !== null
}

function finish(reading: Reading, name: NamedGrader, around: Around): FoundGrade {
  const qualifier = readQualifier(reading, around, name.known)
  const graderSpan = { first: name.first, last: name.last }
  return {
    first: Math.min(around.first, name.first),
    last: Math.max(around.last, name.last, qualifier?.last ?? 0),
    grader: name.written,
    graderSpan,
    grade: around.grade,
    gradeSpan: around.gradeSpan,
    qualifier: qualifier?.letters ?? null,
    qualifierSpan: qualifier,
    hypothetical:
      (around.grade === null && isAskedToGrade(reading, name)) ||
      isHypothetical(reading, {
        first: Math.min(around.first, name.first),
        last: Math.max(around.last, name.last),
      }),
    known: name.known,
    evident: name.known !== null || isEvident(reading, name, around),
  }
}

/** "ABC it!", "ABC this one": the name as a verb, which asks somebody else to have the card graded. */
function isAskedToGrade(reading: Reading, name: NamedGrader): boolean {
  const next = reading.tokens[name.last + 1]
  return next !== undefined && isJoined(reading, name.last + 1) && /^(it|this|these|them)$/.test(next.form)
}
