/** A grade as it was found in a text, with the words behind each part of it. */
import type { Grader } from '../grader-book.ts'
import type { Span } from './reading.ts'

export interface FoundGrade extends Span {
  /** As written, in capitals where it is letters; the book maps it to a name. */
  readonly grader: string | null
  readonly graderSpan: Span | null
  readonly grade: string | null
  readonly gradeSpan: Span | null
  readonly qualifier: string | null
  readonly qualifierSpan: Span | null
  /** Wished for, remembered or compared with; not given. */
  readonly hypothetical: boolean
  readonly known: Grader | null
  /** More than the form speaks for the grader: the book, a grade word, a word of grading. */
  readonly evident: boolean
}
