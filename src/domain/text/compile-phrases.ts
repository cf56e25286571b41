/**
 * Phrases as data to a trie of tokens. Whoever writes them writes words, not regular expressions.
 *
 * In a phrase: `word` a whole token · `reprint*` a token that begins so · `*druck` one that ends so · `[the]` may be left out ·
 * `sold|offered` either · `~3` up to three tokens between (never over the end of a clause) · `,~` a comma may stand here.
 */
import { foldText, normaliseText } from './normalise-text.ts'

export interface PhraseList {
  readonly id: string
  /** BCP 47 primary tag, `null` where the words are the same in every language. */
  readonly language: string | null
  readonly phrases: readonly string[]
}

export interface Node {
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

export interface Entry {
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
export const UNBUILT = -1

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
    if (root.exact.has(word)) insertWaiting(compiled, word)
    else root.exact.set(word, UNBUILT)
  return compiled
}

function wait(waiting: Waiting, word: string, entry: number): void {
  const known = waiting.get(word)
  if (known === undefined) waiting.set(word, [entry])
  else if (known.at(-1) !== entry) known.push(entry)
}

/** Puts the phrases that begin with the word into the trie. */
export function insertWaiting({ nodes, entries, waiting }: CompiledPhrases, word: string): number {
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
