/**
 * Whether two known values of one kind contradict each other. Cautious: what could be the same is no contradiction.
 */
import type { Grader } from '../grader-book.ts'
import type { FactKind } from './fact-ids.ts'

/** First and last year of `1931`, `1931-32`, `1999-2000`, `31/32`; `null` where none can be read. */
export function yearSpan(text: string): readonly [number, number] | null {
  const found = /^(\d{4})(?:\s*[-–/]\s*(\d{4}|\d{2}))?$/.exec(text.trim())
  if (!found) return null
  const first = Number(found[1])
  if (found[2] === undefined) return [first, first]
  const last = found[2].length === 4 ? Number(found[2]) : Math.floor(first / 100) * 100 + Number(found[2])
  return last < first ? [first, last + 100] : [first, last]
}

function foldName(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase()
}

/** The grader's entry in the book, by name or abbreviation; `null` where the book does not hold it. */
export function findGrader(name: string, graders: readonly Grader[]): Grader | null {
  const wanted = foldName(name)
  return (
    graders.find((grader) => [grader.name, ...grader.abbreviations].some((known) => foldName(known) === wanted)) ?? null
  )
}

export function factsDiffer(kind: FactKind, left: string, right: string, graders: readonly Grader[]): boolean {
  switch (kind) {
    case 'year': {
      const a = yearSpan(left)
      const b = yearSpan(right)
      return a !== null && b !== null && (a[1] < b[0] || b[1] < a[0])
    }
    case 'grader': {
      const a = findGrader(left, graders)
      const b = findGrader(right, graders)
      return a || b ? a !== b : foldName(left) !== foldName(right)
    }
    case 'grade': {
      const [a, b] = [Number(left), Number(right)]
      return Number.isNaN(a) || Number.isNaN(b) ? foldName(left) !== foldName(right) : a !== b
    }
    case 'card-number':
    case 'certificate':
      return foldName(left).replace(/^0+/, '') !== foldName(right).replace(/^0+/, '')
    default:
      return foldName(left) !== foldName(right)
  }
}
