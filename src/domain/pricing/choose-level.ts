/** From all sales of one card, the nearest level that has any: same grade, other grade, raw. */
import type { Claim } from '../claim.ts'
import { findGrader } from '../rules/compare-facts.ts'
import type { MatchLevel } from '../valuation.ts'
import { isGraded, type Knowledge, type MatchedSale } from './match-sales.ts'

export interface LevelChoice {
  readonly level: MatchLevel | null
  readonly sales: readonly MatchedSale[]
  /** The sales are of the card as it is offered, so that an asked price may be held against them. */
  readonly comparable: boolean
  readonly step: string
}

// Below five sales the trade speaks of a range, not of an estimate: common practice, no source.
export const THIN_BELOW = 5

export function chooseLevel(claim: Claim, matched: readonly MatchedSale[], knowledge: Knowledge): LevelChoice {
  const graded = matched.filter((match) => match.condition === 'graded')
  const raw = matched.filter((match) => match.condition === 'raw')
  if (!isGraded(claim, knowledge.graders)) {
    if (raw.length > 0)
      return { level: 'same-card-raw', sales: raw, comparable: true, step: `Took the ${count(raw)} of this card raw.` }
    if (graded.length === 0) return nothing
    return {
      level: 'same-card-other-grade',
      sales: graded,
      comparable: false,
      step: `No raw sale of this card is at hand; took the ${count(graded)} of it graded, whatever the grade.`,
    }
  }
  const sameGrade = graded.filter((match) => match.claim.grade === claim.grade)
  const sameGrader = sameGrade.filter((match) => isSameGrader(match.claim, claim, knowledge))
  if (sameGrader.length >= THIN_BELOW || (sameGrader.length > 0 && sameGrader.length === sameGrade.length)) {
    return {
      level: 'same-card-same-grade',
      sales: sameGrader,
      comparable: true,
      step: `Took the ${count(sameGrader)} of this card graded ${claim.grade} by ${claim.grader}.`,
    }
  }
  if (sameGrade.length > 0) {
    return {
      level: 'same-card-same-grade',
      sales: sameGrade,
      comparable: true,
      step: `Took the ${count(sameGrade)} of this card graded ${claim.grade} by any grader that the book accepts.`,
    }
  }
  if (graded.length > 0) {
    return {
      level: 'same-card-other-grade',
      sales: graded,
      comparable: false,
      step: `No sale in grade ${claim.grade} is at hand; took the ${count(graded)} of this card in other grades.`,
    }
  }
  if (raw.length > 0) {
    return {
      level: 'same-card-raw',
      sales: raw,
      comparable: false,
      step: `No graded sale is at hand; took the ${count(raw)} of this card raw.`,
    }
  }
  return nothing
}

const nothing: LevelChoice = { level: null, sales: [], comparable: false, step: 'No sale of this card is at hand.' }

function isSameGrader(a: Claim, b: Claim, { graders }: Knowledge): boolean {
  if (a.grader === null || b.grader === null) return false
  return (findGrader(a.grader, graders)?.name ?? a.grader) === (findGrader(b.grader, graders)?.name ?? b.grader)
}

function count(sales: readonly MatchedSale[]): string {
  return sales.length === 1 ? 'one sale' : `${sales.length} sales`
}
