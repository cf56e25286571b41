/**
 * One text of a listing (title, one specific, description) read once: its tokens, the vocabulary found in it, and where.
 * What the finders share; it decides nothing.
 */
import type { Quote } from '../claim.ts'
import { keepLongest, type Match, matchPhrases } from '../text/match-phrases.ts'
import { GAP, type NormalisedText, normaliseText, type Token } from '../text/normalise-text.ts'
import { analyseScope, createFoundCues, type FoundCues, type ScopedMatch } from '../text/scope.ts'
import type { Vocabulary } from './vocabulary.ts'

export interface Span {
  readonly first: number
  readonly last: number
}

export interface Reading {
  readonly field: string
  /** Where this text begins in its field, in UTF-16 units. */
  readonly offset: number
  readonly text: NormalisedText
  readonly tokens: readonly Token[]
  readonly vocabulary: Vocabulary
  /** Most words are in capitals, so that capitals mean nothing. */
  readonly inCapitals: boolean
  /** The longest matches of the named lists (`topic:list`), one family, none overlapping another. */
  pick(...lists: string[]): readonly Match[]
  /** The same with what stands around them. */
  scoped(...lists: string[]): readonly ScopedMatch[]
  /** The longest match of a list that begins or ends at a token. */
  startingAt(list: string, index: number): Match | null
  endingAt(list: string, index: number): Match | null
  /** Whether a list has a match in the sentence of a token. */
  hasInSentence(list: string, index: number): boolean
  /** A token as it stands. */
  raw(index: number): string
}

const NONE: readonly Match[] = []

/**
 * @param options.running a description, for which the vocabulary of titles is left out.
 * @param options.offset where the text begins in its field.
 */
export function readText(
  field: string,
  original: string,
  vocabulary: Vocabulary,
  { offset = 0, running = false }: { offset?: number; running?: boolean } = {},
): Reading {
  const text = normaliseText(original)
  const { tokens } = text
  const byList = new Map<string, Match[]>()
  const file = (list: string, match: Match): void => {
    const known = byList.get(list)
    if (known === undefined) byList.set(list, [match])
    else known.push(match)
  }
  for (const match of matchPhrases(text, vocabulary.terms, running ? { leaveOut: vocabulary.titleOnly } : {})) {
    file(match.id, match)
    // The lists of this topic are its values; finders ask for any of them.
    if (match.id.startsWith('grade:')) file('grade', match)
  }
  const starts = new Map<string, Map<number, Match>>()
  const ends = new Map<string, Map<number, Match>>()
  const sentences = new Map<string, Set<number>>()
  let cues: FoundCues | null = null
  const raw = (index: number): string => {
    const token = tokens[index]
    return token === undefined ? '' : original.slice(token.start, token.end)
  }
  const picked = new Map<string, readonly Match[]>()
  const pick = (...lists: string[]): readonly Match[] => {
    const key = lists.length === 1 ? (lists[0] ?? '') : lists.join()
    const known = picked.get(key)
    if (known !== undefined) return known
    const matches = lists.flatMap((list) => byList.get(list) ?? NONE)
    const kept = matches.length === 0 ? NONE : keepLongest(matches)
    picked.set(key, kept)
    return kept
  }
  return {
    field,
    offset,
    text,
    tokens,
    vocabulary,
    inCapitals: isInCapitals(tokens.length, raw),
    pick,
    scoped: (...lists) => {
      const matches = pick(...lists)
      if (matches.length === 0) return []
      cues ??= createFoundCues(vocabulary.cues)
      return analyseScope(text, matches, cues)
    },
    startingAt: (list, index) => {
      let map = starts.get(list)
      if (map === undefined) {
        map = new Map()
        for (const match of byList.get(list) ?? NONE) {
          const known = map.get(match.first)
          if (known === undefined || match.last > known.last) map.set(match.first, match)
        }
        starts.set(list, map)
      }
      return map.get(index) ?? null
    },
    endingAt: (list, index) => {
      let map = ends.get(list)
      if (map === undefined) {
        map = new Map()
        for (const match of byList.get(list) ?? NONE) {
          const known = map.get(match.last)
          if (known === undefined || match.first < known.first) map.set(match.last, match)
        }
        ends.set(list, map)
      }
      return map.get(index) ?? null
    },
    hasInSentence: (list, index) => {
      let found = sentences.get(list)
      if (found === undefined) {
        found = new Set((byList.get(list) ?? NONE).map((match) => tokens[match.first]?.sentence ?? -1))
        sentences.set(list, found)
      }
      return found.has(tokens[index]?.sentence ?? -2)
    },
    raw,
  }
}

/** From this share of words in capitals on, a text shouts. Ours: two graders and an abbreviation in a title stay below it. */
const SHOUTING = 0.6
/** Words that are looked at; a title has fewer. */
const WORDS_LOOKED_AT = 60

function isInCapitals(count: number, raw: (index: number) => string): boolean {
  let words = 0
  let capitals = 0
  for (let index = 0; index < count && index < WORDS_LOOKED_AT; index += 1) {
    const word = raw(index)
    if (!/^\p{L}{4,}$/u.test(word)) continue
    words += 1
    if (word === word.toUpperCase()) capitals += 1
  }
  return words > 0 && capitals / words >= SHOUTING
}

export function quoteOf(reading: Reading, span: Span): Quote {
  const start = reading.tokens[span.first]?.start ?? 0
  const end = reading.tokens[span.last]?.end ?? start
  return {
    quote: reading.text.original.slice(start, end),
    field: reading.field,
    start: reading.offset + start,
    end: reading.offset + end,
  }
}

/** What stands between the token before and this one, without spaces. */
export function between(reading: Reading, index: number): string {
  return reading.tokens[index]?.separator.trim() ?? ''
}

/** Whether the token belongs to the same clause as the one before it. */
export function isJoined(reading: Reading, index: number): boolean {
  const token = reading.tokens[index]
  return token !== undefined && index > 0 && token.gapBefore <= GAP.joined
}

/** Whether a match of the list ends within `reach` tokens before `index`, in the same clause. Bounded, whatever the text. */
export function endsWithin(reading: Reading, list: string, index: number, reach: number): boolean {
  for (let at = index - 1; at >= 0 && index - at <= reach; at -= 1) {
    if ((reading.tokens[at + 1]?.gapBefore ?? GAP.sentence) >= GAP.clause) return false
    if (reading.endingAt(list, at) !== null) return true
  }
  return false
}

/** The same behind `index`: whether one begins there. */
export function beginsWithin(reading: Reading, list: string, index: number, reach: number): boolean {
  for (let at = index + 1; at < reading.tokens.length && at - index <= reach; at += 1) {
    if ((reading.tokens[at]?.gapBefore ?? GAP.sentence) >= GAP.clause) return false
    if (reading.startingAt(list, at) !== null) return true
  }
  return false
}
