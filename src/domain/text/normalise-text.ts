/**
 * Text made ready for matching: compatibility forms, accents, case, invisible characters and look-alike letters are folded away,
 * every token keeps its place in the original, and what was disguised is listed. It only reads; quotes come from the original.
 * One pass over the code points, linear in the length.
 */
import { LOOK_ALIKES, STYLED } from './confusables.ts'

export type DisguiseKind =
  /** Zero-width characters inside a word. */
  | 'invisible'
  /** A right-to-left or left-to-right override, or any direction control inside a word. */
  | 'bidi'
  /** Letters of another script that look Latin, inside a word that is otherwise Latin or in Latin surroundings. */
  | 'mixed-script'
  /** Mathematical, circled, squared, full-width or small-capital letters. */
  | 'styled-letters'
  /** `r e p r i n t` */
  | 'spaced-letters'
  /** `r3print`; only reported with a phrase that matched through it. */
  | 'leetspeak'

export interface Disguise {
  readonly kind: DisguiseKind
  /** UTF-16 offsets in the original. */
  readonly start: number
  readonly end: number
  readonly quote: string
  /** What it reads once the disguise is taken off. */
  readonly reading: string
}

/** What stands between a token and the one before it. Phrases never cross more than `joined`. */
export const GAP = {
  /** Nothing, or an apostrophe. */
  none: 0,
  /** White space, hyphen, slash, ampersand, a full stop inside an abbreviation. */
  joined: 1,
  /** Comma, colon, bracket, dash, bar, bullet, emoji, tab. */
  clause: 2,
  /** End of a sentence or of a line. */
  sentence: 3,
} as const
export type Gap = (typeof GAP)[keyof typeof GAP]

export interface Token {
  /** Folded: lower case, no accents, Latin. A decimal number keeps its separators. */
  readonly form: string
  /** UTF-16 offsets in the original. */
  readonly start: number
  readonly end: number
  readonly gapBefore: Gap
  /** The characters between the token before and this one (at most 8, folded), for those who read punctuation. */
  readonly separator: string
  readonly sentence: number
  readonly quoted: boolean
  readonly disguise: DisguiseKind | null
}

/** Another reading of the tokens `first`…`last`, such as the word spelled by spaced letters. For matching only. */
export interface Reading {
  readonly first: number
  readonly last: number
  readonly form: string
  readonly disguise: DisguiseKind
}

export interface NormalisedText {
  readonly original: string
  readonly tokens: readonly Token[]
  /** By first token. */
  readonly readings: ReadonlyMap<number, readonly Reading[]>
  /** Whether the sentence with this number is a question. */
  readonly questions: readonly boolean[]
  readonly disguises: readonly Disguise[]
}

const lookAlikes = new Map<string, string>()
for (const [letter, characters] of Object.entries(LOOK_ALIKES)) for (const c of characters) lookAlikes.set(c, letter)
const styled = new Map<string, string>()
for (const [letter, characters] of Object.entries(STYLED)) for (const c of characters) styled.set(c, letter)

/** Letters that NFKD leaves whole though readers without the letter type them so; common practice of transliteration. */
const EXPANSIONS = new Map([
  ['ß', 'ss'],
  ['æ', 'ae'],
  ['œ', 'oe'],
  ['ø', 'o'],
  ['ł', 'l'],
  ['đ', 'd'],
  ['ð', 'd'],
  ['þ', 'th'],
  ['ħ', 'h'],
  ['ı', 'i'],
])

