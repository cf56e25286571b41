/**
 * The words that claims are read by: parsed from the data of `rules/vocabulary`, validated, compiled once.
 * An unknown kind, topic, list or key is refused with its place; no word of any language stands in code.
 */
import * as v from 'valibot'
import {
  type CompiledPhrases,
  checkPhrase,
  compilePhrases,
  PhraseFault,
  type PhraseList,
} from '../text/match-phrases.ts'
import { foldText } from '../text/normalise-text.ts'
import { type CompiledCues, type CueList, compileCues } from '../text/scope.ts'

export const TOPICS = {
  grade: null,
  encapsulation: [
    'encapsulated',
    'raw',
    'ready',
    'cracked',
    'hypothetical-before',
    'hypothetical-after',
    'formerly-before',
    'wish-before',
    'elsewhere',
    'others',
  ],
  holder: ['screw-down', 'one-touch', 'toploader', 'semi-rigid', 'sleeve', 'shipping'],
  reprint: [
    'stated',
    'plural',
    'weak',
    'conditional',
    'conditional-no',
    'ambiguous',
    'patch',
    'patch-sign',
    'auto-sign',
    'original',
    'none',
  ],
  object: [
    'lot',
    'lot-no',
    'sealed-product',
    'sealed-product-no',
    'digital',
    'digital-no',
    'other',
    'offer',
    'count-word',
  ],
  mark: [
    'autograph',
    'autograph-no',
    'autograph-mute',
    'relic',
    'relic-no',
    'relic-mute',
    'rookie',
    'rookie-no',
    'rookie-mute',
  ],
  label: [
    'card-number',
    'card-noun',
    'other-number',
    'hype-number',
    'certificate',
    'certificate-no',
    'serial',
    'serial-of',
    'centering',
    'condition',
    'grade-label',
    'gave',
    'authentic',
    'altered',
    'by',
    'year-no',
    'year-yes',
    'year-away',
    'count-noun',
  ],
  variation: ['variation', 'variation-no'],
  set: ['series-end', 'maker-end', 'noise'],
  key: [
    'year',
    'card-number',
    'subject',
    'set',
    'variation',
    'grader',
    'grade',
    'graded',
    'certificate',
    'reprint',
    'autograph',
    'relic',
    'rookie',
    'count',
    'serial',
    'holder',
    'object',
    'maker',
  ],
} as const
export type Topic = keyof typeof TOPICS
export type KeyField = (typeof TOPICS)['key'][number]

export interface Vocabulary {
  /** All topics but `key`; ids are `topic:list`. */
  readonly terms: CompiledPhrases
  /** Ids of the lists that only titles are read for. */
  readonly titleOnly: ReadonlySet<string>
  /** Names of item specifics, folded and stripped to words, and the field that their value fills. */
  readonly keys: ReadonlyMap<string, readonly KeyField[]>
  readonly cues: CompiledCues
  /** Single words of negation, hedge and the like; in capitals they are no graders. */
  readonly cueWords: ReadonlySet<string>
  /** Short words in capitals that are no graders. */
  readonly abbreviations: ReadonlySet<string>
}

export interface VocabularyFault {
  readonly file: string
  readonly path: string
  readonly fault: string
}

const eachPhrase = v.pipe(
  v.array(v.pipe(v.string(), v.trim(), v.nonEmpty('an empty phrase'))),
  v.nonEmpty('no phrases'),
)
/** Thousands of phrases go through one look; only where it finds something does the schema say what and where. */
const phrases = v.lazy(
  (input): v.GenericSchema<string[]> => (arePhrases(input) ? v.custom<string[]>(() => true) : eachPhrase),
)

function arePhrases(input: unknown): boolean {
  return (
    Array.isArray(input) &&
    input.length > 0 &&
    input.every((phrase) => typeof phrase === 'string' && phrase !== '' && phrase.trim() === phrase)
  )
}
const language = v.nullable(v.pipe(v.string(), v.regex(/^[a-z]{2,3}$/, 'a language is a BCP 47 primary tag')))

const termsSchema = v.strictObject({
  kind: v.literal('vocabulary'),
  schemaVersion: v.literal(1),
  topic: v.picklist(Object.keys(TOPICS) as Topic[], 'no such topic'),
  about: v.string(),
  lists: v.array(v.strictObject({ id: v.string(), language, phrases })),
})

const scopeSchema = v.strictObject({
  kind: v.literal('scope'),
  schemaVersion: v.literal(1),
  note: v.string(),
  cues: v.array(
    v.strictObject({
      role: v.picklist(
        [
          'negation-before',
          'negation-after',
          'answer-no',
          'hedge-before',
          'hedge-after',
          'mention-before',
          'mention-after',
          'stop',
          'pseudo',
          'list',
        ],
        'no such role',
      ),
      language,
      phrases,
    }),
  ),
})

