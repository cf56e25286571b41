/**
 * What speaks for a grader that the buyer's book does not know: form alone is far from enough, since any word in capitals before a
 * number has it. It decides nothing about graders of the book.
 */
import type { NamedGrader } from './find-grader-names.ts'
import { between, isJoined, type Reading, type Span } from './reading.ts'

interface GradeAround extends Span {
  readonly grade: string | null
  readonly gradeSpan: Span | null
}

/** Letters that words of the five languages end in, two consonants at a time; common practice, no source. */
const ENDINGS = new Set(
  'CH CK CT DS DT FF FT GH GN GS GT HL HM HN HR HS HT KS KT LB LD LF LK LL LM LP LS LT LZ MB MM MP MS MT NC ND NG NK NN NS NT NX NZ PF PP PS PT RB RC RD RE RF RG RK RL RM RN RP RR RS RT RZ SC SH SK SM SP SS ST TH TS TT TZ WL WN WS XT ZZ'.split(
    ' ',
  ),
)
const CONSONANTS_AT_END = /[BCDFGHJKLMNPQRSTVWXZ]{2}$/
const VOWEL = /[AEIOU]/

/** Whether two to four capitals can be no word: without a vowel, or with an end that no word has. */
export function isUnpronounceable(letters: string | null): boolean {
  if (letters === null || letters.length < 3 || letters.length > 4) return false
  if (!VOWEL.test(letters)) return true
  return CONSONANTS_AT_END.test(letters) && !ENDINGS.has(letters.slice(-2))
}

/** A grade word that goes with the grade, or a word of grading, stands beside the letters. */
export function isEvident(reading: Reading, name: NamedGrader, around: GradeAround): boolean {
  const first = Math.min(name.first, around.first)
  const last = Math.max(name.last, around.last)
  for (let index = first; index <= last; index += 1) {
    if (index >= name.first && index <= name.last) continue
    if (isGradeWord(reading, index, around.grade) || isGradingWord(reading, index)) return true
  }
  if (name.glued !== null && isGradeWord(reading, last + 1, around.grade)) return true
  const near = between(reading, last + 1)
  if (isJoined(reading, last + 1) || near === '(' || near === ',') {
    if (isGradeWord(reading, last + 1, around.grade) || isGradingWord(reading, last + 1)) return true
    if (
      /[0-9]{5}/.test(reading.tokens[(reading.startingAt('label:certificate', last + 1)?.last ?? last) + 1]?.form ?? '')
    )
      return true
  }
  // "an 8.5 from …": an article makes the number a grade.
  if (
    around.first < name.first &&
    isUnpronounceable(name.written) &&
    reading.endingAt('label:by', name.first - 1) !== null &&
    ARTICLE.test(reading.tokens[around.first - 1]?.form ?? '')
  )
    return true
  if (isUnpronounceable(name.written) && isTiedTo(reading, name, around)) return true
  if (!isJoined(reading, first) && between(reading, first) !== ':') return false
  const by = reading.endingAt('label:by', first - 1)
  const before = by === null ? first - 1 : by.first - 1
  if (isGradingWordEnding(reading, before)) return true
  // "gegradet mit 8 von …", "graded as a 9 by …"
  for (let index = before; index >= before - 1 && LINK.test(reading.tokens[index]?.form ?? ''); index -= 1)
    if (isGradingWordEnding(reading, index - 1)) return true
  return reading.endingAt('grade', before)?.id === `grade:${around.grade}`
}

const GRADER_LABEL = /^(grader|company|firma|gradingfirma|société|societe|empresa|società|societa|gradeur|compañía)$/

/** "Grader: …", "Firma – …": letters by a label of their own. */
export function isGraderLabelled(reading: Reading, first: number): boolean {
  return /^[:–-]$/.test(between(reading, first)) && GRADER_LABEL.test(reading.tokens[first - 1]?.form ?? '')
}

/** "Grader: …", "… gave it a 4", and in a text about one card "a … 6": letters that are no word, tied to the grade in words. */
function isTiedTo(reading: Reading, name: NamedGrader, around: GradeAround): boolean {
  const { tokens } = reading
  if (isGraderLabelled(reading, name.first)) return true
  if (around.grade === null || around.gradeSpan === null) return false
  if (isJoined(reading, name.last + 1) && reading.startingAt('label:gave', name.last + 1) !== null) return true
  const adjacent = around.gradeSpan.first === name.last + 1 && isJoined(reading, name.last + 1)
  const article = isJoined(reading, name.first) && ARTICLE.test(tokens[name.first - 1]?.form ?? '')
  return adjacent && article && isAboutCard(reading)
}

