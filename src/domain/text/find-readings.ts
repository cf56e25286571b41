/**
 * Other readings of a run of tokens: the word that spaced letters spell, the word behind leetspeak. For matching only; the tokens
 * themselves stay as they are.
 */
import { LETTER } from './fold-text.ts'
import type { Disguise, Reading, Token } from './normalise-text.ts'

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

export function findReadings(text: string, tokens: readonly Token[], disguises: Disguise[]): Map<number, Reading[]> {
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
    if (isMixed(token.form)) addLeet(token.form, index, index, add)
    // `repr!nt`, `f@ke`: a mark that is read as a letter, tight between two tokens.
    const marked = tokens[index + 1]
    if (
      marked !== undefined &&
      marked.separator !== ' ' &&
      marked.separator.length === 1 &&
      marked.separator in LEET_MARKS
    ) {
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

/** Letters and digits in one token. A look at each character, since this is asked of every token. */
function isMixed(form: string): boolean {
  let digits = false
  let letters = false
  for (let at = 0; at < form.length; at += 1) {
    const code = form.charCodeAt(at)
    if (code >= 0x30 && code <= 0x39) digits = true
    else if (code >= 0x61 && code <= 0x7a) letters = true
  }
  return digits && letters
}

function addLeet(form: string, first: number, last: number, add: (reading: Reading) => void): void {
  // Short forms and figures at the rim are numbers (`5sp`, `kvx10`), not letters in disguise. Ours.
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
