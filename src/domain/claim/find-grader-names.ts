/**
 * Names and abbreviations that may be a grading company's: those of the buyer's book, and those by form alone – two to five
 * capitals that no list of abbreviations, no vocabulary and no capitals around them explain.
 */
import type { Grader } from '../grader-book.ts'
import { type CompiledPhrases, compilePhrases, keepLongest, matchPhrases } from '../text/match-phrases.ts'
import { foldText } from '../text/normalise-text.ts'
import { readGrade } from './grade-forms.ts'
import { between, isJoined, type Reading, type Span } from './reading.ts'

export interface NamedGrader extends Span {
  readonly written: string
  readonly known: Grader | null
  /** A grade that is written into the same token: `ABC9`. */
  readonly glued: string | null
  /** By form alone, and in surroundings where capitals mean little: needs a word of grading beside it. */
  readonly weak: boolean
}

const compiledBooks = new WeakMap<readonly Grader[], { phrases: CompiledPhrases; graders: Map<string, Grader> }>()

function compileBook(graders: readonly Grader[]): { phrases: CompiledPhrases; graders: Map<string, Grader> } {
  const known = compiledBooks.get(graders)
  if (known !== undefined) return known
  const byId = new Map<string, Grader>()
  const lists = graders.flatMap((grader, index) => {
    const names = [grader.name, ...grader.abbreviations].filter((name) => /[\p{L}\p{N}]/u.test(foldText(name)))
    byId.set(String(index), grader)
    // The buyer writes names, not phrases: the signs of the phrase language are plain characters here.
    const phrases = names
      .map((name) => name.replace(/[*|~[\],]/g, ' ').trim())
      .filter((name) => /[\p{L}\p{N}]/u.test(name))
    return phrases.length === 0 ? [] : [{ id: String(index), language: null, phrases }]
  })
  const compiled = { phrases: compilePhrases(lists), graders: byId }
  compiledBooks.set(graders, compiled)
  return compiled
}

/** Form of a grader's abbreviation: two to five capitals (trade practice, [cp]). */
const ABBREVIATION = /^[A-Z]{2,5}$/
const GLUED = /^([A-Z]{2,5})(10|[1-9](?:[.,][05])?)$/

export function findGraderNames(reading: Reading, graders: readonly Grader[]): NamedGrader[] {
  const { tokens, text } = reading
  const book = compileBook(graders)
  const names: NamedGrader[] = []
  const taken = new Set<number>()
  for (const match of keepLongest(matchPhrases(text, book.phrases))) {
    const written = match.quote
    // A short name in small letters may be a word of the language.
    if (
      match.first === match.last &&
      written.length <= 5 &&
      written !== written.toUpperCase() &&
      !isNearGrade(reading, match.last)
    )
      continue
    const known = book.graders.get(match.id) ?? null
    const abbreviation = abbreviationOf(known, match.phrase)
    names.push({
      first: match.first,
      last: match.last,
      written: abbreviation ?? written,
      known,
      glued: null,
      weak: false,
    })
    for (let index = match.first; index <= match.last; index += 1) taken.add(index)
  }
  let inVocabulary: Set<number> | null = null
  const { original } = text
  tokens.forEach((token, index) => {
    // Letters by form begin with a capital; glued ones end in a figure.
    const code = original.charCodeAt(token.start)
    const isCapital = code >= 0x41 && code <= 0x5a
    if (token.form.length > 8 || taken.has(index)) return
    const final = token.form.charCodeAt(token.form.length - 1)
    if (!isCapital && !(final >= 0x30 && final <= 0x39)) {
      if (token.form.length <= 4 && isTypedSmall(reading, index))
        names.push({
          first: index,
          last: index,
          written: token.form.toUpperCase(),
          known: null,
          glued: null,
          weak: false,
        })
      return
    }
    const raw = reading.raw(index)
    const glued = /[0-9]$/.test(raw)
      ? (GLUED.exec(raw.replace(',', '.')) ?? GLUED.exec(gluedToKnown(raw, graders)))
      : null
    if (glued !== null) {
      const written = glued[1] ?? ''
      const known =
        graders.find((grader) => grader.abbreviations.some((name) => name.toUpperCase() === written)) ?? null
      if (
        known === null &&
        (written.length < 3 || isNoGrader(reading, written) || between(reading, index).endsWith('#'))
      )
        return
      names.push({
        first: index,
        last: index,
        written,
        known,
        glued: readGrade(glued[2] ?? ''),
        weak: known === null && reading.inCapitals,
      })
      return
    }
    if (!ABBREVIATION.test(raw) || isNoGrader(reading, raw)) return
    inVocabulary ??= vocabularyTokens(reading)
    if (inVocabulary.has(index)) return
    if (token.disguise !== null || between(reading, index).endsWith('#')) return
    names.push({
      first: index,
      last: index,
      written: raw,
      known: null,
      glued: null,
      weak: reading.inCapitals && /[AEIOUY]/.test(raw),
    })
  })
  return names.sort((a, b) => a.first - b.first)
}

