/**
 * Many phrases against one text in one pass: a trie of tokens, walked as a set of states, so that no text can make it go back.
 * Phrases are data; whoever writes them writes words, not regular expressions.
 *
 * In a phrase: `word` a whole token · `reprint*` a token that begins so · `*druck` one that ends so · `[the]` may be left out ·
 * `sold|offered` either · `~3` up to three tokens between (never over the end of a clause) · `,~` a comma may stand here.
 */
import { type DisguiseKind, foldText, GAP, type NormalisedText, normaliseText, type Token } from './normalise-text.ts'

export interface PhraseList {
  readonly id: string
  /** BCP 47 primary tag, `null` where the words are the same in every language. */
  readonly language: string | null
  readonly phrases: readonly string[]
}

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

interface Node {
  exact: Map<string, number>
  prefixes: Map<string, number> | null
  suffixes: Map<string, number> | null
  prefixLengths: number[]
  suffixLengths: number[]
  /** Code units that a prefix begins or a suffix ends with, so that most tokens are passed over at once. */
  prefixInitials: Set<number>
  suffixFinals: Set<number>
  /** Node that is reached after up to `gap` tokens of any kind. */
  gap: number
  gapTarget: number
  commaTarget: number
  ends: number[]
}

interface Entry {
  readonly id: string
  readonly language: string | null
  readonly phrase: string
}

export interface CompiledPhrases {
  readonly nodes: readonly Node[]
  readonly entries: readonly Entry[]
}

export class PhraseFault extends Error {}

/** A phrase that unfolds into more than this many sequences was written by mistake. Ours. */
const MOST_VARIANTS = 512
const WIDEST_GAP = 8

/** @throws PhraseFault for a phrase that cannot be read (empty, unclosed bracket, too many variants). */
export function compilePhrases(lists: readonly PhraseList[]): CompiledPhrases {
  const nodes: Node[] = [createNode()]
  const entries: Entry[] = []
  for (const list of lists)
    for (const phrase of list.phrases) {
      const entry = entries.length
      entries.push({ id: list.id, language: list.language, phrase })
      for (const steps of unfoldPhrase(phrase)) insert(nodes, steps, entry)
    }
  return { nodes, entries }
}

const NO_CODES: Set<number> = new Set()

function createNode(): Node {
  return {
    exact: new Map(),
    prefixes: null,
    suffixes: null,
    prefixLengths: [],
    suffixLengths: [],
    prefixInitials: NO_CODES,
    suffixFinals: NO_CODES,
    gap: 0,
    gapTarget: -1,
    commaTarget: -1,
    ends: [],
  }
}

function insert(nodes: Node[], steps: readonly string[], entry: number): void {
  let at = 0
  for (const step of steps) {
    const node = nodes[at] as Node
    if (step.startsWith('~')) {
      const width = Number(step.slice(1))
      // Gaps of different width at one node would need a state each: the width is part of the way.
      if (node.gapTarget >= 0 && node.gap !== width)
        throw new PhraseFault(`two widths of gap after the same words: ~${node.gap} and ${step}`)
      if (node.gapTarget < 0) {
        node.gap = width
        node.gapTarget = nodes.push(createNode()) - 1
      }
      at = node.gapTarget
    } else if (step === ',~') {
      if (node.commaTarget < 0) node.commaTarget = nodes.push(createNode()) - 1
      at = node.commaTarget
    } else if (step.endsWith('*') || step.startsWith('*')) {
      const isPrefix = step.endsWith('*')
      const stem = isPrefix ? step.slice(0, -1) : step.slice(1)
      if (isPrefix) node.prefixes ??= new Map()
      else node.suffixes ??= new Map()
      const map = (isPrefix ? node.prefixes : node.suffixes) as Map<string, number>
      const lengths = isPrefix ? node.prefixLengths : node.suffixLengths
      let target = map.get(stem)
      if (target === undefined) {
        target = nodes.push(createNode()) - 1
        map.set(stem, target)
        if (!lengths.includes(stem.length)) lengths.push(stem.length)
        if (isPrefix) node.prefixInitials = new Set([...node.prefixInitials, stem.charCodeAt(0)])
        else node.suffixFinals = new Set([...node.suffixFinals, stem.charCodeAt(stem.length - 1)])
      }
      at = target
    } else {
      let target = node.exact.get(step)
      if (target === undefined) {
        target = nodes.push(createNode()) - 1
        node.exact.set(step, target)
      }
      at = target
    }
  }
  const ends = (nodes[at] as Node).ends
  if (!ends.includes(entry)) ends.push(entry)
}

