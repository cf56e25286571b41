/**
 * Years and season spans: `1931`, `1931-32`, `1909–11`, `31/32`, `'58`. The year of a reprint, a birth, a grading, a price or a
 * size is not the card's.
 */
import { GAP } from '../text/normalise-text.ts'
import { between, isJoined, type Reading, type Span } from './reading.ts'

export interface FoundYear extends Span {
  readonly value: string
  /** Stands beside words of a reprint: the card's own only if there is no other. */
  readonly ofReprint: boolean
}

/** No cards were issued before the 1850s [from memory]; the upper end leaves room for dates to come. */
const YEAR = /^(1[89][0-9]{2}|20[0-4][0-9])$/
/** Longest issue that is dated by a span, in years (tobacco issues ran over two or three). Ours. */
const LONGEST_ISSUE = 5
const CURRENCY_BEFORE = /[$€£¥]\s?$/
const CURRENCY_AFTER = /^\s?[$€£¥]|^\s?(?:eur|euro|usd|gbp|chf|cad|aud|mm|px|dpi|kg|cm|ml|g|ct|pcs|stück|stk)\b/i

/** @param running in running text a year needs a word of issue in its sentence and none of somebody's biography. */
export function findYears(reading: Reading, running: boolean): FoundYear[] {
  const { tokens, text } = reading
  const found: FoundYear[] = []
  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index]
    if (token === undefined || token.form.length !== 4 || !YEAR.test(token.form)) continue
    const before = text.original.slice(Math.max(0, token.start - 3), token.start)
    const after = text.original.slice(token.end, token.end + 7)
    const separator = between(reading, index)
    if (/#\s?$/.test(before) || CURRENCY_BEFORE.test(before) || CURRENCY_AFTER.test(after)) continue
    if (/[/.:-]$/.test(separator) && /[0-9]$/.test(tokens[index - 1]?.form ?? '') && token.separator.length === 1)
      continue
    if (isNumbered(reading, index)) continue
    const span = readSpan(reading, index)
    const last = span?.last ?? index
    const explained = reading.endingAt('label:year-no', index - 1)
    if (explained !== null && isJoined(reading, index)) {
      index = last
      continue
    }
    if (/^(1800|1900|2000)$/.test(token.form) && reading.startingAt('label:count-noun', index + 1) !== null) continue
    if (running && !isOfIssue(reading, index)) {
      index = last
      continue
    }
    found.push({ first: index, last, value: span?.value ?? token.form, ofReprint: isOfReprint(reading, index, last) })
    index = last
  }
  if (found.length === 0 && !running) {
    const short = findShortSeason(reading) ?? findShortYear(reading)
    if (short !== null) found.push(short)
  }
  return found
}

function isOfIssue(reading: Reading, index: number): boolean {
  if (reading.hasInSentence('label:year-away', index)) return false
  return reading.hasInSentence('label:year-yes', index) || isInHeading(reading, index)
}

/** Sentences of a description that may name the card as a title does; ours, a greeting may stand first. */
const HEADING_SENTENCES = 2
/** Tokens between a year and the card number beside it; ours. */
const NUMBER_REACH = 4

/** "Odo Marrable, Skerryball Stars, 1931, No. 1.": a year set off in a first sentence of names, or near a card number. */
function isInHeading(reading: Reading, index: number): boolean {
  const { tokens } = reading
  const token = tokens[index]
  if (token === undefined || token.sentence >= HEADING_SENTENCES) return false
  for (let at = index + 1; at <= index + NUMBER_REACH; at += 1) {
    const next = tokens[at]
    if (next === undefined || next.sentence !== token.sentence) break
    if (
      /^[0-9]{1,4}[a-z]?$/.test(next.form) &&
      (next.separator.endsWith('#') || reading.endingAt('label:card-number', at - 1) !== null)
    )
      return true
  }
  if (token.sentence > 0) return false
  const isName = (at: number): boolean =>
    tokens[at]?.sentence === token.sentence && /^\p{Lu}\p{L}+$/u.test(reading.raw(at))
  const next = tokens[index + 1]
  const ends = next === undefined || next.gapBefore >= GAP.clause
  const opens = index === 0 || (token.gapBefore >= GAP.clause && between(reading, index) !== ':')
  // "1931 Skerryball Stars …" opens it, "…, Skerryball Stars 1931." closes it, behind two names at least.
  if (opens && isName(index + 1) && isName(index + 2)) return true
  return ends && isName(index - 1) && isName(index - 2)
}

