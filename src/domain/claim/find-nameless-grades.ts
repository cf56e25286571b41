/** Grades that stand without a grader's name beside them: "graded 8", "They gave it a 6", "NM-MT 8". Who gave them is another's question. */
import type { FoundGrade } from './found-grade.ts'
import { gradeNumberAt } from './grade-forms.ts'
import { isHypothetical } from './judge-hypothetical.ts'
import { readQualifier } from './read-qualifier.ts'
import { between, isJoined, type Reading, type Span } from './reading.ts'

/** A grade without a grader: "graded 8", "Note 8", and a grade word with its own number: "NM-MT 8". */
export function findNameless(reading: Reading): FoundGrade[] {
  const found: FoundGrade[] = []
  reading.tokens.forEach((_token, index) => {
    const grade = gradeNumberAt(reading, index)
    if (grade === null || !isJoined(reading, index)) {
      // "Grade: 8", "Grade - 8"
      if (grade === null || !/^[:–-]$/.test(between(reading, index))) return
      if (between(reading, index) !== ':' && reading.endingAt('label:grade-label', index - 1) === null) return
    }
    const label = labelBefore(reading, index)
    const words = reading.endingAt('grade', index - 1)
    const agrees = words !== null && words.id === `grade:${grade}`
    if (label === null && !agrees) {
      // "like a 9": nobody wishes a grade for a card that has one.
      const wish = reading.endingAt('encapsulation:wish-before', index - 1)
      if (wish !== null) found.push(createWish({ first: wish.first, last: index }))
      return
    }
    const first = Math.min(label?.first ?? index, words?.first ?? index)
    const span = { first, last: index }
    const qualifier = readQualifier(reading, span, null)
    found.push({
      ...span,
      last: qualifier?.last ?? index,
      grader: null,
      graderSpan: null,
      grade,
      gradeSpan: { first: words?.first ?? index, last: index },
      qualifier: qualifier?.letters ?? null,
      qualifierSpan: qualifier,
      hypothetical: isHypothetical(reading, span),
      known: null,
      evident: false,
    })
  })
  return found
}

function createWish(span: Span): FoundGrade {
  return {
    ...span,
    grader: null,
    graderSpan: null,
    grade: null,
    gradeSpan: null,
    qualifier: null,
    qualifierSpan: null,
    hypothetical: true,
    known: null,
    evident: false,
  }
}

/** "The grade is a 7": light words between the label and its number. */
const LIGHT_BEFORE_GRADE = /^(is|was|a|an|of|at|lautet|ist|est|es|un|una)$/

/** "They gave it a 6", where the grader was named before. What the seller gave is an opinion. */
function givenBefore(reading: Reading, index: number): Span | null {
  const gave = reading.endingAt('label:gave', index - 1)
  const who = gave === null ? '' : (reading.tokens[gave.first - 1]?.form ?? '')
  return /^(they|who|sie|ils|elle|ellos|loro)$/.test(who) ? gave : null
}

function labelBefore(reading: Reading, index: number): Span | null {
  const given = givenBefore(reading, index)
  if (given !== null) return given
  let light = index
  while (
    light > index - 3 &&
    isJoined(reading, light) &&
    LIGHT_BEFORE_GRADE.test(reading.tokens[light - 1]?.form ?? '')
  )
    light -= 1
  if (light < index && isJoined(reading, light)) {
    const said = reading.endingAt('label:grade-label', light - 1)
    if (said !== null && /^(grade|note|nota|voto|bewertung|grado)$/.test(reading.tokens[said.last]?.form ?? ''))
      return said
  }
  const direct = reading.endingAt('label:grade-label', index - 1)
  if (direct !== null) {
    const adjective = reading.tokens[direct.first - 1]?.form ?? ''
    return /^(low|mid|middle|high|higher|nice|lower|by)$/.test(adjective) ? null : direct
  }
  // "graded Mint 9", "gegradet mit 8": one word between.
  const words = reading.endingAt('grade', index - 1)
  const before = words?.first ?? index
  return (
    reading.endingAt('label:grade-label', before - 1) ??
    (isJoined(reading, before - 1) ? reading.endingAt('label:grade-label', before - 2) : null)
  )
}
