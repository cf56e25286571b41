/**
 * Amounts of money out of text, in every notation that shops use: `1.299,00 €`, `US $1,299.00`, `CHF 1'299.—`, `₹1,29,900`, `120,-`.
 * Offsets are UTF-16 offsets of the text as given. No arithmetic here, and no guess: a number whose notation is open gets the
 * reading that fits its digits, and a mark that several countries use says so (`assumed`).
 * Long because the scanner, the reading of digits and the mark beside them decide together what one amount is.
 */
import {
  type CurrencyEvidence,
  isCurrencyCode,
  isWordLikeCode,
  readCurrencyMark,
  usesThreeDecimals,
} from './currencies.ts'
import type { Money } from './money.ts'

export interface MoneyOptions extends CurrencyEvidence {
  /** The decimal separator, where the source states it. */
  readonly decimalSeparator?: '.' | ',' | '€' | null
}

export interface Amount {
  readonly money: Money
  /** The mark as it stands in the text, `null` for a bare number. */
  readonly mark: string | null
  /** The mark leaves the currency open and the commonest was taken. */
  readonly assumed: boolean
  /** The mark is also an ordinary word, unit or abbreviation (`KM`, `Ft`, `TOP`): needs other evidence. */
  readonly weak: boolean
  readonly negative: boolean
  /** First or second half of a range such as `$45,000 – 70,000`. */
  readonly range: 'low' | 'high' | null
  readonly start: number
  readonly end: number
}

export interface ParsedMoney {
  readonly money: Money
  readonly start: number
  readonly end: number
}

/** Marks that are also units or words; only a page whose other prices use them means money by them. */
const WEAK_MARKS = new Set([
  'Q',
  'R',
  'L.',
  'KM',
  'kn',
  'VT',
  'LE',
  'MK',
  'UM',
  'FG',
  'ZK',
  'Br',
  'Ft',
  'Nfk',
  'Fdj',
  'din',
  'lei',
  'leu',
  'Nu.',
  'Fr.',
  'TL',
  'RM',
  'KD',
  'Р',
  'р.',
  'CFA',
  'Bs',
  'T$',
  'VB',
])
/** Longest mark, in characters. */
const MARK_LENGTH = 8
/** More digits than any price has; longer runs are numbers of something else. */
const MAX_DIGITS = 16
const FREE = /^\s*(?:free|gratis|gratuit|kostenlos|umsonst|zu verschenken|無料|za darmo|grátis)\s*!?\s*$/iu
const SPACE = /[\s\u00a0\u202f\u2009\u2007]/
const IGNORABLE = /[\u200e\u200f\u061c\u2068\u2069\u200b\ufeff]/
const LETTER = /\p{L}/u
const RANGE_GAP = /^\s*(?:-|–|—|−|~|～|〜|to|bis|à|a|al|até|do|tot|and|und)\s*$/iu

/** Digits of any script become ASCII; offsets are kept through `offsets` where a digit takes two units. */
function foldDigits(text: string): { text: string; offsets: number[] | null } {
  if (!/[\u0660-\uffff]/.test(text)) return { text, offsets: null }
  if (!/[\p{Nd}\uff0c\uff0e]/u.test(text.replace(/[0-9]/g, ''))) return { text, offsets: null }
  let folded = ''
  const offsets: number[] = []
  let at = 0
  for (const char of text) {
    if (char > '9' && /\p{Nd}/u.test(char)) folded += digitValue(char.codePointAt(0)!)
    else if (char === '，') folded += ','
    else if (char === '．') folded += '.'
    else folded += char
    while (offsets.length < folded.length) offsets.push(at)
    at += char.length
  }
  offsets.push(at)
  return { text: folded, offsets }
}

/** Unicode keeps the ten digits of a script together, so the value is the place in the run. */
function digitValue(codePoint: number): number {
  let value = 0
  while (value < 60 && /\p{Nd}/u.test(String.fromCodePoint(codePoint - value - 1))) value += 1
  return value % 10
}

interface Numeral {
  start: number
  end: number
  groups: string[]
  separators: string[]
  /** `,-` or `.—` after the number: no decimals. */
  dashed: boolean
}

const isDigit = (char: string | undefined): boolean => char !== undefined && char >= '0' && char <= '9'

function digitsFrom(text: string, start: number): number {
  let at = start
  while (isDigit(text[at])) at += 1
  return at
}