function unfoldPhrase(phrase: string): string[][] {
  let variants: string[][] = [[]]
  for (const part of phrase.trim().split(/\s+/)) {
    const optional = part.startsWith('[')
    if (optional !== part.endsWith(']')) throw new PhraseFault(`unclosed bracket in “${phrase}”`)
    const inner = optional ? part.slice(1, -1) : part
    const choices: string[][] = inner === ',~' ? [[',~']] : inner.split('|').map((choice) => readStep(choice, phrase))
    if (optional) choices.push([])
    variants = variants.flatMap((head) => choices.map((choice) => [...head, ...choice]))
    if (variants.length > MOST_VARIANTS) throw new PhraseFault(`too many variants in “${phrase}”`)
  }
  for (const variant of variants)
    if (!variant.some((step) => !step.startsWith('~') && step !== ',~')) throw new PhraseFault(`no word in “${phrase}”`)
  return variants
}

function readStep(choice: string, phrase: string): string[] {
  if (/^~[0-9]$/.test(choice)) {
    if (Number(choice.slice(1)) > WIDEST_GAP) throw new PhraseFault(`gap too wide in “${phrase}”`)
    return [choice]
  }
  const begins = choice.endsWith('*')
  const ends = choice.startsWith('*')
  const bare = choice.replaceAll('*', '')
  const forms = normaliseText(bare).tokens.map((token) => token.form)
  const first = forms[0]
  const last = forms.at(-1)
  if (first === undefined || last === undefined || (begins && ends) || foldText(bare) === '')
    throw new PhraseFault(`“${choice}” in “${phrase}” holds no word`)
  if (begins) forms[forms.length - 1] = `${last}*`
  if (ends) forms[0] = `*${first}`
  return forms
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
}

/** All matches, overlapping ones too, in the order of their first and last token. Linear in the number of tokens. */
export function matchPhrases(
  text: NormalisedText,
  compiled: CompiledPhrases,
  options: MatchOptions = {},
): readonly Match[] {
  const { tokens } = text
  const { nodes, entries } = compiled
  const matches: Match[] = []
  const languages = options.languages === undefined ? null : new Set(options.languages)
  // States that wait at the token with this index; a reading over several tokens puts its state further on.
  // One state a node: the one with the wider gap left, else the later beginning, so that gaps cannot multiply states.
  const waiting: (State[] | undefined)[] = new Array(tokens.length)
  // Filled by `step`, read at once: this loop runs for every token of every text, and closures here cost most of it.
  const reached: number[] = []

  const wait = (index: number, state: State): void => {
    const there = waiting[index]
    if (there === undefined) {
      waiting[index] = [state]
      return
    }
    for (let at = 0; at < there.length; at += 1) {
      const known = there[at] as State
      if (known.node !== state.node) continue
      if (state.gapLeft > known.gapLeft || (state.gapLeft === known.gapLeft && state.first > known.first))
        there[at] = state
      return
    }
    there.push(state)
  }

  const arrive = (at: number, first: number, last: number, disguise: DisguiseKind | null): void => {
    const node = nodes[at] as Node
    for (const end of node.ends) {
      const { id, language, phrase } = entries[end] as Entry
      if (languages !== null && language !== null && !languages.has(language)) continue
      const start = tokens[first]?.start ?? 0
      const stop = tokens[last]?.end ?? start
      const quote = text.original.slice(start, stop)
      matches.push({ id, language, phrase, first, last, start, end: stop, quote, disguise })
    }
    if (last + 1 >= tokens.length) return
    if (node.exact.size > 0 || node.prefixes !== null || node.suffixes !== null)
      wait(last + 1, { node: at, first, gapLeft: -1, disguise, commaAllowed: false })
    if (node.gapTarget >= 0)
      wait(last + 1, { node: node.gapTarget, first, gapLeft: node.gap, disguise, commaAllowed: false })
    if (node.commaTarget >= 0)
      wait(last + 1, { node: node.commaTarget, first, gapLeft: -1, disguise, commaAllowed: true })
  }

  const advance = (index: number, form: string, last: number, disguise: DisguiseKind | null): void => {
    const begun = step(nodes[0] as Node, form, reached)
    for (let at = 0; at < begun; at += 1) arrive(reached[at] as number, index, last, disguise)
    const states = waiting[index]
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

  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index] as Token
    advance(index, token.form, index, token.disguise)
    const readings = text.readings.get(index)
    if (readings !== undefined)
      for (const reading of readings) advance(index, reading.form, reading.last, reading.disguise)
    const states = waiting[index]
    if (states === undefined) continue
    if (token.gapBefore <= GAP.joined && index + 1 < tokens.length)
      for (const state of states) if (state.gapLeft > 0) wait(index + 1, { ...state, gapLeft: state.gapLeft - 1 })
    waiting[index] = undefined
  }
  return matches.sort((a, b) => a.first - b.first || a.last - b.last)
}

/** Writes the nodes that the form leads to into `reached`, from its beginning. @returns how many. */
function step(node: Node, form: string, reached: number[]): number {
  let count = 0
  const exact = node.exact.get(form)
  if (exact !== undefined) reached[count++] = exact
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
