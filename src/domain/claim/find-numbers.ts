/**
 * Card numbers (`#208`, `No. 208`, `208/240`) and serial numbering (`17/25`, `/99`, `numbered to 50`), told apart from each other
 * and from lots, jersey numbers, centering, sizes, dates and marks out of ten.
 */

import type { Match } from '../text/match-phrases.ts'
import { GAP } from '../text/normalise-text.ts'
import { between, isJoined, type Reading, type Span } from './reading.ts'

export interface FoundNumber extends Span {
  readonly value: string
  /** 3 by a sign or label, 2 as a part of a set, 1 by the bare noun "card". */
  readonly quality: 1 | 2 | 3
}

export interface FoundSerial extends Span {
  readonly number: number | null
  readonly of: number
}

export interface NumbersInText {
  readonly numbers: readonly FoundNumber[]
  readonly serials: readonly FoundSerial[]
  /** `#1-48`: several cards. */
  readonly ranges: readonly Span[]
}

export interface NumberContext {
  /** First year of the card, `null` where none is stated. */
  readonly year: number | null
  /** Tokens that are explained already. */
  readonly taken: ReadonlySet<number>
  /** Autograph, relic or parallel words stand in the text. */
  readonly modern: boolean
}

/** Usual runs of serially numbered cards; common practice, no source. */
const SERIAL_RUNS = new Set([
  1, 2, 3, 5, 8, 10, 15, 20, 25, 30, 35, 40, 49, 50, 60, 65, 70, 75, 80, 85, 90, 99, 100, 125, 149, 150, 175, 199, 200,
  225, 249, 250, 275, 299, 300, 349, 350, 399, 400, 450, 499, 500, 599, 650, 699, 700, 750, 799, 899, 900, 999, 1000,
  1250, 1500, 1999, 2000, 2500, 5000,
])
/** Serial numbering came up around 1990 [from memory]; before it a fraction is a place in a set. */
const FIRST_SERIAL_YEAR = 1988
/** Largest set that a card number is read against. Ours. */
const LARGEST_SET = 1500

const NUMBER_TEXT =
  /^(?:[A-Z]{1,5}-?)?[0-9]{1,4}[A-Za-z]?(?![A-Za-z0-9])|^[A-Z]{1,4}-[A-Z]{1,4}[0-9]{0,4}(?![A-Za-z0-9])/

export function findNumbers(reading: Reading, context: NumberContext): NumbersInText {
  const numbers: FoundNumber[] = []
  const serials: FoundSerial[] = []
  const ranges: Span[] = []
  const { tokens } = reading
  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index]
    if (token === undefined || context.taken.has(index)) continue
    if (!hasDigit(token.form)) {
      // `#T-14`: letters that a hyphen ties to figures, or a sign before them.
      if (token.form.length > 5 || (tokens[index + 1]?.separator !== '-' && !token.separator.endsWith('#'))) continue
      const lettered = readNumber(reading, index)
      if (lettered === null) continue
      numbers.push(lettered)
      index = lettered.last
      continue
    }
    const fraction = readFraction(reading, index)
    if (fraction !== null) {
      judgeFraction(reading, index, fraction, context, numbers, serials)
      index = fraction.last
      continue
    }
    const glued = readGluedLabel(reading, index)
    if (glued !== null) {
      numbers.push(glued)
      continue
    }
    const slashed = readSlashed(reading, index)
    if (slashed !== null) {
      serials.push(slashed)
      continue
    }
    const limited = readLimited(reading, index)
    if (limited !== null) {
      serials.push(limited)
      continue
    }
    const range = readRange(reading, index)
    if (range !== null) {
      ranges.push(range)
      index = range.last
      continue
    }
    const number = readNumber(reading, index)
    if (number !== null) {
      numbers.push(number)
      index = number.last
    }
  }
  return { numbers, serials, ranges }
}

function hasDigit(form: string): boolean {
  for (let at = 0; at < form.length; at += 1) {
    const code = form.charCodeAt(at)
    if (code >= 0x30 && code <= 0x39) return true
  }
  return false
}

interface Fraction extends Span {
  readonly upper: number
  readonly lower: number
  readonly padded: boolean
  readonly bySlash: boolean
}