/** `xtr 10 pristine`: letters that are no word, a grade and the word that goes with it. */
function isTypedSmall(reading: Reading, index: number): boolean {
  const { form } = reading.tokens[index] ?? { form: '' }
  const following = reading.tokens[index + 1]?.form.charCodeAt(0) ?? 0
  if (following < 0x31 || following > 0x39) return false
  if (!/^[bcdfghjklmnpqrstvwxyz]{3,4}$/.test(form) || isNoGrader(reading, form.toUpperCase())) return false
  const grade = readGrade(reading.tokens[index + 1]?.form ?? '')
  return (
    grade !== null &&
    isJoined(reading, index + 1) &&
    isJoined(reading, index + 2) &&
    reading.startingAt('grade', index + 2)?.id === `grade:${grade}`
  )
}

/** `kvx8` counts where the book knows the letters. */
function gluedToKnown(raw: string, graders: readonly Grader[]): string {
  const letters = /^[a-z]+/i.exec(raw)?.[0].toUpperCase()
  if (letters === undefined) return ''
  const known = graders.some((grader) => grader.abbreviations.some((name) => name.toUpperCase() === letters))
  return known ? raw.toUpperCase().replace(',', '.') : ''
}

function isNoGrader(reading: Reading, written: string): boolean {
  const { abbreviations, cueWords } = reading.vocabulary
  if (cueWords.has(written.toLowerCase())) return true
  if (abbreviations.has(written)) return true
  return written.endsWith('S') && abbreviations.has(written.slice(0, -1))
}

function abbreviationOf(grader: Grader | null, phrase: string): string | null {
  if (grader === null) return null
  const written = grader.abbreviations.find((name) => name === phrase) ?? grader.abbreviations[0]
  return written === undefined ? null : written.toUpperCase()
}

function isNearGrade(reading: Reading, index: number): boolean {
  for (const at of [index + 1, index - 1])
    if (reading.tokens[at] !== undefined && readGrade(reading.tokens[at]?.form ?? '') !== null) return true
  return reading.startingAt('label:grade-label', index + 1) !== null || reading.endingAt('label:by', index - 1) !== null
}

/** Tokens that the vocabulary explains otherwise. */
function vocabularyTokens(reading: Reading): Set<number> {
  const taken = new Set<number>()
  const families = [
    ['mark:autograph', 'mark:relic', 'mark:rookie'],
    ['reprint:stated', 'reprint:ambiguous', 'reprint:patch'],
    ['object:lot', 'object:digital', 'object:sealed-product'],
    ['variation:variation'],
    ['encapsulation:raw', 'encapsulation:encapsulated'],
    ['label:authentic', 'label:altered', 'label:count-noun', 'label:certificate', 'label:serial', 'label:card-number'],
    ['holder:screw-down', 'holder:one-touch', 'holder:toploader', 'holder:semi-rigid', 'holder:sleeve'],
    ['set:series-end', 'set:maker-end', 'set:noise'],
    ['grade'],
  ]
  for (const lists of families)
    for (const match of reading.pick(...lists))
      for (let index = match.first; index <= match.last; index += 1) taken.add(index)
  return taken
}
