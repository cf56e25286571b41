/** From all sales of one card, the nearest level that has any: same grade, other grade, raw. */
import type { Claim } from '../claim.ts'
import { findGrader } from '../rules/compare-facts.ts'
import type { MatchLevel, Said } from '../valuation.ts'
import { isGraded, type Knowledge, type MatchedSale } from './match-sales.ts'
import { said } from './words.ts'

export interface LevelChoice {
  readonly level: MatchLevel | null
  readonly sales: readonly MatchedSale[]
  /** The sales are of the card as it is offered, so that an asked price may be held against them. */
  readonly comparable: boolean
  readonly step: Said
}

// Below five sales the trade speaks of a range, not of an estimate: common practice, no source.
export const THIN_BELOW = 5

const exact = (sales: readonly MatchedSale[]) => sales.filter(({ sale }) => !sale.bestOffer).length

export function chooseLevel(claim: Claim, matched: readonly MatchedSale[], knowledge: Knowledge): LevelChoice {
  const graded = matched.filter((match) => match.condition === 'graded')
  const raw = matched.filter((match) => match.condition === 'raw')
  if (!isGraded(claim, knowledge.graders)) {
    if (raw.length > 0)
      return { level: 'same-card-raw', sales: raw, comparable: true, step: said('step.raw', { count: raw.length }) }
    if (graded.length === 0) return nothing
    return {
      level: 'same-card-other-grade',
      sales: graded,
      comparable: false,
      step: said('step.no-raw', { count: graded.length }),
    }
  }
  const sameGrade = graded.filter((match) => match.claim.grade === claim.grade)
  const sameGrader = sameGrade.filter((match) => isSameGrader(match.claim, claim, knowledge))
  if (exact(sameGrader) >= THIN_BELOW || (sameGrader.length > 0 && sameGrader.length === sameGrade.length)) {
    return {
      level: 'same-card-same-grade',
      sales: sameGrader,
      comparable: true,
      step: said('step.same-grade', { count: sameGrader.length, grade: claim.grade ?? '', grader: claim.grader ?? '' }),
    }
  }
  if (sameGrade.length > 0) {
    return {
      level: 'same-card-same-grade',
      sales: sameGrade,
      comparable: true,
      step: said('step.any-grader', { count: sameGrade.length, grade: claim.grade ?? '' }),
    }
  }
  if (graded.length > 0) {
    return {
      level: 'same-card-other-grade',
      sales: graded,
      comparable: false,
      step: said('step.other-grades', { count: graded.length, grade: claim.grade ?? '' }),
    }
  }
  if (raw.length > 0) {
    return {
      level: 'same-card-raw',
      sales: raw,
      comparable: false,
      step: said('step.no-graded', { count: raw.length }),
    }
  }
  return nothing
}

const nothing: LevelChoice = { level: null, sales: [], comparable: false, step: said('step.nothing') }

function isSameGrader(a: Claim, b: Claim, { graders }: Knowledge): boolean {
  if (a.grader === null || b.grader === null) return false
  return (findGrader(a.grader, graders)?.name ?? a.grader) === (findGrader(b.grader, graders)?.name ?? b.grader)
}