function readFraction(reading: Reading, index: number): Fraction | null {
  const { tokens } = reading
  const token = tokens[index]
  const next = tokens[index + 1]
  if (token === undefined || next === undefined || !/^[0-9]{1,4}$/.test(token.form)) return null
  if (/^ ?[/⁄] ?$/.test(next.separator) && /^[0-9]{1,4}$/.test(next.form)) {
    if (tokens[index + 2]?.separator === '/' || token.separator.endsWith('/')) return null
    return {
      first: index,
      last: index + 1,
      upper: Number(token.form),
      lower: Number(next.form),
      padded: /^0/.test(token.form),
      bySlash: true,
    }
  }
  const after = tokens[index + 2]
  if (
    after !== undefined &&
    /^(of|von|sur|de|di|su|aus)$/.test(next.form) &&
    next.gapBefore === GAP.joined &&
    after.gapBefore === GAP.joined &&
    /^[0-9]{1,4}$/.test(after.form)
  )
    return {
      first: index,
      last: index + 2,
      upper: Number(token.form),
      lower: Number(after.form),
      padded: false,
      bySlash: false,
    }
  return null
}

function judgeFraction(
  reading: Reading,
  index: number,
  fraction: Fraction,
  context: NumberContext,
  numbers: FoundNumber[],
  serials: FoundSerial[],
): void {
  const { upper, lower, padded } = fraction
  const { tokens, text } = reading
  if (upper > lower || lower === 0) return
  const token = tokens[index]
  const sign = between(reading, index)
  const labelled = sign.endsWith('#') || numberLabelBefore(reading, index) !== null
  const noun = reading.endingAt('label:card-noun', index - 1) !== null && isJoined(reading, index)
  const serial =
    (reading.endingAt('label:serial', index - 1) !== null &&
      numberLabelBefore(reading, index) === null &&
      (isJoined(reading, index) || /^[:#]*$/.test(sign))) ||
    (isJoined(reading, fraction.last + 1) && reading.startingAt('label:serial', fraction.last + 1) !== null) ||
    reading.endingAt('label:serial-of', index - 1) !== null
  if (otherLabelBefore(reading, index)) return
  if (isCentering(reading, index, fraction) || isSize(text.original, tokens[fraction.last]?.end ?? 0, lower)) return
  // Marks out of ten or five ("condition 9/10") are no numbering unless something says so.
  if ((lower === 10 || lower === 5) && !serial && !labelled && !padded && !context.modern) return
  if (!fraction.bySlash && !labelled && !noun && !(upper === 1 && lower === 1) && !serial) {
    // "2 of 5 cards", "1 of 3 known"
    if (reading.startingAt('label:count-noun', fraction.last + 1) !== null) return
    if (lower < 20) return
  }
  const span = { first: fraction.first, last: fraction.last }
  if (serial || padded || (upper === 1 && lower === 1)) {
    serials.push({ ...span, number: upper, of: lower })
    return
  }
  const vintage = context.year !== null && context.year < FIRST_SERIAL_YEAR
  const strongLabel = numberLabelBefore(reading, index) !== null || (noun && !context.modern)
  const asSet = {
    ...span,
    value: token?.form ?? String(upper),
    quality: strongLabel || sign.endsWith('#') ? 3 : 2,
  } as const
  // "#45/60" alone is either.
  if (sign.endsWith('#') && context.year === null && !context.modern) return
  if (strongLabel || vintage || !fraction.bySlash) numbers.push(asSet)
  else if (SERIAL_RUNS.has(lower) && (context.year !== null || context.modern || lower < 100 || !labelled)) {
    serials.push({ ...span, number: upper, of: lower })
  } else if (lower <= LARGEST_SET && lower >= 20) numbers.push(asSet)
}

function isCentering(reading: Reading, index: number, { upper, lower, last }: Fraction): boolean {
  for (let at = Math.max(0, index - 3); at < index; at += 1)
    if (reading.startingAt('label:centering', at) !== null) return true
  for (let at = last + 1; at <= last + 2; at += 1) if (reading.startingAt('label:centering', at) !== null) return true
  // 60/40, 55/45: the larger share first, both together a hundred.
  return upper + lower === 100 && upper >= 50
}

function isSize(original: string, end: number, lower: number): boolean {
  return [2, 4, 8, 16, 32].includes(lower) && /^\s?(?:"|″|''|in\b|inch|x\b|×)/i.test(original.slice(end, end + 6))
}

/** `/99`, `#/99`, `#'d /99`. */
function readSlashed(reading: Reading, index: number): FoundSerial | null {
  const token = reading.tokens[index]
  if (token === undefined || !/^[0-9]{1,4}$/.test(token.form) || /^0/.test(token.form)) return null
  const before = reading.text.original.slice(Math.max(0, token.start - 3), token.start)
  if (!/(?:^|[\s#(dD'’])\/\s?$/.test(before)) return null
  if (/^[/.-]\d/.test(reading.text.original.slice(token.end, token.end + 2))) return null
  return { first: index, last: index, number: null, of: Number(token.form) }
}

/** `numbered to 50`, `limitiert auf 100`. */
function readLimited(reading: Reading, index: number): FoundSerial | null {
  const token = reading.tokens[index]
  if (token === undefined || !/^[1-9][0-9]{0,3}$/.test(token.form) || !isJoined(reading, index)) return null
  if (reading.endingAt('label:serial-of', index - 1) === null) return null
  return { first: index, last: index, number: null, of: Number(token.form) }
}

/** `#1-48`, `Nr. 1–60`. */
function readRange(reading: Reading, index: number): Span | null {
  const token = reading.tokens[index]
  const next = reading.tokens[index + 1]
  if (token === undefined || next === undefined) return null
  if (!/^[0-9]{1,3}$/.test(token.form) || !/^[0-9]{1,4}$/.test(next.form) || !/^ ?[-–—] ?#?$/.test(next.separator))
    return null
  const labelled = between(reading, index).endsWith('#') || numberLabelBefore(reading, index) !== null
  return labelled && Number(next.form) > Number(token.form) ? { first: index, last: index + 1 } : null
}

/** `nº22`, `Nr22`: the sign and the number in one token. */
function readGluedLabel(reading: Reading, index: number): FoundNumber | null {
  const value = /^(?:n[ºo°]|nr)([0-9]{1,4}[a-z]?)$/i.exec(reading.raw(index))?.[1]
  return value === undefined ? null : { first: index, last: index, value, quality: 3 }
}

function numberLabelBefore(reading: Reading, index: number): Match | null {
  if (!isJoined(reading, index) && !/^[.:°º#]+$/.test(between(reading, index))) return null
  const label = reading.endingAt('label:card-number', index - 1)
  if (label === null) return null
  // A single letter is a label only with a sign behind it: "N. 14", "n° 14".
  if (
    reading.tokens[label.last]?.form === 'n' &&
    label.first === label.last &&
    !/[.°º:]/.test(reading.tokens[index]?.separator ?? '')
  )
    return /[°º]/.test(reading.raw(label.last)) ? label : null
  return label
}

function otherLabelBefore(reading: Reading, index: number): boolean {
  for (const list of ['label:other-number', 'label:certificate']) {
    const label = reading.endingAt(list, index - 1)
    if (label === null) continue
    const own = reading.endingAt('label:card-number', index - 1)
    if (own !== null && own.first <= label.first) continue
    const single = label.first === label.last
    // "Series 14 Odo", "page 5": by a sign or directly.
    if (isJoined(reading, index) || /^[#:.]+$/.test(between(reading, index))) {
      if (single && /^(s|p|cards|karten|cromos|carte|figurine)$/.test(label.phrase) && between(reading, index) !== '')
        continue
      return true
    }
  }
  return false
}

function readNumber(reading: Reading, index: number): FoundNumber | null {
  const token = reading.tokens[index]
  if (token === undefined) return null
  const { original } = reading.text
  const sign = /#\s?$/.test(original.slice(Math.max(0, token.start - 2), token.start))
  const label = numberLabelBefore(reading, index)
  const noun = reading.endingAt('label:card-noun', index - 1)
  if (!sign && label === null && noun === null) return null
  if (otherLabelBefore(reading, index)) return null
  const written = NUMBER_TEXT.exec(original.slice(token.start, token.start + 14))?.[0]
  if (written === undefined || !/[0-9]|^[A-Z]+-[A-Z]+$/.test(written)) return null
  if (!/[0-9]/.test(written) && !sign) return null
  let last = index
  while ((reading.tokens[last]?.end ?? 0) < token.start + written.length && last + 1 < reading.tokens.length) last += 1
  if ((reading.tokens[last]?.end ?? 0) !== token.start + written.length) return null
  if (/^\s?[%€$£]/.test(original.slice(token.start + written.length, token.start + written.length + 2))) return null
  const follows = original.slice(token.start + written.length, token.start + written.length + 2)
  if (/^[.,]\d/.test(follows)) return null
  const joinedNext = isJoined(reading, last + 1)
  // "#1 fan", "No. 1 draft pick"
  if (/^[1-9]$/.test(written) && joinedNext && reading.startingAt('label:hype-number', last + 1) !== null) return null
  const plainLabel = label !== null && /^(no|numero|number|n)$/.test(label.phrase) && !/[.:°º#]/.test(token.separator)
  if (
    !sign &&
    (plainLabel || label === null) &&
    joinedNext &&
    reading.startingAt('label:count-noun', last + 1) !== null
  )
    return null
  if (sign || label !== null) return { first: index, last, value: written, quality: 3 }
  if (!/^[0-9]{1,3}[a-z]?$/.test(written) || !isJoined(reading, index)) return null
  // "card 8 auto 10": grades of both.
  if (/^auto(?:graph)?$/.test(reading.tokens[last + 1]?.form ?? '')) return null
  return { first: index, last, value: written, quality: 1 }
}
