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
  /** Most nodes lead on by one word only: it needs no map. */
  word: string | null
  wordTarget: number
  exact: Map<string, number> | null
  prefixes: Map<string, number> | null
  suffixes: Map<string, number> | null
  prefixLengths: number[]
  suffixLengths: number[]
  /** Code units that a prefix begins or a suffix ends with, so that most tokens are passed over at once. */
  prefixInitials: Set<number>
  suffixFinals: Set<number>
  /** Nodes that are reached after up to `width` tokens of any kind. */
  gaps: { readonly width: number; readonly target: number }[]
  commaTarget: number
  ends: number[]
}

interface Entry {
  readonly id: string
  readonly language: string | null
  readonly phrase: string
}

/** Grows as texts are read: it holds no state of any of them. */
export interface CompiledPhrases {
  readonly nodes: Node[]
  readonly entries: readonly Entry[]
  readonly waiting: Map<string, number[]>
}

export class PhraseFault extends Error {}

/** A phrase that unfolds into more than this many sequences was written by mistake. Ours. */
const MOST_VARIANTS = 512
const WIDEST_GAP = 8

/** Phrases that begin with a word, to be put into the trie once a text holds the word: a page holds a tenth of them. */
type Waiting = Map<string, number[]>

/** Target of a word whose phrases wait. */
const UNBUILT = -1

/** @throws PhraseFault for a phrase that cannot be read (empty, unclosed bracket, too many variants). */
export function compilePhrases(lists: readonly PhraseList[]): CompiledPhrases {
  const nodes: Node[] = [createNode()]
  const entries: Entry[] = []
  const waiting: Waiting = new Map()
  const root = nodes[0] as Node
  root.exact = new Map()
  for (const { id, language, phrases } of lists)
    for (const phrase of phrases) {
      const entry = entries.push({ id, language, phrase }) - 1
      if (PLAIN_PHRASE.test(phrase)) {
        const space = phrase.indexOf(' ')
        wait(waiting, space < 0 ? phrase : phrase.slice(0, space), entry)
        continue
      }
      checkPhrase(phrase)
      const first = FIRST_PLAIN.exec(phrase)?.[0]
      if (first !== undefined) for (const word of first.split('|')) wait(waiting, word, entry)
      else if (FIRST_WORDS.test(phrase))
        for (const choice of (phrase.split(' ', 1)[0] ?? '').split('|'))
          wait(waiting, readStep(choice, phrase)[0] ?? '', entry)
      else insert(nodes, readPhrase(phrase), entry)
    }
  const compiled = { nodes, entries, waiting }
  for (const word of waiting.keys())
    if (root.exact.has(word)) build(compiled, word)
    else root.exact.set(word, UNBUILT)
  return compiled
}

function wait(waiting: Waiting, word: string, entry: number): void {
  const known = waiting.get(word)
  if (known === undefined) waiting.set(word, [entry])
  else if (known.at(-1) !== entry) known.push(entry)
}

/** Puts the phrases that begin with the word into the trie. */
function build({ nodes, entries, waiting }: CompiledPhrases, word: string): number {
  const root = nodes[0] as Node
  if (root.exact?.get(word) === UNBUILT) root.exact.delete(word)
  for (const entry of waiting.get(word) ?? []) {
    const [first, ...rest] = readPhrase((entries[entry] as Entry).phrase)
    if (first === undefined) continue
    const choices = first.choices.filter(([step]) => step === word)
    insert(nodes, [{ choices, optional: false }, ...rest], entry)
  }
  waiting.delete(word)
  return root.exact?.get(word) ?? UNBUILT
}

/**
 * Without compiling anything.
 * @throws PhraseFault as `compilePhrases` does.
 */
export function checkPhrase(phrase: string): void {
  if (PLAIN_PHRASE.test(phrase)) return
  if (SIMPLE_PHRASE.test(phrase) && HOLDS_WORD.test(phrase) && phrase.replace(NO_CHOICE, '').length <= FEW_CHOICES)
    return
  readPhrase(phrase)
}

