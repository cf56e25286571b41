/**
 * Many phrases against one text in one pass: the trie of `compile-phrases.ts`, walked as a set of states, so that no text can make
 * it go back.
 */
import { type CompiledPhrases, type Entry, insertWaiting, type Node, UNBUILT } from './compile-phrases.ts'
import { type DisguiseKind, GAP, type NormalisedText, type Token } from './normalise-text.ts'

export { type CompiledPhrases, checkPhrase, compilePhrases, PhraseFault, type PhraseList } from './compile-phrases.ts'

export interface Match {
  readonly id: string
  readonly language: string | null
  /** The phrase as written in the data. */
  readonly phrase: string
  /** Indices into `tokens`, both included. */
  readonly first: number
  readonly last: number
  /** UTF-16 offsets in the original, and the words there. */
  readonly start: number
  readonly end: number
  readonly quote: string
  /** How a matched token was disguised, `null` where none was. */
  readonly disguise: DisguiseKind | null
}

interface State {
  readonly node: number
  readonly first: number
  readonly gapLeft: number
  readonly disguise: DisguiseKind | null
  readonly commaAllowed: boolean
}

export interface MatchOptions {
  /** Only phrases of these languages, and those of no language. */
  readonly languages?: readonly string[]
  /** Lists whose matches are left out. */
  readonly leaveOut?: ReadonlySet<string>
  /** Only these tokens, both included; whole sentences, since no phrase goes beyond one. */
  readonly within?: { readonly first: number; readonly last: number }
}

/** All matches, overlapping ones too, in the order of their first and last token. Linear in the number of tokens. */
export function matchPhrases(
  text: NormalisedText,
  compiled: CompiledPhrases,
  options: MatchOptions = {},
): readonly Match[] {
  const { tokens } = text
  const { nodes, entries } = compiled
  const root = nodes[0] as Node
  const matches: Match[] = []
  const { leaveOut } = options
  const languages = options.languages === undefined ? null : new Set(options.languages)
  const from = options.within?.first ?? 0
  const to = Math.min(options.within?.last ?? tokens.length - 1, tokens.length - 1)
  // States that wait at a token, counted from the first one looked at; a reading over several tokens puts its state further on.
  // One state a node: the one with the wider gap left, else the later beginning, so that gaps cannot multiply states.
  const waiting: (State[] | undefined)[] = new Array(to - from + 1)
  // Filled by `step`, read at once: this loop runs for every token of every text, and closures here cost most of it.
  const reached: number[] = []

  const wait = (index: number, state: State): void => {
    const at = index - from
    const there = waiting[at]
    if (there === undefined) {
      waiting[at] = [state]
      return
    }
    for (let place = 0; place < there.length; place += 1) {
      const known = there[place] as State
      if (known.node !== state.node) continue
      if (state.gapLeft > known.gapLeft || (state.gapLeft === known.gapLeft && state.first > known.first))
        there[place] = state
      return
    }
    there.push(state)
  }

  const arrive = (at: number, first: number, last: number, disguise: DisguiseKind | null): void => {
    const node = nodes[at] as Node
    for (const end of node.ends) {
      const { id, language, phrase } = entries[end] as Entry
      if (leaveOut?.has(id)) continue
      if (languages !== null && language !== null && !languages.has(language)) continue
      const start = tokens[first]?.start ?? 0
      const stop = tokens[last]?.end ?? start
      const quote = text.original.slice(start, stop)
      matches.push({ id, language, phrase, first, last, start, end: stop, quote, disguise })
    }
    const next = tokens[last + 1]
    // Most phrases end here for most texts: nothing waits for a word that does not come.
    if (next === undefined || next.gapBefore >= GAP.sentence) return
    if (next.gapBefore <= GAP.joined && leadsOn(node, next.form, text.readings.has(last + 1)))
      wait(last + 1, { node: at, first, gapLeft: -1, disguise, commaAllowed: false })
    for (const { target, width } of node.gaps)
      wait(last + 1, { node: target, first, gapLeft: width, disguise, commaAllowed: false })
    if (node.commaTarget >= 0)
      wait(last + 1, { node: node.commaTarget, first, gapLeft: -1, disguise, commaAllowed: true })
  }

  const advance = (index: number, form: string, last: number, disguise: DisguiseKind | null): void => {
    if (root.exact?.get(form) === UNBUILT) insertWaiting(compiled, form)
    const begun = step(root, form, reached)
    for (let at = 0; at < begun; at += 1) arrive(reached[at] as number, index, last, disguise)
    const states = waiting[index - from]
    if (states === undefined) return
    const { gapBefore, separator } = tokens[index] as Token
    if (gapBefore >= GAP.sentence) return
    const comma = gapBefore === GAP.clause && separator.trim() === ','
    for (const state of states) {
      if (gapBefore === GAP.clause && !(comma && state.commaAllowed)) continue
      const count = step(nodes[state.node] as Node, form, reached)
      for (let at = 0; at < count; at += 1) arrive(reached[at] as number, state.first, last, state.disguise ?? disguise)
    }
  }

  const hasReadings = text.readings.size > 0
  for (let index = from; index <= to; index += 1) {
    const token = tokens[index] as Token
    if (waiting[index - from] !== undefined || leadsOn(root, token.form, false))
      advance(index, token.form, index, token.disguise)
    const readings = hasReadings ? text.readings.get(index) : undefined
    if (readings !== undefined)
      for (const reading of readings) advance(index, reading.form, reading.last, reading.disguise)
    const states = waiting[index - from]
    if (states === undefined) continue
    if (token.gapBefore <= GAP.joined && index + 1 < tokens.length)
      for (const state of states) if (state.gapLeft > 0) wait(index + 1, { ...state, gapLeft: state.gapLeft - 1 })
    waiting[index - from] = undefined
  }
  return matches.sort((a, b) => a.first - b.first || a.last - b.last)
}

