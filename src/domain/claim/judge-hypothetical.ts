/**
 * Whether a grade in a text was given, or only wished for, remembered, compared with or refused. It reads the words around the grade.
 */
import { GAP } from '../text/normalise-text.ts'
import { endsWithin, isJoined, type Reading, type Span } from './reading.ts'

/** A wish, a memory or a comparison right before or behind. */
export function isHypothetical(reading: Reading, span: Span): boolean {
  let first = span.first
  const words = reading.endingAt('grade', first - 1)
  for (const at of [first, words?.first ?? first]) {
    first = at
    const before = reading.endingAt('encapsulation:hypothetical-before', first - 1)
    if (before !== null && isJoined(reading, first) && !isPassive(reading, before)) return true
    // "was a KVX 8" is over; "was graded KVX 8" was done.
    const formerly = reading.endingAt('encapsulation:formerly-before', first - 1)
    if (formerly !== null && isJoined(reading, first) && reading.startingAt('label:grade-label', first) === null)
      return true
    // "would grade 9": the cue holds the label itself.
    for (let index = span.first; index < span.last; index += 1) {
      const inside = reading.endingAt('encapsulation:hypothetical-before', index)
      if (inside !== null && inside.first < span.first && !isPassive(reading, inside)) return true
    }
  }
  // "ex-ABC 7"
  if (reading.tokens[span.first]?.separator === '-' && reading.tokens[span.first - 1]?.form === 'ex') return true
  if (endsWithin(reading, 'encapsulation:cracked', span.first, CRACKED_REACH)) return true
  if (isFormer(reading, span)) return true
  const after = reading.startingAt('encapsulation:hypothetical-after', span.last + 1)
  // "OLQ 7 crossover candidate": the grade that it has now, to be had elsewhere too.
  const crossing = reading.tokens[span.last + 1]?.form === 'crossover' && span.last > span.first
  if (after !== null && isJoined(reading, span.last + 1) && !crossing) return true
  const end = reading.tokens[span.last]?.end ?? 0
  return /^\s?\?/.test(reading.text.original.slice(end, end + 2))
}

/** German "wurde … bewertet" was done; folded it looks like "würde", which is only wished. */
function isPassive(reading: Reading, cue: Span): boolean {
  return reading.raw(cue.first).toLowerCase() === 'wurde'
}

/** Tokens between "cracked out" and the grade; ours, articles and a grader fit. */
const CRACKED_REACH = 6

/** "ex ABC 5": a former one. "EX ABC 5" is Excellent, unless the card was cracked out. */
function isFormer(reading: Reading, span: Span): boolean {
  if (reading.tokens[span.first - 1]?.form !== 'ex' || !isJoined(reading, span.first)) return false
  if (reading.raw(span.first - 1) !== 'EX') return true
  const next = reading.tokens[span.last + 1]
  return next !== undefined && next.gapBefore < GAP.sentence && /^(crack|break|broke)/.test(next.form)
}