function scanNumeral(text: string, start: number): Numeral {
  let at = digitsFrom(text, start)
  const groups = [text.slice(start, at)]
  const separators: string[] = []
  let dashed = false
  for (;;) {
    const char = text[at]
    if (char === undefined) break
    const next = digitsFrom(text, at + 1)
    const length = next - at - 1
    if (SPACE.test(char)) {
      const spacesOnly = separators.every((separator) => separator === ' ')
      const fits = length === 3 && spacesOnly && groups[0]!.length <= 3 && groups.slice(1).every((g) => g.length === 3)
      if (!fits) break
      separators.push(' ')
    } else if (/[.,'’‘`´٫٬·]/.test(char)) {
      if (length > 0) separators.push(/['’‘`´]/.test(char) ? "'" : char)
      else {
        // "119. 95" and "1.837, 32": a decimal part that a line break or a superscript moved away.
        const moved = /^[.,]\s(\d\d)(?![\d.,]|\s*%)/.exec(text.slice(at, at + 6))
        if (moved && !separators.includes(char)) {
          groups.push(moved[1]!)
          separators.push(char)
          at += 4
        } else {
          const dash = /^[.,]\s?(?:-{1,2}|–|—|−|―)/.exec(text.slice(at, at + 4))
          if (dash) {
            at += dash[0].length
            dashed = true
          }
        }
        break
      }
    } else break
    groups.push(text.slice(at + 1, next))
    at = next
  }
  return { start, end: at, groups, separators, dashed }
}

const localeDecimals = new Map<string, string>()
function decimalOf(locale: string): string {
  let decimal = localeDecimals.get(locale)
  if (decimal === undefined) {
    try {
      decimal = new Intl.NumberFormat(locale).formatToParts(1.5).find((part) => part.type === 'decimal')?.value ?? '.'
    } catch {
      decimal = ''
    }
    localeDecimals.set(locale, decimal)
  }
  return decimal
}

/** `null` where the digits fit no notation (a date, a version, a telephone number). */
function toDecimal(numeral: Numeral, currency: string | null, options: MoneyOptions): string | null {
  const { groups, separators } = numeral
  if (groups.join('').length > MAX_DIGITS && !options.currencyHint && currency === null) return null
  const last = separators.at(-1)
  let decimals = ''
  let whole = groups
  if (last !== undefined) {
    const tail = groups.at(-1)!
    const lastIsUnique = separators.indexOf(last) === separators.length - 1
    let isDecimal: boolean
    if (options.decimalSeparator) isDecimal = last === options.decimalSeparator
    else if (last === "'" || last === ' ' || last === '٬') isDecimal = false
    else if (last === '٫' || last === '·') isDecimal = true
    else if (!lastIsUnique) isDecimal = tail.length !== 3 && separators.length > 1
    else if (separators.length > 1) isDecimal = true
    else if (tail.length !== 3) isDecimal = true
    else {
      const head = groups[0]!
      const groupable = head.length <= 3 && head !== '0' && !/^0\d/.test(head)
      isDecimal =
        !groupable ||
        (usesThreeDecimals(currency) && (options.locale ? decimalOf(options.locale) || '.' : '.') === last)
    }
    if (isDecimal) {
      decimals = tail
      whole = groups.slice(0, -1)
    }
  }
  if (whole.length > 1) {
    const inner = whole.slice(1)
    const western = inner.every((group) => group.length === 3)
    const indian = inner.slice(0, -1).every((group) => group.length === 2) && inner.at(-1)!.length === 3
    const myriad = inner.every((group) => group.length === 4)
    if (!(western || indian || myriad || options.decimalSeparator) || whole[0]!.length > 4) return null
  }
  const integer = whole.join('').replace(/^0+(?=\d)/, '') || '0'
  return decimals ? `${integer}.${decimals}` : integer
}

interface Mark {
  readonly text: string
  readonly currency: string
  readonly assumed: boolean
  readonly start: number
  readonly end: number
}

function markBefore(text: string, end: number, from: number, options: MoneyOptions): Mark | null {
  let stop = end
  while (
    stop > from &&
    (SPACE.test(text[stop - 1]!) || /[:：+\-−–]/.test(text[stop - 1]!) || IGNORABLE.test(text[stop - 1]!))
  )
    stop -= 1
  if (end - stop > 3 || stop <= from) return null
  for (let length = Math.min(MARK_LENGTH, stop - from); length > 0; length -= 1) {
    const start = stop - length
    const candidate = text.slice(start, stop)
    if (SPACE.test(candidate[0]!) || isDigit(candidate[0])) continue
    if (LETTER.test(candidate[0]!) && start > 0 && (LETTER.test(text[start - 1]!) || isDigit(text[start - 1]))) continue
    const meaning = readCurrencyMark(candidate, options)
    if (meaning && fitsCase(candidate)) return { text: candidate, ...meaning, start, end: stop }
  }
  return null
}

function markAfter(text: string, start: number, options: MoneyOptions): Mark | null {
  let from = start
  while (from < text.length && (SPACE.test(text[from]!) || IGNORABLE.test(text[from]!))) from += 1
  if (from - start > 3) return null
  if (text[from] === '(') from += 1
  for (let length = Math.min(MARK_LENGTH, text.length - from); length > 0; length -= 1) {
    const end = from + length
    const candidate = text.slice(from, end)
    if (/[\s\u00a0]$/.test(candidate) || isDigit(candidate.at(-1))) continue
    if (
      LETTER.test(candidate.at(-1)!) &&
      end < text.length &&
      LETTER.test(text[end]!) &&
      !/[\u3040-\u30ff\u4e00-\u9fff]/.test(text[end]!)
    )
      continue
    const meaning = readCurrencyMark(candidate, options)
    if (meaning && fitsCase(candidate)) return { text: candidate, ...meaning, start: from, end }
  }
  return null
}

/** A code in small letters counts only where it is no word ("eur", "usd"); marks of one letter stay as written. */
function fitsCase(mark: string): boolean {
  if (!/^[A-Za-z]{1,3}$/.test(mark)) return true
  if (mark === mark.toUpperCase()) return true
  return /^(?:eur|usd|gbp|chf|aud|cad|Eur|Euro?|kr|Kr|zl|zł|Kc|Ft|ft|Rs|rs|Rp|rp|lei|Lei|leu|kn|Br|din|Bs|Nfk|Fdj|FBu|TSh|KSh|USh|SFr|sFr)$/.test(
    mark,
  )
}

/** Every amount of the text, in order; bare numbers too, with `mark: null`. */
export function findAmounts(source: string, options: MoneyOptions = {}): Amount[] {
  const { text, offsets } = foldDigits(source)
  const place = (at: number): number => (offsets ? (offsets[at] ?? source.length) : at)
  const found: Amount[] = []
  let consumed = 0
  let at = 0
  while (at < text.length) {
    const leadingPoint =
      text[at] === '.' &&
      isDigit(text[at + 1]) &&
      !isDigit(text[at - 1]) &&
      /[^\w\s]$|^$/.test(text.slice(0, at).slice(-1))
    if (!isDigit(text[at]) && !leadingPoint) {
      at += 1
      continue
    }
    const numeral = leadingPoint ? scanLeadingPoint(text, at) : scanNumeral(text, at)
    at = Math.max(numeral.end, at + 1)
    // "1.2k €", "12万円": the scale stands between number and mark.
    const inner = scaleAfter(text, numeral.end)
    let before = markBefore(text, numeral.start, consumed, options)
    let after = markAfter(text, inner?.end ?? numeral.end, options)
    const touchesNext = after !== null && after.start > numeral.end && isDigit(text[after.end])
    if (after && touchesNext) after = null
    if (before && after) {
      // "$1,190.00 AUD" and "US 80.00 $": the code says which; otherwise the second mark belongs to the next number.
      if (before.assumed && after.text.length === 3 && isCurrencyCode(after.text.toUpperCase()))
        before = { ...after, start: before.start }
      else after = null
    }
    const mark = before ?? after
    const previous = text[numeral.start - 1]
    const next = text[numeral.end]
    const scaled = inner !== null && mark !== null
    if (!mark) {
      const insideWord =
        (previous !== undefined && /[A-Za-zÀ-žа-яА-Я_#]/.test(previous)) ||
        (next !== undefined && /[A-Za-zÀ-ž_]/.test(next))
      if (insideWord || /^\s?[%‰]/.test(text.slice(numeral.end))) continue
    }
    if (/^\s?[%‰]/.test(text.slice(numeral.end)) && !before) continue
    const currency = mark?.currency ?? null
    let amount = toDecimal(numeral, currency ?? options.currencyHint ?? null, options)
    if (amount === null) continue
    let end = scaled ? inner.end : numeral.end
    if (after) end = after.end
    // "35€ 99": the mark stands where the separator would.
    const split =
      after && after.start === numeral.end && numeral.separators.length === 0
        ? splitByMark(text, after.end, options)
        : null
    if (split) {
      amount = `${amount}.${split.decimals}`
      end = split.end
      at = end
    }
    const scale = scaled ? inner : mark || options.currencyHint ? scaleAfter(text, end) : null
    if (scale) {
      amount = shiftPoint(amount, scale.power)
      end = Math.max(end, scale.end)
    }
    consumed = end
    const start = before && before.start < numeral.start ? before.start : numeral.start
    found.push({
      money: { amount, currency },
      mark: mark?.text ?? null,
      assumed: mark?.assumed ?? false,
      weak: mark !== null && isWeak(mark.text, numeral),
      negative:
        /(?:^|[\s(:])[-−–]\s?$/.test(text.slice(0, start)) && !/[\d€$£]\s?[-−–]\s?$/.test(text.slice(0, start))
          ? true
          : /^[-−]/.test(text.slice(before?.end ?? numeral.start, numeral.start).trim()),
      range: null,
      start: place(start),
      end: place(end),
    })
  }
  return joinRanges(source, found)
}

function isWeak(mark: string, numeral: Numeral): boolean {
  if (WEAK_MARKS.has(mark)) return true
  const decimals = numeral.separators.length > 0 && numeral.groups.at(-1)!.length === 2
  return isWordLikeCode(mark.toUpperCase()) && !decimals
}

function scanLeadingPoint(text: string, at: number): Numeral {
  const numeral = scanNumeral(text, at + 1)
  // ".75" is three quarters; ".75,333" and ".750.30" carry a stray point.
  if (numeral.separators.length === 0)
    return { ...numeral, start: at, groups: ['0', numeral.groups[0]!], separators: ['.'] }
  return { ...numeral, start: at }
}

function splitByMark(text: string, from: number, options: MoneyOptions): { decimals: string; end: number } | null {
  const pattern =
    options.decimalSeparator === '€' ? /^(\d+)(?![\d.,])/ : /^\s?(\d\d)(?![\d.,:]|\s?(?:[%€$£¥]|[A-Za-z]))/
  const match = pattern.exec(text.slice(from, from + 20))
  return match ? { decimals: match[1]!, end: from + match[0].length } : null
}

function scaleAfter(text: string, from: number): { power: number; end: number } | null {
  const match = /^(?:(k|K)(?![\p{L}\d])|\s?(M|Mio\.?|million|Million|millions)(?![\p{L}\d])|(万)(?!\d))/u.exec(
    text.slice(from, from + 10),
  )
  if (!match) return null
  return { power: match[1] ? 3 : match[2] ? 6 : 4, end: from + match[0].length }
}

function shiftPoint(amount: string, power: number): string {
  const [whole = '0', decimals = ''] = amount.split('.')
  const padded = decimals.padEnd(power, '0')
  const rest = padded.slice(power)
  const integer = (whole + padded.slice(0, power)).replace(/^0+(?=\d)/, '')
  return rest ? `${integer}.${rest}` : integer
}

/** "26 to 50 €", "$45,000 – 70,000": the half without a mark shares the other's. */
function joinRanges(source: string, amounts: Amount[]): Amount[] {
  for (let i = 0; i + 1 < amounts.length; i += 1) {
    const low = amounts[i]!
    const high = amounts[i + 1]!
    if (low.range === 'high' || (low.mark === null && high.mark === null)) continue
    if (!RANGE_GAP.test(source.slice(low.end, high.start))) continue
    if (Number(high.money.amount) < Number(low.money.amount)) continue
    if (low.mark !== null && high.mark !== null && low.money.currency !== high.money.currency) continue
    const giver = low.mark === null ? high : low
    const shared = { mark: giver.mark, assumed: giver.assumed, weak: giver.weak, negative: false }
    amounts[i] = { ...low, ...shared, money: { ...low.money, currency: giver.money.currency }, range: 'low' }
    amounts[i + 1] = { ...high, ...shared, money: { ...high.money, currency: giver.money.currency }, range: 'high' }
  }
  return amounts
}

/** Amounts with a mark. Where the text has none and `currencyHint` is given, bare numbers count in that money. */
export function parseAllMoney(text: string, options: MoneyOptions = {}): ParsedMoney[] {
  const amounts = findAmounts(text, options)
  const marked = amounts.filter((amount) => amount.mark !== null)
  if (marked.length > 0) return marked.map(({ money, start, end }) => ({ money, start, end }))
  return amounts.map(({ money, start, end }) => ({
    money: { ...money, currency: options.currencyHint ?? null },
    start,
    end,
  }))
}

/** The first amount of the text, or `null`. A number without any mark counts when nothing else does. */
export function parseMoney(text: string, options: MoneyOptions = {}): ParsedMoney | null {
  const all = parseAllMoney(text, options)
  if (all[0]) return all[0]
  if (FREE.test(text))
    return { money: { amount: '0', currency: options.currencyHint ?? null }, start: 0, end: text.length }
  return null
}

/** Equal in amount (as decimals, `12.5` = `12.50`), and in currency where both state one. */
export function isSameMoney(a: Money, b: Money): boolean {
  if (a.currency !== null && b.currency !== null && a.currency !== b.currency) return false
  const trim = (amount: string): string => (amount.includes('.') ? amount.replace(/\.?0+$/, '') : amount)
  return trim(a.amount) === trim(b.amount)
}