/** Words that are their own tokens. */
const PLAIN_WORD = /^[a-z]+$/
const PLAIN_PHRASE = /^[a-z]+(?: [a-z]+)*$/
/** One plain word, or plain alternatives, before a space or the end. */
const FIRST_PLAIN = /^[a-z]+(?:\|[a-z]+)*(?= |$)/
/** Latin letters always make tokens. */
const LATIN_WORD = "[\\p{Script=Latin}0-9][\\p{Script=Latin}0-9'’.-]*"
const FIRST_WORDS = new RegExp(`^${LATIN_WORD}(?:\\|${LATIN_WORD})*(?= |$)`, 'u')
const LATIN_CHOICE = `(?:${LATIN_WORD}\\*?|\\*${LATIN_WORD})`
const LATIN_CHOICES = `${LATIN_CHOICE}(?:\\|${LATIN_CHOICE})*`
const LATIN_PART = `(?:${LATIN_CHOICES}|\\[${LATIN_CHOICES}\\]|~[1-${WIDEST_GAP}]|,~)`
/** A phrase without a fault, for a quick look; what it does not know is read in full. */
const SIMPLE_PHRASE = new RegExp(`^${LATIN_PART}(?: ${LATIN_PART})*$`, 'u')
const HOLDS_WORD = /(?:^| )[^[~,]/
const NO_CHOICE = /[^|[]+/g
/** Each bar or bracket doubles the variants at most. */
const FEW_CHOICES = Math.log2(MOST_VARIANTS)

const NO_CODES: Set<number> = new Set()

const NO_NUMBERS: number[] = []
const NO_GAPS: Node['gaps'] = []

/** The empty lists are shared: whoever adds to one makes it a list of its own. */
function createNode(): Node {
  return {
    word: null,
    wordTarget: -1,
    exact: null,
    prefixes: null,
    suffixes: null,
    prefixLengths: NO_NUMBERS,
    suffixLengths: NO_NUMBERS,
    prefixInitials: NO_CODES,
    suffixFinals: NO_CODES,
    gaps: NO_GAPS,
    commaTarget: -1,
    ends: NO_NUMBERS,
  }
}

/** The node that a word leads to, made where there is none. */
function followWord(nodes: Node[], at: number, word: string): number {
  const node = nodes[at] as Node
  if (node.word === word) return node.wordTarget
  const known = node.exact?.get(word)
  if (known !== undefined) return known
  const target = nodes.push(createNode()) - 1
  if (node.exact !== null) node.exact.set(word, target)
  else if (node.word === null) {
    node.word = word
    node.wordTarget = target
  } else {
    node.exact = new Map([
      [node.word, node.wordTarget],
      [word, target],
    ])
    node.word = null
  }
  return target
}

function endAt(nodes: Node[], at: number, entry: number): void {
  const node = nodes[at] as Node
  if (node.ends.length === 0) node.ends = [entry]
  else if (!node.ends.includes(entry)) node.ends.push(entry)
}

/** Goes from each node reached so far by each choice of the next part, so that what variants share is walked once. */
function insert(nodes: Node[], parts: readonly Part[], entry: number): void {
  let reached = [0]
  for (const { choices, optional } of parts) {
    const next = optional ? [...reached] : []
    for (const from of reached)
      for (const steps of choices) {
        let at = from
        for (const step of steps) at = follow(nodes, at, step)
        if (!next.includes(at)) next.push(at)
      }
    reached = next
  }
  for (const at of reached) endAt(nodes, at, entry)
}

function follow(nodes: Node[], at: number, step: string): number {
  const node = nodes[at] as Node
  if (step.startsWith('~')) {
    const width = Number(step.slice(1))
    let gap = node.gaps.find((known) => known.width === width)
    if (gap === undefined) {
      gap = { width, target: nodes.push(createNode()) - 1 }
      node.gaps = [...node.gaps, gap]
    }
    return gap.target
  }
  if (step === ',~') {
    if (node.commaTarget < 0) node.commaTarget = nodes.push(createNode()) - 1
    return node.commaTarget
  }
  const isPrefix = step.endsWith('*')
  if (!isPrefix && !step.startsWith('*')) return followWord(nodes, at, step)
  const stem = isPrefix ? step.slice(0, -1) : step.slice(1)
  if (isPrefix) node.prefixes ??= new Map()
  else node.suffixes ??= new Map()
  const map = (isPrefix ? node.prefixes : node.suffixes) as Map<string, number>
  const known = map.get(stem)
  if (known !== undefined) return known
  const target = nodes.push(createNode()) - 1
  map.set(stem, target)
  const lengths = isPrefix ? node.prefixLengths : node.suffixLengths
  if (!lengths.includes(stem.length)) {
    if (isPrefix) node.prefixLengths = [...lengths, stem.length]
    else node.suffixLengths = [...lengths, stem.length]
  }
  if (isPrefix) node.prefixInitials = new Set([...node.prefixInitials, stem.charCodeAt(0)])
  else node.suffixFinals = new Set([...node.suffixFinals, stem.charCodeAt(stem.length - 1)])
  return target
}

interface Part {
  readonly choices: readonly (readonly string[])[]
  readonly optional: boolean
}

function readPhrase(phrase: string): Part[] {
  const parts: Part[] = []
  let variants = 1
  let holdsWord = false
  for (const part of phrase.trim().split(/\s+/)) {
    const optional = part.startsWith('[')
    if (optional !== part.endsWith(']')) throw new PhraseFault(`unclosed bracket in “${phrase}”`)
    const inner = optional ? part.slice(1, -1) : part
    const choices = inner === ',~' ? [[',~']] : inner.split('|').map((choice) => readStep(choice, phrase))
    variants *= choices.length + (optional ? 1 : 0)
    if (variants > MOST_VARIANTS) throw new PhraseFault(`too many variants in “${phrase}”`)
    holdsWord ||= !optional && choices.every((steps) => steps.some((step) => !step.startsWith('~') && step !== ',~'))
    parts.push({ choices, optional })
  }
  if (!holdsWord) throw new PhraseFault(`no word in “${phrase}”`)
  return parts
}

function readStep(choice: string, phrase: string): string[] {
  if (/^~[0-9]$/.test(choice)) {
    if (Number(choice.slice(1)) > WIDEST_GAP) throw new PhraseFault(`gap too wide in “${phrase}”`)
    return [choice]
  }
  const begins = choice.endsWith('*')
  const ends = choice.startsWith('*')
  // Most words are plain letters, their own tokens.
  if (PLAIN_WORD.test(choice)) return [choice]
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
    if (root.exact?.get(form) === UNBUILT) build(compiled, form)
    const begun = step(root, form, reached)
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

  const from = options.within?.first ?? 0
  const to = Math.min(options.within?.last ?? tokens.length - 1, tokens.length - 1)
  const hasReadings = text.readings.size > 0
  for (let index = from; index <= to; index += 1) {
    const token = tokens[index] as Token
    if (waiting[index] !== undefined || leadsOn(root, token.form, false))
      advance(index, token.form, index, token.disguise)
    const readings = hasReadings ? text.readings.get(index) : undefined
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