const CAPITALS = /^[A-Z]{1,8}$/
const eachAbbreviation = v.array(v.pipe(v.string(), v.regex(CAPITALS, 'an abbreviation is capitals')))

function areCapitals(input: unknown): boolean {
  return Array.isArray(input) && input.every((word) => typeof word === 'string' && CAPITALS.test(word))
}

const abbreviationsSchema = v.strictObject({
  kind: v.literal('abbreviations'),
  schemaVersion: v.literal(1),
  about: v.string(),
  trade: v.record(v.pipe(v.string(), v.regex(CAPITALS, 'an abbreviation is capitals')), v.string()),
  everyday: v.lazy(
    (input): v.GenericSchema<string[]> => (areCapitals(input) ? v.custom<string[]>(() => true) : eachAbbreviation),
  ),
})

const fileSchema = v.variant('kind', [termsSchema, scopeSchema, abbreviationsSchema])

const KINDS: ReadonlySet<unknown> = new Set(['vocabulary', 'scope', 'abbreviations'])

/** Whether a pack of this kind is a part of the vocabulary. */
export function isVocabularyKind(kind: unknown): boolean {
  return KINDS.has(kind)
}

/** The form in which names of specifics are compared. */
export function foldKey(name: string): string {
  return foldText(name)
    .replace(/[^\p{L}\p{N}#]+/gu, ' ')
    .trim()
}

/** Names are cut from titles, not from running text, where such everyday words abound. */
const TITLE_ONLY = /^(?:set|variation|label:condition)/

/** A grade list is named by the number that its words stand for. */
const GRADE = /^(10|[1-9](\.5)?)$/

/** Files in any order, each as parsed JSON with the name that faults are reported under. A file with a fault is left out. */
export function parseVocabulary(files: readonly { readonly file: string; readonly pack: unknown }[]): {
  vocabulary: Vocabulary
  faults: VocabularyFault[]
} {
  const faults: VocabularyFault[] = []
  const lists: PhraseList[] = []
  const cues: CueList[] = []
  const keys = new Map<string, KeyField[]>()
  const abbreviations = new Set<string>()
  for (const { file, pack } of files) {
    const result = v.safeParse(fileSchema, pack)
    if (!result.success) {
      for (const issue of result.issues) faults.push({ file, path: v.getDotPath(issue) ?? '', fault: describe(issue) })
      continue
    }
    const content = result.output
    if (content.kind === 'abbreviations') {
      for (const word of [...Object.keys(content.trade), ...content.everyday]) abbreviations.add(word)
      continue
    }
    if (content.kind === 'scope') {
      const readable = content.cues.filter((list, index) => isReadable(list.phrases, file, `cues.${index}`, faults))
      cues.push(...readable)
      continue
    }
    const allowed: readonly string[] | null = TOPICS[content.topic]
    content.lists.forEach((list, index) => {
      const known = allowed === null ? GRADE.test(list.id) : allowed.includes(list.id)
      if (!known)
        faults.push({ file, path: `lists.${index}.id`, fault: `no such list in ${content.topic}: ${list.id}` })
      else if (content.topic === 'key')
        for (const name of list.phrases) {
          const fields = keys.get(foldKey(name)) ?? []
          if (!fields.includes(list.id as KeyField)) keys.set(foldKey(name), [...fields, list.id as KeyField])
        }
      else if (isReadable(list.phrases, file, `lists.${index}`, faults))
        lists.push({ id: `${content.topic}:${list.id}`, language: list.language, phrases: list.phrases })
    })
  }
  const cueWords = new Set(cues.flatMap((list) => list.phrases).filter((phrase) => /^[a-z]+$/.test(phrase)))
  return {
    vocabulary: {
      terms: compilePhrases(lists),
      titleOnly: new Set(lists.map(({ id }) => id).filter((id) => TITLE_ONLY.test(id))),
      keys,
      cues: compileCues(cues),
      cueWords,
      abbreviations,
    },
    faults,
  }
}

function describe(issue: v.BaseIssue<unknown>): string {
  return issue.type === 'strict_object' && issue.expected === 'never' ? 'no such key' : issue.message
}

function isReadable(list: readonly string[], file: string, path: string, faults: VocabularyFault[]): boolean {
  let readable = true
  list.forEach((phrase, index) => {
    try {
      checkPhrase(phrase)
    } catch (fault) {
      if (!(fault instanceof PhraseFault)) throw fault
      faults.push({ file, path: `${path}.phrases.${index}`, fault: fault.message })
      readable = false
    }
  })
  return readable
}