const LETTER = /^[\p{L}]/u
const DIGIT = /^[0-9]/
const LATIN = /^\p{Script=Latin}/u
const MARKS = /\p{M}+/gu
const MARK = /^\p{M}/u
const BIDI = /^[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/
const BIDI_OVERRIDE = /^[\u202d\u202e]/
// Default-ignorable characters that a text needs for nothing a card is described with. The soft hyphen is dropped but not
// reported: pages insert it for line breaks.
const INVISIBLE =
  /^(?:\u00ad|\u034f|[\u115f\u1160]|[\u17b4\u17b5]|[\u180b-\u180d]|\u180e|[\u200b-\u200d]|[\u2060-\u2064]|[\u206a-\u206f]|\u3164|[\ufe00-\ufe0f]|\ufeff|\uffa0|[\ufff9-\ufffb]|[\u{e0000}-\u{e0fff}])/u

const OPENING_QUOTES = new Set(['“', '„', '«', '»', '‚', '‹', '"'])
const CLOSING: Readonly<Record<string, string>> = {
  '“': '”',
  '„': '“”',
  '«': '»',
  '»': '«',
  '‚': '‘',
  '‹': '›',
  '"': '"',
}
/** A quotation that is longer than this many characters was never closed; ours, no source. */
const LONGEST_QUOTATION = 300

/** Raised letters that an ordinal or an abbreviation may end in (`1ᵉʳ`, `Mˡˡᵉ`); more of them make a word. Ours. */
const MOST_RAISED = 3

/** Folds one string the way tokens are folded; for keys, names and dictionary entries. */
export function foldText(text: string): string {
  let folded = ''
  for (const character of text) folded += foldCharacter(character).form
  return folded
}

interface Folded {
  readonly form: string
  readonly kind: 'latin' | 'look-alike' | 'styled' | 'raised' | 'other'
}

const foldCache = new Map<string, Folded>()

function foldCharacter(character: string): Folded {
  const code = character.charCodeAt(0)
  if (code < 0x80) {
    const lower = code >= 65 && code <= 90 ? String.fromCharCode(code + 32) : character
    return { form: lower, kind: 'latin' }
  }
  const known = foldCache.get(character)
  if (known !== undefined) return known
  const folded = foldForeign(character)
  // The cache holds characters, of which there are few; the cap only guards against text made to fill it.
  if (foldCache.size < 4096) foldCache.set(character, folded)
  return folded
}

function foldForeign(character: string): Folded {
  if (INVISIBLE.test(character) || BIDI.test(character)) return { form: '', kind: 'other' }
  const style = styled.get(character)
  if (style !== undefined) return { form: style, kind: 'styled' }
  const decomposed = character.normalize('NFKD')
  const bare = decomposed.replace(MARKS, '')
  const compatible = decomposed !== character.normalize('NFD')
  let form = ''
  let kind: Folded['kind'] = 'latin'
  for (const part of bare) {
    if (part.charCodeAt(0) < 0x80) {
      form += part.toLowerCase()
      continue
    }
    const lower = part.toLowerCase()
    const expansion = EXPANSIONS.get(lower) ?? styled.get(part)
    const alike = lookAlikes.get(part) ?? lookAlikes.get(lower)
    if (expansion !== undefined) form += expansion
    else if (alike !== undefined) {
      form += alike
      kind = 'look-alike'
    } else {
      form += lower.normalize('NFKD').replace(MARKS, '')
      if (!LATIN.test(part)) kind = 'other'
    }
  }
  // Ligatures are typography; letters in another style are a style, and raised ones only where a word is made of them.
  if (kind === 'latin' && compatible && /^[a-z]$/.test(form))
    return { form, kind: /^[\p{Lm}ªº]/u.test(character) ? 'raised' : 'styled' }
  return { form, kind }
}

const SEPARATOR = 0
const ASCII_LETTER = 1
const ASCII_DIGIT = 2
const SPACE = 0x20
const QUOTATION_MARK = 0x22
const COMMA = 0x2c
const FULL_STOP = 0x2e
const KINDS = Uint8Array.from({ length: 0x80 }, (_, code) => {
  const character = String.fromCharCode(code)
  return /[A-Za-z]/.test(character) ? ASCII_LETTER : /[0-9]/.test(character) ? ASCII_DIGIT : SEPARATOR
})

interface OpenToken {
  form: string
  start: number
  end: number
  latin: boolean
  lookAlike: boolean
  styled: boolean
  raised: number
  foreign: boolean
  invisible: boolean
  bidi: boolean
}

/** @param text any text, of any length; never throws. */
export function normaliseText(text: string): NormalisedText {
  const tokens: Token[] = []
  const disguises: Disguise[] = []
  const questions: boolean[] = [false]
  const wholeAlike: number[] = []
  let open: OpenToken | null = null
  let pendingInvisible = -1
  let pendingBidi = -1
  let separator = ''
  let between = ''
  let quoteClosers = ''
  let quoteStart = -1
  let quoteFirstToken = 0
  const quotedRanges: [number, number][] = []
  let latinLetters = 0
  let otherLetters = 0

  const push = (form: string, start: number, end: number, disguise: DisguiseKind | null): void => {
    const gap = gapOf(between, tokens.at(-1), form, text, start)
    if (gap === GAP.sentence && tokens.length > 0) {
      questions[questions.length - 1] = between.includes('?') && !between.includes('\n?')
      questions.push(false)
    }
    tokens.push({
      form,
      start,
      end,
      gapBefore: tokens.length === 0 ? GAP.sentence : gap,
      separator,
      sentence: questions.length - 1,
      quoted: false,
      disguise,
    })
    separator = ''
    between = ''
  }
  const separate = (character: string): void => {
    if (separator.length < 8) separator += character
    if (between.length < 64) between += character
    else if (character === '\n' && !between.includes('\n')) between += character
  }
  const close = (): void => {
    if (open === null) return
    const token = open
    open = null
    let disguise: DisguiseKind | null = null
    if (token.invisible) disguise = 'invisible'
    else if (token.bidi) disguise = 'bidi'
    else if (token.lookAlike && token.latin) disguise = 'mixed-script'
    else if (token.styled || token.raised > MOST_RAISED) disguise = 'styled-letters'
    else if (token.lookAlike && !token.foreign && token.form.length > 1) wholeAlike.push(tokens.length)
    if (token.latin || token.styled) latinLetters += token.form.length
    else if (token.foreign || token.lookAlike) otherLetters += token.form.length
    push(token.form, token.start, token.end, disguise)
    if (disguise !== null)
      disguises.push({
        kind: disguise,
        start: token.start,
        end: token.end,
        quote: text.slice(token.start, token.end),
        reading: token.form,
      })
  }

  let at = 0
  while (at < text.length) {
    const code = text.charCodeAt(at)
    if (open === null && code < 0x80) {
      // The usual case, without a look at each character: a word or number of plain ASCII, or one plain separator.
      if (KINDS[code] === SEPARATOR) {
        if (code !== QUOTATION_MARK && quoteClosers === '') {
          separate(text.charAt(at))
          at += 1
          continue
        }
      } else {
        let end = at + 1
        let letters = KINDS[code] === ASCII_LETTER
        for (; end < text.length; end += 1) {
          const kind = KINDS[text.charCodeAt(end)] ?? SEPARATOR
          if (kind === SEPARATOR) break
          letters ||= kind === ASCII_LETTER
        }
        const stop = end < text.length ? text.charCodeAt(end) : SPACE
        if (stop < 0x80 && stop !== FULL_STOP && stop !== COMMA) {
          if (letters) latinLetters += end - at
          push(text.slice(at, end).toLowerCase(), at, end, null)
          at = end
          continue
        }
      }
    }
    const character = characterAt(text, at)
    const next = at + character.length
    if (character.charCodeAt(0) >= 0x80) {
      if (BIDI.test(character)) {
        if (BIDI_OVERRIDE.test(character))
          disguises.push({ kind: 'bidi', start: at, end: next, quote: character, reading: '' })
        else if (open !== null) pendingBidi = at
        at = next
        continue
      }
      if (INVISIBLE.test(character)) {
        if (open !== null && character !== '\u00ad') pendingInvisible = at
        at = next
        continue
      }
      if (MARK.test(character)) {
        if (open !== null) open.end = next
        at = next
        continue
      }
    }
    const folded = foldCharacter(character)
    const first = folded.form
    const isLetter = first !== '' && LETTER.test(first)
    const isDigit = !isLetter && first !== '' && DIGIT.test(first)
    // A separator inside a number: `8.5`, `1,234.50`.
    const insideNumber =
      !isLetter &&
      !isDigit &&
      (first === '.' || first === ',') &&
      open !== null &&
      /[0-9]$/.test(open.form) &&
      /^[0-9]/.test(text.slice(next, next + 1))
    if (isLetter || isDigit || insideNumber) {
      if (open === null) {
        open = {
          form: '',
          start: at,
          end: next,
          latin: false,
          lookAlike: false,
          styled: false,
          raised: 0,
          foreign: false,
          invisible: false,
          bidi: false,
        }
      } else if (open.form !== '') {
        if (pendingInvisible >= 0 && folded.kind !== 'other') open.invisible = true
        if (pendingBidi >= 0 && folded.kind !== 'other') open.bidi = true
      }
      pendingInvisible = -1
      pendingBidi = -1
      open.form += first
      open.end = next
      if (isLetter) {
        if (folded.kind === 'latin') open.latin = true
        else if (folded.kind === 'look-alike') open.lookAlike = true
        else if (folded.kind === 'styled') open.styled = true
        else if (folded.kind === 'raised') open.raised += 1
        else open.foreign = true
      }
    } else {
      close()
      pendingInvisible = -1
      pendingBidi = -1
      separate(first === '' ? ' ' : first)
      // Quotation marks.
      if (quoteClosers !== '' && (quoteClosers.includes(character) || at - quoteStart > LONGEST_QUOTATION)) {
        if (quoteClosers.includes(character)) quotedRanges.push([quoteFirstToken, tokens.length])
        quoteClosers = ''
      } else if (quoteClosers === '' && OPENING_QUOTES.has(character) && opensQuotation(text, at)) {
        quoteClosers = CLOSING[character] ?? ''
        quoteStart = at
        quoteFirstToken = tokens.length
      }
    }
    at = next
  }
  close()
  if (between.includes('?')) questions[questions.length - 1] = true

  for (const [first, last] of quotedRanges)
    for (let index = first; index < last; index += 1) {
      const token = tokens[index]
      if (token !== undefined) tokens[index] = { ...token, quoted: true }
    }
  // A word wholly of look-alikes is a disguise in Latin surroundings and plain text among its own kind.
  // Three quarters: ours; a Russian or Greek listing with a Latin brand name stays far below it.
  if (wholeAlike.length > 0 && latinLetters > 3 * otherLetters)
    for (const index of wholeAlike) {
      const token = tokens[index]
      if (token === undefined) continue
      tokens[index] = { ...token, disguise: 'mixed-script' }
      disguises.push({
        kind: 'mixed-script',
        start: token.start,
        end: token.end,
        quote: text.slice(token.start, token.end),
        reading: token.form,
      })
    }
  const readings = findReadings(text, tokens, disguises)
  disguises.sort((a, b) => a.start - b.start)
  return { original: text, tokens, readings, questions, disguises }
}

function characterAt(text: string, at: number): string {
  const code = text.charCodeAt(at)
  return code >= 0xd800 && code <= 0xdbff && at + 1 < text.length ? text.slice(at, at + 2) : text.charAt(at)
}

function opensQuotation(text: string, at: number): boolean {
  const before = at === 0 ? ' ' : text.charAt(at - 1)
  const after = text.charAt(at + 1)
  return /[\s([{/:—–-]/.test(before) && /\p{L}|\p{N}/u.test(after)
}

function gapOf(between: string, before: Token | undefined, form: string, text: string, start: number): Gap {
  if (between === '') return GAP.none
  if (between === ' ') return GAP.joined
  if (/^['’‘´`]$/.test(between)) return GAP.none
  if (/\n[^\S\n]*\n/.test(between)) return GAP.sentence
  const flat = between.replace(/\s+/g, ' ')
  if (between.includes('\n')) {
    // A line that goes on in small letters was only wrapped.
    if (flat === ' ' && /^\p{Ll}/u.test(characterAt(text, start))) return GAP.joined
    return /[.!?…]/.test(flat) ? GAP.sentence : GAP.clause
  }
  if (/[!?…]/.test(flat)) return GAP.sentence
  if (flat.includes('.')) {
    if (flat === '.') return GAP.joined
    // `Nr. 5`, `ca. 1931`: a full stop after one to three letters before a number ends no sentence.
    if (flat === '. ' && before !== undefined && ABBREVIATED.has(before.form)) return GAP.joined
    const abbreviated = flat === '. ' && before !== undefined && before.form.length <= 3 && !/^[0-9]/.test(before.form) && /^[0-9a-z]/.test(form)
    return abbreviated && (/^[0-9]/.test(form) || (before?.form.length ?? 0) === 1) ? GAP.joined : GAP.sentence
  }
  if (/^ ?[-‐‑/&+_*#] ?$/.test(flat)) return / [-‐‑] /.test(flat) ? GAP.clause : GAP.joined
  if (/^[\s'"’‘“”„«»`´_*~#]+$/.test(flat)) return GAP.joined
  return GAP.clause
}

/** Abbreviations whose full stop ends no sentence though a capital may follow; common practice of the five languages. */
const ABBREVIATED = new Set(
  'evtl evt ggf vermtl ca circa approx poss prob incl inkl incl vgl bzw eventuell num nr vol cert ref art prof dr mr mrs ms st jr sr ed inc ltd'.split(
    ' ',
  ),
)

const LEET: Readonly<Record<string, readonly string[]>> = {
  '0': ['o'],
  '1': ['i', 'l'],
  '3': ['e'],
  '4': ['a'],
  '5': ['s'],
  '7': ['t'],
  '8': ['b'],
}
const LEET_MARKS: Readonly<Record<string, string>> = { '@': 'a', $: 's', '!': 'i', '|': 'l', '€': 'e', '¡': 'i' }
/** Fewest letters that stand apart to be read as one word: three occur by chance (initials), four hardly. Ours. */
const FEWEST_SPACED = 4
/** Longest word that is put together from parts; ours, above any phrase. */
const LONGEST_SPACED = 40

function findReadings(text: string, tokens: readonly Token[], disguises: Disguise[]): Map<number, Reading[]> {
  const readings = new Map<number, Reading[]>()
  const add = (reading: Reading): void => {
    const known = readings.get(reading.first)
    if (known === undefined) readings.set(reading.first, [reading])
    else known.push(reading)
  }
  let index = 0
  while (index < tokens.length) {
    const token = tokens[index] as Token
    // Spaced letters: single letters, the same short separator throughout.
    if (token.form.length === 1 && LETTER.test(token.form)) {
      let last = index
      const glue = tokens[index + 1]?.separator ?? ''
      if (/^( | {2}| {3}|\.|-|_|\*|·|\u2022|\. )$/.test(glue))
        while (
          last + 1 < tokens.length &&
          tokens[last + 1]?.form.length === 1 &&
          LETTER.test(tokens[last + 1]?.form ?? '') &&
          tokens[last + 1]?.separator === glue
        )
          last += 1
      const count = last - index + 1
      if (count >= FEWEST_SPACED && count <= LONGEST_SPACED) {
        const form = tokens
          .slice(index, last + 1)
          .map((letter) => letter.form)
          .join('')
        add({ first: index, last, form, disguise: 'spaced-letters' })
        const start = token.start
        const end = tokens[last]?.end ?? token.end
        disguises.push({ kind: 'spaced-letters', start, end, quote: text.slice(start, end), reading: form })
      }
      if (last > index) {
        index = last + 1
        continue
      }
    }
    if (/[0-9]/.test(token.form) && /[a-z]/.test(token.form)) addLeet(token.form, index, index, add)
    // `repr!nt`, `f@ke`: a mark that is read as a letter, tight between two tokens.
    const marked = tokens[index + 1]
    if (marked !== undefined && marked.separator.length === 1 && marked.separator in LEET_MARKS) {
      let form = token.form
      let last = index
      while (last + 1 < tokens.length && last - index < 4) {
        const following = tokens[last + 1] as Token
        const letter = following.separator.length === 1 ? LEET_MARKS[following.separator] : undefined
        if (letter === undefined) break
        form += letter + following.form
        last += 1
      }
      if (/^[a-z0-9]+$/.test(form)) {
        if (/[0-9]/.test(form)) addLeet(form, index, last, add)
        else add({ first: index, last, form, disguise: 'leetspeak' })
      }
    }
    index += 1
  }
  return readings
}

function addLeet(form: string, first: number, last: number, add: (reading: Reading) => void): void {
  // Short forms and figures at the rim are numbers (`5sp`, `psa10`), not letters in disguise. Ours.
  if (form.length < 3 || form.length > LONGEST_SPACED || /[29.,]|6/.test(form)) return
  const letters = form.replace(/[^a-z]/g, '').length
  const rim = /^[0-9]|[0-9]$/.test(form)
  if (letters < 2 || letters < form.length - letters || (rim && letters < 3)) return
  for (const one of [0, 1]) {
    if (one === 1 && !form.includes('1')) break
    let read = ''
    for (const character of form) {
      const choices = LEET[character]
      read += choices === undefined ? character : (choices[one] ?? choices[0] ?? character)
    }
    add({ first, last, form: read, disguise: 'leetspeak' })
  }
}
