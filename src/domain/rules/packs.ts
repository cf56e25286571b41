/**
 * Packs from raw JSON to what `inspect` works with. Every pack is validated; one with a fault is left out whole and the
 * fault names file, place and what is wrong.
 *
 * Order of precedence: packs are taken by file name (UTF-16 order), phrases, views, messages and vocabulary before rules. An id
 * stands once; a later pack cannot redefine an earlier one's rule, only switch it off (`off`). Rules run in that order,
 * each after those that it refers to by `raised`. Of a rule's cases the first that holds counts.
 */
import * as v from 'valibot'
import { isVocabularyKind, parseVocabulary, type Vocabulary } from '../claim/vocabulary.ts'
import { type MessagePack, messagePackSchema } from '../request/message-pack.ts'
import { PhraseFault } from '../text/match-phrases.ts'
import { createTranslate, type Translate } from '../translate.ts'
import { createViewWords, type ViewWords } from '../views/read-view-words.ts'
import { type ViewPack, type ViewWordPack, viewPackSchema, viewWordPackSchema } from '../views/view-pack.ts'
import { checkRulePack, orderRules } from './check-rules.ts'
import { type PhrasePack, phrasePackSchema } from './phrase-pack.ts'
import { type Rule, type RulePack, rulePackSchema } from './rule.ts'
import { createPhraseSearch, type PhraseSearch } from './search-phrases.ts'

/** One file of `rules/`, parsed as JSON. `file` is its path from there; it names the place of a fault and sets the order. */
export interface PackFile {
  readonly file: string
  readonly pack: unknown
}

export interface PackFault {
  readonly file: string
  /** Keys and indices joined by dots; empty for the pack as a whole. */
  readonly path: string
  readonly fault: string
}

export { formatPack } from './format-pack.ts'

export interface Packs {
  /** In the order in which they run. */
  readonly rules: readonly Rule[]
  readonly views: { readonly raw: ViewPack; readonly encapsulated: ViewPack }
  readonly viewWords: ViewWords
  readonly messages: ReadonlyMap<string, MessagePack>
  readonly searchPhrases: PhraseSearch
  readonly phraseLists: readonly PhrasePack[]
  readonly vocabulary: Vocabulary
  readonly translate: Translate
  /** BCP 47 primary tag of the texts behind `translate`. */
  readonly language: string
}

const SCHEMAS = {
  rules: rulePackSchema,
  phrases: phrasePackSchema,
  views: viewPackSchema,
  'view-words': viewWordPackSchema,
  messages: messagePackSchema,
} as const
type Kind = keyof typeof SCHEMAS

type ParsedPack = RulePack | PhrasePack | ViewPack | ViewWordPack | MessagePack

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** A bare pack, or `{ file, pack }`; a bare one is named by its own id. */
function toFile(raw: unknown, index: number): PackFile {
  if (isRecord(raw) && typeof raw.file === 'string' && 'pack' in raw) return { file: raw.file, pack: raw.pack }
  const id = isRecord(raw) && typeof raw.id === 'string' ? raw.id : `pack ${index + 1}`
  return { file: id, pack: raw }
}

/** One pack by the schema of its kind; keys come out in the schema's order. */
export function parsePack(file: string, raw: unknown): { pack: ParsedPack | null; faults: PackFault[] } {
  if (!isRecord(raw)) return { pack: null, faults: [{ file, path: '', fault: 'a pack is an object' }] }
  if (typeof raw.kind !== 'string' || !(raw.kind in SCHEMAS)) {
    return { pack: null, faults: [{ file, path: 'kind', fault: `no such kind of pack: ${JSON.stringify(raw.kind)}` }] }
  }
  const result = v.safeParse(SCHEMAS[raw.kind as Kind] as v.GenericSchema<ParsedPack>, raw)
  if (result.success) return { pack: result.output, faults: [] }
  const faults = result.issues.map((issue) => ({ file, path: v.getDotPath(issue) ?? '', fault: describeIssue(issue) }))
  return { pack: null, faults }
}

function describeIssue(issue: v.BaseIssue<unknown>): string {
  if (issue.type === 'strict_object' && issue.expected === 'never') return 'no such key'
  return issue.message
}

/**
 * @param raw packs as parsed JSON, each bare or as `{ file, pack }`.
 * @param texts the catalogue of one interface language (`rules.json` and `views.json` of `_locales`, flat).
 */
export function parsePacks(
  raw: readonly unknown[],
  texts: Readonly<Record<string, string>>,
  language = 'en',
): { packs: Packs; faults: PackFault[] } {
  const files = raw.map(toFile).sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : 0))
  const faults: PackFault[] = []
  const parsed: { file: string; pack: ParsedPack }[] = []
  const vocabularyFiles: PackFile[] = []
  for (const { file, pack } of files) {
    if (isRecord(pack) && isVocabularyKind(pack.kind)) {
      vocabularyFiles.push({ file, pack })
      continue
    }
    const result = parsePack(file, pack)
    faults.push(...result.faults)
    if (result.pack) parsed.push({ file, pack: result.pack })
  }
  const vocabulary = parseVocabulary(vocabularyFiles)
  faults.push(...vocabulary.faults)

  const phrases = keepDistinct(parsed, isKind('phrases'), faults)
  const { rules, own } = joinRules(
    keepDistinct(parsed, isKind('rules'), faults),
    new Set(phrases.map(({ pack }) => pack.id)),
    faults,
  )
  const catalogue = { ...texts, ...own }
  checkTexts(rules, catalogue, faults)
  const views = keepDistinct(parsed, isKind('views'), faults).map(({ pack }) => pack)
  const words = keepDistinct(parsed, isKind('view-words'), faults).map(({ pack }) => pack)
  const messages = keepDistinct(parsed, isKind('messages'), faults).map(({ pack }) => pack)

  const packs: Packs = {
    rules: rules.map(({ rule }) => rule),
    views: {
      raw: views.find((pack) => pack.id === 'raw') ?? noViews('raw'),
      encapsulated: views.find((pack) => pack.id === 'encapsulated') ?? noViews('encapsulated'),
    },
    viewWords: createViewWords(joinWords(words)),
    messages: new Map(messages.map((pack) => [pack.language, pack])),
    searchPhrases: searchOf(phrases, vocabulary.vocabulary, faults),
    phraseLists: phrases.map(({ pack }) => pack),
    vocabulary: vocabulary.vocabulary,
    translate: createTranslate(catalogue, language),
    language,
  }
  return { packs, faults }
}

