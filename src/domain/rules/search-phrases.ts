/**
 * Every phrase of every list, looked for in one pass over each text of a listing. Negated, merely mentioned and
 * excepted phrases are no hits; quotes keep their place in the original.
 */
import { compilePhrases, type Match, matchPhrases, type PhraseList } from '../text/match-phrases.ts'
import type { NormalisedText } from '../text/normalise-text.ts'
import { analyseScope, type CompiledCues, type ScopedMatch } from '../text/scope.ts'
import type { TextField } from './conditions.ts'
import type { PhrasePack } from './phrase-pack.ts'

export interface PhraseHit {
  readonly list: string
  /** Name of the listing's field; an item specific as `specifics.<name>`. */
  readonly field: string
  readonly start: number
  readonly end: number
  readonly quote: string
}

/** Hits by list, in the order of the texts and of their places. */
export type PhraseSearch = (texts: ReadonlyMap<string, NormalisedText>) => ReadonlyMap<string, readonly PhraseHit[]>

const EXCEPT = 'except:'

/** @throws PhraseFault for a phrase that cannot be read. */
export function createPhraseSearch(packs: readonly PhrasePack[], cues: CompiledCues): PhraseSearch {
  const lists = packs.flatMap((pack) => [
    ...toLists(pack.id, pack.phrases),
    ...toLists(EXCEPT + pack.id, pack.except ?? {}),
  ])
  const compiled = compilePhrases(lists)
  const packOf = new Map(packs.map((pack) => [pack.id, pack]))
  const needsScope = new Set(
    packs.filter((pack) => pack.negation === 'cancels' || pack.mention === 'cancels').map((pack) => pack.id),
  )

  return (texts) => {
    const hits = new Map<string, PhraseHit[]>()
    for (const [field, text] of texts) {
      const matches = matchPhrases(text, compiled)
      if (matches.length === 0) continue
      const covered = coverTokens(matches.filter((match) => match.id.startsWith(EXCEPT)))
      const stated = matches.filter((match) => !match.id.startsWith(EXCEPT) && !isCovered(match, covered.get(match.id)))
      const found = keepLongestOfEachList(stated)
      // Scope is read only where a list asks for it: most lists carry their own negation.
      const inScope = found.filter((match) => needsScope.has(match.id))
      const cancelled = inScope.length === 0 ? NONE : findCancelled(analyseScope(text, inScope, cues), packOf)
      for (const match of found) {
        if (cancelled.has(keyOf(match))) continue
        const { id: list, start, end, quote } = match
        const known = hits.get(list)
        if (known) known.push({ list, field, start, end, quote })
        else hits.set(list, [{ list, field, start, end, quote }])
      }
    }
    return hits
  }
}

const NONE: ReadonlySet<string> = new Set()

function keyOf(match: Match): string {
  return `${match.id} ${match.start} ${match.end}`
}

function findCancelled(scoped: readonly ScopedMatch[], packOf: ReadonlyMap<string, PhrasePack>): Set<string> {
  const cancelled = new Set<string>()
  for (const match of scoped) {
    const pack = packOf.get(match.id)
    if (match.negated && pack?.negation === 'cancels') cancelled.add(keyOf(match))
    if (match.mentioned && pack?.mention === 'cancels') cancelled.add(keyOf(match))
  }
  return cancelled
}

function toLists(id: string, phrases: Readonly<Record<string, readonly string[]>>): PhraseList[] {
  return Object.entries(phrases).map(([language, words]) => ({ id, language, phrases: words }))
}

/** Tokens that a longer, harmless phrase of the same list covers. */
function coverTokens(excepted: readonly Match[]): ReadonlyMap<string, ReadonlySet<number>> {
  const covered = new Map<string, Set<number>>()
  for (const { id, first, last } of excepted) {
    const list = id.slice(EXCEPT.length)
    const tokens = covered.get(list) ?? new Set<number>()
    for (let token = first; token <= last; token++) tokens.add(token)
    covered.set(list, tokens)
  }
  return covered
}

function isCovered({ first, last }: Match, tokens: ReadonlySet<number> | undefined): boolean {
  if (tokens === undefined) return false
  for (let token = first; token <= last; token++) if (!tokens.has(token)) return false
  return true
}

/** Of one list the longest match at a place: "no returns" and "no returns accepted" are one hit. */
function keepLongestOfEachList(matches: readonly Match[]): Match[] {
  const lastByList = new Map<string, Match>()
  const dropped = new Set<Match>()
  for (const match of matches) {
    const before = lastByList.get(match.id)
    if (before && match.first <= before.last) {
      if (match.last - match.first <= before.last - before.first) {
        dropped.add(match)
        continue
      }
      dropped.add(before)
    }
    lastByList.set(match.id, match)
  }
  return matches.filter((match) => !dropped.has(match))
}

export function fieldOf(name: string): TextField {
  return (name.startsWith('specifics.') ? 'specifics' : name) as TextField
}
