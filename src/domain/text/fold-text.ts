/**
 * One character at a time to what it is read as: compatibility forms, accents and case folded away (NFKD through ICU), look-alike and
 * styled letters to the Latin letter that they pass for (UTS #39, see `confusables.ts`).
 */
import { LOOK_ALIKES, STYLED } from './confusables.ts'

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

export const LETTER = /^[\p{L}]/u
export const DIGIT = /^[0-9]/
const LATIN = /^\p{Script=Latin}/u
const MARKS = /\p{M}+/gu
export const MARK = /^\p{M}/u
export const BIDI = /^[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/
export const BIDI_OVERRIDE = /^[\u202d\u202e]/
// Default-ignorable characters that a text needs for nothing a card is described with. The soft hyphen is dropped but not
// reported: pages insert it for line breaks.
export const INVISIBLE =
  /^(?:\u00ad|\u034f|[\u115f\u1160]|[\u17b4\u17b5]|[\u180b-\u180d]|\u180e|[\u200b-\u200d]|[\u2060-\u2064]|[\u206a-\u206f]|\u3164|[\ufe00-\ufe0f]|\ufeff|\uffa0|[\ufff9-\ufffb]|[\u{e0000}-\u{e0fff}])/u

/** Folds one string the way tokens are folded; for keys, names and dictionary entries. */
export function foldText(text: string): string {
  let folded = ''
  for (const character of text) folded += foldCharacter(character).form
  return folded
}

export interface Folded {
  readonly form: string
  readonly kind: 'latin' | 'look-alike' | 'styled' | 'raised' | 'other'
}

const foldCache = new Map<string, Folded>()

export function foldCharacter(character: string): Folded {
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