function isKind<K extends Kind>(kind: K) {
  return (pack: ParsedPack): pack is Extract<ParsedPack, { kind: K }> => pack.kind === kind
}

function keepDistinct<P extends ParsedPack>(
  parsed: readonly { file: string; pack: ParsedPack }[],
  fits: (pack: ParsedPack) => pack is P,
  faults: PackFault[],
): { file: string; pack: P }[] {
  const kept = new Map<string, { file: string; pack: P }>()
  for (const { file, pack } of parsed) {
    if (!fits(pack)) continue
    const before = kept.get(pack.id)
    if (before) faults.push({ file, path: 'id', fault: `the id "${pack.id}" stands in ${before.file} already` })
    else kept.set(pack.id, { file, pack })
  }
  return [...kept.values()]
}

interface FiledRule {
  readonly file: string
  readonly rule: Rule
}

function joinRules(
  packs: readonly { file: string; pack: RulePack }[],
  phraseLists: ReadonlySet<string>,
  faults: PackFault[],
): { rules: FiledRule[]; own: Record<string, string> } {
  let rules: FiledRule[] = []
  const own: Record<string, string> = {}
  for (const { file, pack } of packs) {
    const found = checkRulePack(pack, new Set(rules.map(({ rule }) => rule.id)), phraseLists)
    const { circle } = orderRules([...rules.map(({ rule }) => rule), ...pack.rules])
    if (circle.length > 0)
      found.push({ path: 'rules', fault: `rules refer to each other in a circle: ${circle.join(' → ')}` })
    if (found.length > 0) {
      faults.push(...found.map((fault) => ({ file, ...fault })))
      continue
    }
    const off = new Set(pack.off ?? [])
    rules = rules.filter(({ rule }) => !off.has(rule.id))
    for (const rule of pack.rules) {
      rules.push({ file, rule })
      if (!rule.text) continue
      for (const part of TEXT_PARTS) own[textKey(rule.id, part)] = rule.text[part]
    }
  }
  const ordered = orderRules(rules.map(({ rule }) => rule)).rules
  const byId = new Map(rules.map((filed) => [filed.rule.id, filed]))
  return { rules: ordered.map((rule) => byId.get(rule.id)!), own }
}

const TEXT_PARTS = ['title', 'why', 'settles'] as const

/** `missing-back`, `why` → `rule_missing_back_why`. */
export function textKey(rule: string, part: (typeof TEXT_PARTS)[number]): string {
  return `rule_${rule.replace(/-/g, '_')}_${part}`
}

function checkTexts(
  rules: readonly FiledRule[],
  catalogue: Readonly<Record<string, string>>,
  faults: PackFault[],
): void {
  for (const { file, rule } of rules) {
    for (const part of TEXT_PARTS) {
      const key = textKey(rule.id, part)
      if (!(key in catalogue)) faults.push({ file, path: `rules.${rule.id}.text`, fault: `no text for "${key}"` })
    }
  }
}

function noViews(id: 'raw' | 'encapsulated'): ViewPack {
  return { schemaVersion: 1, kind: 'views', id, about: '', views: [] }
}

function joinWords(packs: readonly ViewWordPack[]): ViewWordPack {
  return {
    schemaVersion: 1,
    kind: 'view-words',
    id: 'joined',
    about: '',
    words: Object.assign({}, ...packs.map((pack) => pack.words)),
    inHolder: Object.assign({}, ...packs.map((pack) => pack.inHolder)),
  }
}

/** A list whose phrases cannot be read is left out, with its fault; the others stay. */
function searchOf(
  phrases: readonly { file: string; pack: PhrasePack }[],
  vocabulary: Vocabulary,
  faults: PackFault[],
): PhraseSearch {
  const compile = (packs: readonly PhrasePack[]): PhraseSearch | PhraseFault => {
    try {
      return createPhraseSearch(packs, vocabulary.cues)
    } catch (error) {
      if (error instanceof PhraseFault) return error
      throw error
    }
  }
  // One by one only where something is wrong: compiling every list twice would double the time to start.
  const all = compile(phrases.map(({ pack }) => pack))
  if (!(all instanceof PhraseFault)) return all
  const readable = phrases.filter(({ file, pack }) => {
    const alone = compile([pack])
    if (alone instanceof PhraseFault) faults.push({ file, path: 'phrases', fault: alone.message })
    return !(alone instanceof PhraseFault)
  })
  return createPhraseSearch(
    readable.map(({ pack }) => pack),
    vocabulary.cues,
  )
}
