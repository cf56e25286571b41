/**
 * What stands around a phrase and turns its meaning: negation, hedge, mere mention, quotation, question.
 *
 * The rules follow NegEx (Chapman et al., J. Biomed. Inform. 34, 2001): cues before and after a phrase with a window of
 * tokens, words that end a scope, and pseudo-cues that only look like one. Ours beside it: hedges, mentions, lists, languages.
 *
 * 1. A cue before a phrase reaches it over at most WINDOW tokens of the same clause; no stop word may stand between.
 * 2. Over a comma it reaches only through a list: the phrase before it is reached, and between stand nothing but
 *    list words ("not a copy, reprint or fake").
 * 3. A cue after a phrase reaches back over at most AFTER_WINDOW tokens of the same clause; a negation only when it closes its
 *    clause ("ein Nachdruck ist es nicht.", but not "reprint not original"). A bare "no" counts as an answer only right behind a
 *    colon, dash, question mark or line break, and alone there ("Reprint: No", but not "Reprint. No returns").
 * 4. Pseudo-cues win over the cues inside them by being longer ("not only", "not sure if").
 * 5. A hedge beside a negation leaves the phrase hedged, not negated ("not sure that it is not a reprint").
 * 6. A question mark at the end of the sentence makes a question of each phrase within QUESTION_WINDOW tokens before it.
 */
import { type CompiledPhrases, compilePhrases, keepLongest, type Match, matchPhrases } from './match-phrases.ts'
import { GAP, type NormalisedText } from './normalise-text.ts'

export type CueRole =
  | 'negation-before'
  | 'negation-after'
  /** A bare "no" in answer to the phrase as a label. */
  | 'answer-no'
  | 'hedge-before'
  | 'hedge-after'
  /** The phrase is talked about, not stated of the thing: "beware of", "unlike the". */
  | 'mention-before'
  | 'mention-after'
  /** Ends the reach of what stands before it: "but", "aber". */
  | 'stop'
  /** Looks like a cue and is none: "not only". */
  | 'pseudo'
  /** May stand between the members of a list: "or", "a". */
  | 'list'

export interface CueList {
  readonly role: CueRole
  readonly language: string | null
  readonly phrases: readonly string[]
}

export type CompiledCues = CompiledPhrases

export interface ScopedMatch extends Match {
  readonly negated: boolean
  readonly hedged: boolean
  readonly mentioned: boolean
  readonly quoted: boolean
  readonly question: boolean
  /** The cues that reached it, as they stand. */
  readonly cues: readonly {
    readonly role: CueRole
    readonly quote: string
    readonly start: number
    readonly end: number
  }[]
}

/** Tokens that a cue reaches forward. NegEx takes 5; two more for the articles and auxiliaries of five languages. */
export const WINDOW = 7
/** Tokens that a cue reaches back. Ours: what follows is soon about something else. */
export const AFTER_WINDOW = 4

/** Tokens before a question mark that it makes a question of. Ours: a title is one sentence, its question only its end. */
export const QUESTION_WINDOW = 8

const TURNS: ReadonlySet<string> = new Set(['stop', 'pseudo'])
const BEFORE: readonly CueRole[] = ['negation-before', 'hedge-before', 'mention-before']

/** @throws PhraseFault */
export function compileCues(lists: readonly CueList[]): CompiledCues {
  return compilePhrases(lists.map(({ role, language, phrases }) => ({ id: role, language, phrases })))
}

export interface Cue {
  readonly first: number
  readonly last: number
  readonly quote: string
  readonly start: number
  readonly end: number
  readonly roles: Set<CueRole>
}

function isNearEnd(text: NormalisedText, last: number, sentence: number): boolean {
  const beyond = text.tokens[last + QUESTION_WINDOW + 1]
  return beyond === undefined || beyond.sentence !== sentence
}

/** Cues with one and the same place are one cue with several roles. */
function pickCues(matches: readonly Match[]): Cue[] {
  const byStart = new Map<number, Cue>()
  for (const { first, last, quote, start, end } of keepLongest(matches))
    byStart.set(first, { first, last, quote, start, end, roles: new Set() })
  for (const { first, last, id } of matches) {
    const cue = byStart.get(first)
    if (cue?.last === last) cue.roles.add(id as CueRole)
  }
  return [...byStart.values()]
}

/** The cues of one text, found once for all that is asked of it, sentence by sentence as it is asked. */
export interface FoundCues {
  readonly compiled: CompiledCues
  readonly sentences: Set<number>
  readonly endsAt: Map<number, Cue>
  readonly startsAt: Map<number, Cue>
  readonly listAt: Map<number, Cue>
}

export function createFoundCues(compiled: CompiledCues): FoundCues {
  return { compiled, sentences: new Set(), endsAt: new Map(), startsAt: new Map(), listAt: new Map() }
}