function readSpan(reading: Reading, index: number): { value: string; last: number } | null {
  const token = reading.tokens[index]
  const next = reading.tokens[index + 1]
  if (token === undefined || next === undefined) return null
  const separator = next.separator
  if (!/^(?: ?[-–—‐‑] ?|\/)$/.test(separator)) return null
  const start = Number(token.form)
  const spaced = separator.length > 1
  let end: number
  if (/^[0-9]{2}$/.test(next.form)) end = Math.floor(start / 100) * 100 + Number(next.form)
  else if (YEAR.test(next.form)) end = Number(next.form)
  else return null
  if (end < start && next.form.length === 2) end += 100
  const length = end - start
  if (length < 1 || length > (spaced || separator === '/' ? 1 : LONGEST_ISSUE)) return null
  return { value: `${token.form}${separator === '/' ? '/' : '-'}${next.form}`, last: index + 1 }
}

/** "Nr. 1952", "item 1999": a number by its label. "Card 1931" and "series 1958" stay years. */
function isNumbered(reading: Reading, index: number): boolean {
  if (!isJoined(reading, index) && between(reading, index) !== ':' && between(reading, index) !== '.:') return false
  const number = reading.endingAt('label:card-number', index - 1)
  const other = reading.endingAt('label:other-number', index - 1)
  const certificate = reading.endingAt('label:certificate', index - 1)
  return (
    number !== null ||
    certificate !== null ||
    (other !== null && (other.last > other.first || /^(item|order|sku|ref|inv|stock|artikelnummer)/.test(other.phrase)))
  )
}

function isOfReprint(reading: Reading, first: number, last: number): boolean {
  return (
    (isJoined(reading, last + 1) && reading.startingAt('reprint:stated', last + 1) !== null) ||
    (isJoined(reading, first) &&
      (reading.endingAt('reprint:stated', first - 1) !== null ||
        (/^(in|from|of|von|de|del|du|di)$/.test(reading.tokens[first - 1]?.form ?? '') &&
          reading.endingAt('reprint:stated', first - 2) !== null &&
          !/^of$/.test(reading.tokens[first - 1]?.form ?? ''))))
  )
}

/** First half of a season that needs no word beside it: smaller ones number a card in a set. Ours. */
const FIRST_SEASON = 30

/** `31/32` as a season: the second number is the next year, and it opens the text or follows the word season. */
function findShortSeason(reading: Reading): FoundYear | null {
  const { tokens } = reading
  for (let index = 0; index + 1 < tokens.length && index < 40; index += 1) {
    const token = tokens[index]
    const next = tokens[index + 1]
    if (token === undefined || next === undefined) return null
    if (!/^[0-9]{2}$/.test(token.form) || !/^[0-9]{2}$/.test(next.form)) continue
    if (next.separator !== '/' && next.separator !== '-' && next.separator !== '–') continue
    if ((Number(token.form) + 1) % 100 !== Number(next.form)) continue
    if (/[#/]/.test(token.separator) || tokens[index + 2]?.separator === '/') continue
    const before = tokens[index - 1]?.form ?? ''
    const opens =
      index === 0 ||
      /^(season|saison|temporada|stagione|serie)$/.test(before) ||
      // Behind the set's name two halves of a season, no part of it: "Tidal League 58/59 No. 25".
      (next.separator === '/' &&
        Number(token.form) >= FIRST_SEASON &&
        reading.endingAt('set:series-end', index - 1) !== null)
    if (!opens) continue
    return {
      first: index,
      last: index + 1,
      value: `${token.form}${next.separator === '/' ? '/' : '-'}${next.form}`,
      ofReprint: false,
    }
  }
  return null
}

/** `'58`: an apostrophe and two digits. Before 30 the century is open. Ours: vintage cards begin to be dated so from 1930 on. */
function findShortYear(reading: Reading): FoundYear | null {
  for (let index = 0; index < reading.tokens.length && index < 40; index += 1) {
    const token = reading.tokens[index]
    if (token === undefined || !/^[3-9][0-9]$/.test(token.form)) continue
    const before = reading.text.original.slice(Math.max(0, token.start - 2), token.start)
    if (/^(?:\s|^)?['’‘]$/.test(before) && (before.length === 1 ? token.start === 1 : /^\s/.test(before)))
      return { first: index, last: index, value: `19${token.form}`, ofReprint: false }
  }
  return null
}