/** Whether the form leads on from a node; `true` too where another reading of the token might. */
function leadsOn(node: Node, form: string, hasReadings: boolean): boolean {
  if (node.word !== null) {
    if (node.word === form) return true
  } else if (node.exact?.has(form) === true) return true
  if (node.prefixes !== null && node.prefixInitials.has(form.charCodeAt(0))) return true
  if (node.suffixes !== null && node.suffixFinals.has(form.charCodeAt(form.length - 1))) return true
  return hasReadings && (node.word !== null || node.exact !== null || node.prefixes !== null || node.suffixes !== null)
}

/** Writes the nodes that the form leads to into `reached`, from its beginning. @returns how many. */
function step(node: Node, form: string, reached: number[]): number {
  let count = 0
  if (node.exact !== null) {
    const exact = node.exact.get(form)
    if (exact !== undefined) reached[count++] = exact
  } else if (node.word === form) reached[count++] = node.wordTarget
  if (node.prefixes !== null && node.prefixInitials.has(form.charCodeAt(0)))
    for (const length of node.prefixLengths) {
      if (length > form.length) continue
      const target = node.prefixes.get(form.slice(0, length))
      if (target !== undefined) reached[count++] = target
    }
  if (node.suffixes !== null && node.suffixFinals.has(form.charCodeAt(form.length - 1)))
    for (const length of node.suffixLengths) {
      if (length > form.length) continue
      const target = node.suffixes.get(form.slice(form.length - length))
      if (target !== undefined) reached[count++] = target
    }
  return count
}

/** Of overlapping matches the longest, and of equally long ones the first. */
export function keepLongest(matches: readonly Match[]): Match[] {
  if (matches.length < 2) return [...matches]
  const kept: Match[] = []
  const byLength = [...matches].sort((a, b) => b.last - b.first - (a.last - a.first) || a.first - b.first)
  let width = 0
  for (const { last } of matches) if (last >= width) width = last + 1
  const taken = new Uint8Array(width)
  for (const match of byLength) {
    // The longest go first: who overlaps a kept match has an end inside it.
    if (taken[match.first] === 1 || taken[match.last] === 1) continue
    taken.fill(1, match.first, match.last + 1)
    kept.push(match)
  }
  return kept.sort((a, b) => a.first - b.first)
}
