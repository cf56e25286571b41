/** Holds a grader's record page against the claim of the listing that was in front before it. Gathers; `compareRecord` decides. */
import { compareRecord, recordNumberIn } from '../../domain/claim/compare-record.ts'
import type { Claim } from '../../domain/claim.ts'
import type { Grader } from '../../domain/grader-book.ts'
import type { Packs } from '../../domain/rules/packs.ts'
import type { RecordState } from '../../ui/panel/panel-state.ts'
import type { PageSnapshot } from '../protocol.ts'

/** The listing looked at last, for as long as the panel stays open. */
export interface Remembered {
  readonly title: string
  readonly claim: Claim
}

/** The number in the page's address where it is the record page of a grader in the book; `null`: it is none. */
export function findRecordNumber(url: string | null, graders: readonly Grader[]): string | null {
  for (const { lookUp } of graders) {
    const number = recordNumberIn(url, lookUp)
    if (number !== null) return number
  }
  return null
}

export function readRecordPage(
  { title, claim }: Remembered,
  { reading, pageText }: PageSnapshot,
  graders: readonly Grader[],
  packs: Packs,
): RecordState {
  const specifics = reading.kind === 'listing' ? reading.specifics : {}
  const number = findRecordNumber(reading.url, graders)
  const knowledge = { graders, vocabulary: packs.vocabulary }
  return { phase: 'record', title, fields: compareRecord(claim, { text: pageText, specifics }, number, knowledge) }
}