const LINK = /^(mit|with|at|as|an?|als|eine[rn]?|avec|un|una|con|by)$/
const ARTICLE = /^(an?|eine?|eine[nr]|une?|una|uno)$/

function isGradeWord(reading: Reading, index: number, grade: string | null): boolean {
  const word = reading.startingAt('grade', index)
  return word !== null && (word.id === `grade:${grade}` || grade === null)
}

function isGradingWord(reading: Reading, index: number): boolean {
  return (
    reading.startingAt('encapsulation:encapsulated', index) !== null ||
    reading.startingAt('label:grade-label', index) !== null
  )
}

function isGradingWordEnding(reading: Reading, index: number): boolean {
  return (
    reading.endingAt('encapsulation:encapsulated', index) !== null ||
    reading.endingAt('label:grade-label', index) !== null
  )
}

/** Words after which letters and a number are a device, a place or a time; common practice, no source. */
const PREPOSITION =
  /^(on|in|at|with|from|to|of|via|using|auf|im|in|an|am|mit|aus|bei|von|sur|dans|avec|chez|au|du|en|con|desde|su|nel|nella|dal|dalla|al)$/

/** Letters that are no word, before a grade, in a text about one card: its year, and its number or its set. */
export function isLikely(reading: Reading, name: NamedGrader, around: GradeAround): boolean {
  if (!isUnpronounceable(name.written)) return false
  const first = Math.min(name.first, around.first)
  // "shot on …", "at booth …": one word in small letters may stand between.
  let before = first - 1
  if (isJoined(reading, first) && isJoined(reading, before) && /^\p{Ll}+$/u.test(reading.raw(before))) before -= 1
  for (let index = before; index < first; index += 1)
    if (isJoined(reading, index + 1) && PREPOSITION.test(reading.raw(index))) return false
  return isAboutCard(reading)
}

const abouts = new WeakMap<Reading, boolean>()

/** Whether a text names a year or season, and a card number or a set. */
export function isAboutCard(reading: Reading): boolean {
  let about = abouts.get(reading)
  if (about === undefined) {
    const { original } = reading.text
    const dated =
      /(?<![0-9])(?:1[89]|20)[0-9]{2}(?![0-9])|(?<![0-9])[0-9]{2}\/[0-9]{2}(?![0-9])|['’][3-9][0-9](?![0-9])/.test(
        original,
      )
    about =
      dated &&
      (/#\s?[A-Z0-9]/.test(original) ||
        reading.pick('set:series-end').length > 0 ||
        reading.pick('set:maker-end').length > 0 ||
        reading.pick('mark:rookie').length > 0 ||
        reading.pick('mark:autograph').length > 0 ||
        reading.pick('mark:relic').length > 0 ||
        reading.pick('variation:variation').length > 0 ||
        reading.pick('label:card-number').some(({ last }) => /^[0-9]/.test(reading.tokens[last + 1]?.form ?? '')))
    abouts.set(reading, about)
  }
  return about
}

/** "BWX 9.5." alone behind the card's own sentence, in running text. */
export function isAlone(reading: Reading, span: Span): boolean {
  const sentence = reading.tokens[span.first]?.sentence ?? 0
  if (sentence === 0 || reading.tokens[span.first - 1]?.sentence === sentence) return false
  let last = span.last
  const word = reading.startingAt('grade', last + 1)
  if (word !== null) last = word.last
  if (reading.tokens[last + 1]?.sentence === sentence) return false
  return isCardSentence(reading, span.first - 1)
}

/** A sentence with a year and a card number by its sign or label. */
function isCardSentence(reading: Reading, end: number): boolean {
  const sentence = reading.tokens[end]?.sentence
  let dated = false
  let numbered = false
  for (let index = end; index >= 0 && end - index < LONGEST_CARD_SENTENCE; index -= 1) {
    const token = reading.tokens[index]
    if (token === undefined || token.sentence !== sentence) break
    if (/^(?:1[89]|20)[0-9]{2}$/.test(token.form)) dated = true
    if (/^[0-9]{1,4}[a-z]?$/.test(token.form))
      numbered ||= token.separator.endsWith('#') || reading.endingAt('label:card-number', index - 1) !== null
  }
  return dated && numbered
}
/** Tokens of a sentence that names a card; ours. */
const LONGEST_CARD_SENTENCE = 30