/** Looks for the cues in the sentence of a token, unless it was done. */
function findCues(text: NormalisedText, found: FoundCues, index: number): void {
  const { tokens } = text
  const sentence = tokens[index]?.sentence ?? 0
  if (found.sentences.has(sentence)) return
  found.sentences.add(sentence)
  let first = index
  let last = index
  while (first > 0 && tokens[first - 1]?.sentence === sentence) first -= 1
  while (tokens[last + 1]?.sentence === sentence) last += 1
  // The cues before, after and inside a list are found apart, so that none hides another of a different kind.
  // "No. 5", "nº 12": a number's label negates nothing.
  const all = matchPhrases(text, found.compiled, { within: { first, last } }).filter(
    ({ last, end }) =>
      !(
        text.tokens[last]?.form === 'no' &&
        (/^[0-9]/.test(text.tokens[last + 1]?.form ?? '') || text.original.charAt(end - 1) === 'º')
      ),
  )
  const pick = (belongs: (role: string) => boolean): Cue[] => pickCues(all.filter(({ id }) => belongs(id)))
  if (all.length === 0) return
  for (const cue of pick((role) => role.endsWith('-before') || TURNS.has(role))) found.endsAt.set(cue.last, cue)
  for (const cue of pick((role) => role.endsWith('-after') || role === 'answer-no' || TURNS.has(role)))
    found.startsAt.set(cue.first, cue)
  for (const cue of pick((role) => role === 'list')) found.listAt.set(cue.first, cue)
}

/** @param matches of `text`, in any order. Linear in tokens and matches. */
export function analyseScope(
  text: NormalisedText,
  matches: readonly Match[],
  cues: CompiledCues | FoundCues,
): ScopedMatch[] {
  const { tokens } = text
  const found = 'nodes' in cues ? createFoundCues(cues) : cues
  const { endsAt, startsAt, listAt } = found
  const ordered = [...matches].sort((a, b) => a.first - b.first || b.last - a.last)
  const negatedUpTo: { last: number; negated: boolean; mentioned: boolean; cues: ScopedMatch['cues'] }[] = []
  const scoped: ScopedMatch[] = []
  for (const match of ordered) {
    let negated = false
    let hedged = false
    let mentioned = false
    const reached: { role: CueRole; quote: string; start: number; end: number }[] = []
    const reach = (cue: Cue, role: CueRole): void => {
      if (!cue.roles.has(role)) return
      if (role.startsWith('hedge')) hedged = true
      else if (role.startsWith('mention')) mentioned = true
      else negated = true
      reached.push({ role, quote: cue.quote, start: cue.start, end: cue.end })
    }

    findCues(text, found, match.first)
    findCues(text, found, match.last)
    // Behind it a label's answer may stand in the next sentence: "Reprint? No."
    findCues(text, found, Math.min(match.last + 1, tokens.length - 1))

    // Before. A cue that overlaps the phrase's own tokens is part of the phrase.
    let index = match.first
    for (let walked = 0; walked <= WINDOW && index > 0; walked += 1) {
      if ((tokens[index]?.gapBefore ?? GAP.sentence) >= GAP.clause) break
      index -= 1
      const cue = endsAt.get(index)
      if (cue === undefined) continue
      if (cue.roles.has('stop')) break
      for (const role of BEFORE) reach(cue, role)
      index = cue.first
    }
    // Through a list.
    const previous = negatedUpTo.at(-1)
    if (previous !== undefined && !negated && previous.last < match.first && match.first - previous.last <= 5) {
      let through = previous.negated || previous.mentioned
      for (let between = previous.last + 1; between < match.first && through; between += 1) {
        const cue = listAt.get(between)
        if (cue === undefined) through = false
        else between = cue.last
      }
      for (let at = previous.last + 1; at <= match.first && through; at += 1) {
        const token = tokens[at]
        if (token === undefined || token.gapBefore >= GAP.sentence) through = false
        else if (token.gapBefore === GAP.clause && !/^\s*[,/]\s*$/.test(token.separator)) through = false
      }
      if (through) {
        negated = previous.negated
        mentioned = mentioned || previous.mentioned
        reached.push(...previous.cues)
      }
    }
    // After. A colon, dash or question mark may stand between, as in a table: "reprint: no", "Reprint? No."
    index = match.last
    for (let walked = 0; walked < AFTER_WINDOW && index + 1 < tokens.length; walked += 1) {
      const next = tokens[index + 1]
      if (next === undefined) break
      const cue = startsAt.get(index + 1)
      const after = cue === undefined ? undefined : tokens[cue.last + 1]
      const closes =
        after === undefined || after.gapBefore >= GAP.clause || startsAt.get((cue?.last ?? 0) + 1)?.roles.has('stop')
      const asLabel = walked === 0 && /^\s*([:=?–—-]\s*|\n\s*)$/.test(next.separator)
      if (asLabel && cue !== undefined && closes) reach(cue, 'answer-no')
      if (next.gapBefore >= GAP.clause) break
      if (cue === undefined) {
        index += 1
        continue
      }
      if (cue.roles.has('stop')) break
      if (closes) reach(cue, 'negation-after')
      reach(cue, 'hedge-after')
      reach(cue, 'mention-after')
      index = cue.last
    }

    const sentence = tokens[match.last]?.sentence ?? 0
    const question = (text.questions[sentence] ?? false) && isNearEnd(text, match.last, sentence)
    const answered = reached.some((cue) => cue.role === 'negation-after' || cue.role === 'answer-no')
    // "Original or reprint: original": the label doubts, its answer does not.
    if (hedged && reached.some((cue) => cue.role === 'answer-no'))
      hedged = reached.some((cue) => cue.role === 'hedge-after')
    scoped.push({
      ...match,
      negated: negated && !hedged,
      hedged,
      mentioned,
      quoted: tokens[match.first]?.quoted ?? false,
      question: question && !answered,
      cues: reached,
    })
    negatedUpTo.push({ last: match.last, negated: negated && !hedged, mentioned, cues: reached })
  }
  return scoped.sort((a, b) => a.first - b.first || a.last - b.last)
}
