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
      const excepted = matches.filter((match) => match.id.startsWith(EXCEPT))
      const stated = matches.filter((match) => !match.id.startsWith(EXCEPT) && !isExcepted(match, excepted))
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

function isExcepted(match: Match, excepted: readonly Match[]): boolean {
  return excepted.some(
    (other) => other.id === EXCEPT + match.id && other.first <= match.first && other.last >= match.last,
  )
}

/** Of one list the longest match at a place: "no returns" and "no returns accepted" are one hit. */
function keepLongestOfEachList(matches: readonly Match[]): Match[] {
  const lastByList = new Map<string, Match>()
  const kept: Match[] = []
  for (const match of matches) {
    const before = lastByList.get(match.id)
    if (before && match.first <= before.last) {
      if (match.last - match.first <= before.last - before.first) continue
      kept.splice(kept.indexOf(before), 1)
    }
    lastByList.set(match.id, match)
    kept.push(match)
  }
  return kept
}

export function fieldOf(name: string): TextField {
  return (name.startsWith('specifics.') ? 'specifics' : name) as TextField
}
