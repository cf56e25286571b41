/**
 * Label words of shops and auctions in nine languages, and the commonest of four more (`data/labels/*.json`), found in short text in one pass over its words.
 * Knows words only; what a word next to an amount means is decided where amounts are scored.
 */
import { hasLetter, isDigit, isLetter } from '../domain/letters.ts'
import english from './data/labels/en.json' with { type: 'json' }

/** English has every concept; another language may lack some. */
export type Concept = keyof typeof english
export type Labels = Readonly<Partial<Record<Concept, readonly string[]>>>

export interface LabelHit {
  readonly concept: Concept
  /** UTF-16 offsets in the text. */
  readonly start: number
  readonly end: number
}

export const LANGUAGES = ['en', 'de', 'fr', 'es', 'it', 'nl', 'pl', 'pt', 'ja', 'sv', 'da', 'no', 'cs'] as const
export type Language = (typeof LANGUAGES)[number]

interface Phrase {
  readonly words: readonly string[]
  readonly concept: Concept
}

/** Beyond this a line is prose, and label words in it are words. */
const LINE_LIMIT = 240
const CJK = /[\u3040-\u30ff\u4e00-\u9fff]/

const labelsByLanguage = new Map<Language, Labels>([['en', english]])

/** Makes the words of a language known; until then its pages are read without them. */
export function registerLabels(language: Language, labels: Labels): void {
  labelsByLanguage.set(language, labels)
  byLanguage.delete(language)
}

export function hasLabels(language: Language): boolean {
  return labelsByLanguage.has(language)
}

const byLanguage = new Map<Language, { first: Map<string, Phrase[]>; cjk: { text: string; concept: Concept }[] }>()

function compile(language: Language): NonNullable<ReturnType<typeof byLanguage.get>> {
  const known = byLanguage.get(language)
  if (known) return known
  const first = new Map<string, Phrase[]>()
  const cjk: { text: string; concept: Concept }[] = []
  for (const [concept, phrases] of Object.entries(labelsByLanguage.get(language) ?? {}) as [
    Concept,
    readonly string[],
  ][]) {
    for (const phrase of phrases) {
      if (CJK.test(phrase)) {
        cjk.push({ text: phrase, concept })
        continue
      }
      const words = scanWords(maskNumbers(phrase.toLowerCase())).map(({ word }) => word)
      if (words.length === 0) continue
      const list = first.get(words[0]!)
      if (list) list.push({ words, concept })
      else first.set(words[0]!, [{ words, concept }])
    }
  }
  cjk.sort((a, b) => b.text.length - a.text.length)
  const compiled = { first, cjk }
  byLanguage.set(language, compiled)
  return compiled
}

/** "3 bids" and "7 bids" are one text; "0 bids" is another. */
function maskNumbers(text: string): string {
  return /[2-9]/.test(text) ? text.replace(/[2-9]/g, '1') : text
}

interface Word {
  readonly word: string
  readonly start: number
  readonly end: number
}

/** Runs of letters and digits, and the signs that labels use as words ("p&p", "lot #"). */
function scanWords(text: string): Word[] {
  const words: Word[] = []
  let start = -1
  for (let at = 0; at <= text.length; at += 1) {
    const code = at < text.length ? text.charCodeAt(at) : 0
    if (isLetter(code) || isDigit(code)) {
      if (start < 0) start = at
      continue
    }
    if (start >= 0) words.push({ word: text.slice(start, at), start, end: at })
    start = -1
    // "/", "&", "#"
    if (code === 47 || code === 38 || code === 35) words.push({ word: text[at]!, start: at, end: at + 1 })
  }
  return words
}

export interface Lexicon {
  /** Labels in the text, longest first at each place; several concepts may share a place. */
  find(text: string): readonly LabelHit[]
  has(text: string, concept: Concept): boolean
  /** The whole text, but for punctuation and a count, is a label of this concept. */
  is(text: string, concept: Concept): boolean
  /** Concepts that the whole text is a label of. */
  conceptsOf(text: string): readonly Concept[]
}

export function createLexicon(languages: readonly Language[]): Lexicon {
  const compiled = languages.map(compile)
  const memo = new Map<string, readonly LabelHit[]>()
  const find = (text: string): readonly LabelHit[] => {
    if (text.length > LINE_LIMIT) return []
    const masked = maskNumbers(text)
    const known = memo.get(masked)
    if (known) return known
    const hits: LabelHit[] = []
    const words = scanWords(masked.toLowerCase())
    for (let i = 0; i < words.length; i += 1) {
      for (const { first } of compiled) {
        const phrases = first.get(words[i]!.word)
        if (!phrases) continue
        for (const phrase of phrases) {
          const { length } = phrase.words
          if (i + length > words.length) continue
          let fits = true
          for (let k = 1; k < length && fits; k += 1) fits = words[i + k]!.word === phrase.words[k]
          if (fits) hits.push({ concept: phrase.concept, start: words[i]!.start, end: words[i + length - 1]!.end })
        }
      }
    }
    if (CJK.test(text)) {
      for (const { cjk } of compiled) {
        for (const phrase of cjk) {
          const at = text.indexOf(phrase.text)
          if (at >= 0) hits.push({ concept: phrase.concept, start: at, end: at + phrase.text.length })
        }
      }
    }
    const kept = dropCovered(hits)
    memo.set(masked, kept)
    return kept
  }
  const isWhole = (text: string, hit: LabelHit): boolean => {
    return !hasLetter(text.slice(0, hit.start)) && !hasLetter(text.slice(hit.end))
  }
  return {
    find,
    has: (text, concept) => find(text).some((hit) => hit.concept === concept),
    is: (text, concept) => find(text).some((hit) => hit.concept === concept && isWhole(text, hit)),
    conceptsOf: (text) =>
      find(text)
        .filter((hit) => isWhole(text, hit))
        .map((hit) => hit.concept),
  }
}

/** "Reserve not met" is not also "reserve": a phrase inside a longer one does not count. */
function dropCovered(hits: readonly LabelHit[]): LabelHit[] {
  if (hits.length < 2) return [...hits]
  return hits.filter(
    (hit) =>
      !hits.some(
        (other) => other.end - other.start > hit.end - hit.start && other.start <= hit.start && other.end >= hit.end,
      ),
  )
}
