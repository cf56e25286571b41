/**
 * Text made ready for matching: compatibility forms, accents, case, invisible characters and look-alike letters are folded away,
 * every token keeps its place in the original, and what was disguised is listed. It only reads; quotes come from the original.
 * One pass over the code points, linear in the length.
 */
import { findReadings } from './find-readings.ts'
import { BIDI, BIDI_OVERRIDE, DIGIT, foldCharacter, INVISIBLE, LETTER, MARK } from './fold-text.ts'

export { foldText } from './fold-text.ts'

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
    const gap = between === ' ' ? GAP.joined : gapOf(between, tokens.at(-1), form, text, start)
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
    if (between === '') {
      separator = character
      between = character
      return
    }
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
    const abbreviated =
      flat === '. ' &&
      before !== undefined &&
      before.form.length <= 3 &&
      !/^[0-9]/.test(before.form) &&
      /^[0-9a-z]/.test(form)
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
