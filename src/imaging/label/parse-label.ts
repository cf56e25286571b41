/**
 * What the lines of a grading label say, by their form: certificate number, grade, grading company's letters. No company is known
 * by name. What could be read in two ways is not taken.
 */
import type { ReadLine } from './read-text-line.ts'

/** A line and where it stands on the label: 0–1 of the label's width and height. */
export interface PlacedLine extends ReadLine {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

export interface NumberFound {
  readonly value: string
  /** Lowest probability among its digits, 0–1. */
  readonly certainty: number
  /** A word such as "cert" stands before it. */
  readonly named: boolean
  readonly line: PlacedLine
}

// Digits: what carries fewer is a card number, a year or a count; what carries more is a code of a warehouse. Common
// practice, no source.
// Beside a digit, a letter or a lone sign set apart by a space a number may be the rest of a misread one, and does not count.
const NUMBER =
  /(?<![\p{L}\d/$€£%-]|\d[.,]|\d\s|(?:^|\s)\p{L}\s)\d[\dO]{4,10}\d(?:-\d{2,4})?(?![\p{L}\d/%]|[.,]\d|-|\s\d|\s\p{L}(?:\s|$))/gu
// Of so many signs all but these few must be read as digits: an O among them is a nought, a word is no number.
const MOST_LETTER_O = 2
// The words before a certificate number; recognition takes an O for a nought and drops the space behind.
const NUMBER_WORD = /^(?:(?:cert(?:ificate|ificati[o0]n|\.)?|serial|id|n[ro]|number|nummer|№|#)[\s.:#№]*)+/i

/** Every number on a line that could be a certificate's. @param before the words left of it in the same row */
function numbersOf(line: PlacedLine, before: string): NumberFound[] {
  const word = NUMBER_WORD.exec(line.text)?.[0] ?? ''
  const text = ' '.repeat(word.length) + line.text.slice(word.length)
  const named = word !== '' || (before !== '' && NUMBER_WORD.exec(before)?.[0].length === before.length)
  const found = [...text.matchAll(NUMBER)].filter(([written]) => written.split('O').length - 1 <= MOST_LETTER_O)
  return found.map((match) => ({
    value: match[0].replaceAll('O', '0'),
    certainty: Math.min(...line.probabilities.slice(match.index, match.index + match[0].length)),
    named: named && text.slice(0, match.index).trim() === '',
    line,
  }))
}

/** The certificate number of one reading of a label; `null` where none or more than one could be it. */
export function findCertificate(lines: readonly PlacedLine[]): NumberFound | null {
  const found = lines.flatMap((line) => numbersOf(line, neighbourBefore(line, lines)?.text ?? ''))
  const named = found.filter((number) => number.named)
  const choice = named.length > 0 ? named : found
  const values = new Set(choice.map(({ value }) => value))
  return values.size === 1 ? choice.reduce((a, b) => (b.certainty > a.certainty ? b : a)) : null
}

const heightOf = (line: PlacedLine) => line.bottom - line.top
const middleOf = (line: PlacedLine) => (line.top + line.bottom) / 2

/** The line that ends shortly before this one begins, in the same row. */
function neighbourBefore(line: PlacedLine, lines: readonly PlacedLine[]): PlacedLine | null {
  const inRow = lines.filter(
    (other) =>
      other !== line &&
      Math.abs(middleOf(other) - middleOf(line)) < heightOf(line) / 2 &&
      other.left < line.left &&
      line.left - other.right < 0.15,
  )
  return inRow.reduce<PlacedLine | null>((a, b) => (a === null || b.right > a.right ? b : a), null)
}

// Words of grades as they stand on labels, in capitals. Common practice, no source.
const GRADE_WORDS =
  'GEM|MINT|MT|NM|NEAR|EX|EXCELLENT|VG|VERY|GOOD|GD|FAIR|FR|POOR|PR|PRISTINE|PERFECT|AUTHENTIC|AUTH|ALTERED|AUT'
const ONLY_GRADE_WORDS = new RegExp(`^(?:(?:${GRADE_WORDS})[\\s./+-]*)+$`)
// Recognition drops spaces, so none is asked for.
const WORDS_AND_NUMBER = new RegExp(`^(?:[A-Z]{2,5}\\s+)?(?:(?:${GRADE_WORDS})[\\s./+-]*)+(10|[1-9](?:[.,][05])?)$`)
const NUMBER_AND_WORDS = new RegExp(`^(10|[1-9](?:[.,][05])?)\\s*(?:(?:${GRADE_WORDS})[\\s./+-]*)+$`)
const LONE_NUMBER = /^(10|[1-9](?:[.,][05])?)$/
const PART_GRADE = /CENT|CORN|EDGE|SURF|AUTO/i

const toGrade = (text: string) => text.replace(',', '.').replace(/\.0$/, '')

/**
 * The grade of one reading: a number beside grade words, or a number alone that is printed larger than the lines around it. `null`
 * where there is none, or where two differ.
 */
export function findGrade(lines: readonly PlacedLine[]): string | null {
  const heights = lines.map(heightOf).sort((a, b) => a - b)
  const usual = heights[Math.floor(heights.length / 2)] ?? 0
  const withWords = new Set<string>()
  const alone = new Set<string>()
  for (const line of lines) {
    const text = line.text.toUpperCase().trim()
    if (PART_GRADE.test(text)) continue
    const written = WORDS_AND_NUMBER.exec(text)?.[1] ?? NUMBER_AND_WORDS.exec(text)?.[1]
    if (written !== undefined) withWords.add(toGrade(written))
    const lone = LONE_NUMBER.exec(text)?.[1]
    if (lone === undefined || PART_GRADE.test(neighbourBefore(line, lines)?.text ?? '')) continue
    if (standsByWords(line, lines)) withWords.add(toGrade(lone))
    else if (heightOf(line) > usual * 1.25) alone.add(toGrade(lone))
  }
  if (withWords.size > 0) return withWords.size === 1 ? [...withWords][0]! : null
  if (alone.size > 0) return alone.size === 1 ? [...alone][0]! : null
  const words = lines.map(({ text }) => text.toUpperCase().trim())
  if (words.includes('AUTHENTIC ALTERED') || (words.includes('AUTHENTIC') && words.includes('ALTERED')))
    return 'altered'
  return words.includes('AUTHENTIC') ? 'authentic' : null
}

/** Grade words in the same row, or right above or below. */
function standsByWords(number: PlacedLine, lines: readonly PlacedLine[]): boolean {
  return lines.some((line) => {
    if (line === number || !ONLY_GRADE_WORDS.test(line.text.toUpperCase().trim())) return false
    const overlap = Math.min(line.right, number.right) - Math.max(line.left, number.left)
    const apart = Math.max(line.top - number.bottom, number.top - line.bottom)
    const sameRow = Math.abs(middleOf(line) - middleOf(number)) < Math.max(heightOf(line), heightOf(number)) / 2
    return sameRow || (overlap > 0 && apart < Math.max(heightOf(line), heightOf(number)))
  })
}

/** Whether what was read bears witness of a grading label at all: a long number or a grade in words. */
export function looksLikeLabel(lines: readonly PlacedLine[]): boolean {
  if (lines.some((line) => numbersOf(line, '').length > 0)) return true
  return lines.some((line) => WORDS_AND_NUMBER.test(line.text.toUpperCase().trim()) || ONLY_GRADE_WORDS.test(line.text))
}

// Capitals that stand alone on labels and are no company's. Common practice, no source.
const NO_GRADER = new RegExp(
  `^(?:${GRADE_WORDS}|RC|SP|SSP|HOF|AU|AUTO|POP|NO|NR|CERT|CARD|SET|THE|AND|OC|MC|MK|PD|ST|OF|DP|VAR|ERR|COA|USA|UK|EU|GMBH|INC|LTD|CO|ID|QR)$`,
)
const LETTERS_ALONE = /^[A-Z]{2,4}$/
const LETTERS_BEFORE_GRADE = new RegExp(
  `^([A-Z]{2,4}?)\\s*(?:(?:${GRADE_WORDS})[\\s./+-]*)+(?:10|[1-9](?:[.,][05])?)?$`,
)

/** The grading company's letters, by form: a group of capitals on a line of its own or before the grade. `null` where two could be it. */
export function findGrader(lines: readonly PlacedLine[], usualCertainty: number): string | null {
  const found = new Set<string>()
  for (const line of lines) {
    const text = line.text.trim()
    const letters = LETTERS_ALONE.test(text) ? text : LETTERS_BEFORE_GRADE.exec(text)?.[1]
    if (letters === undefined || NO_GRADER.test(letters) || ONLY_GRADE_WORDS.test(letters)) continue
    if (Math.min(...line.probabilities.slice(0, letters.length)) < usualCertainty) continue
    found.add(letters)
  }
  return found.size === 1 ? [...found][0]! : null
}

/** Whether a certificate number, a grade or a company's letters may be on this line, perhaps misread. */
export function carriesFigures({ text }: { readonly text: string }): boolean {
  const plain = text.toUpperCase().trim()
  return (
    plain.length <= 5 ||
    /\d{5}/.test(plain) ||
    WORDS_AND_NUMBER.test(plain) ||
    LETTERS_BEFORE_GRADE.test(plain) ||
    ONLY_GRADE_WORDS.test(plain)
  )
}
