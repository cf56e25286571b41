/**
 * Points in time out of text: dates in nine languages, clock times with zones, spans from now, machine formats. Needs to be told
 * what "now" is; has no clock. Where a page names no zone, the language's or country's own is used, and that is said.
 * Long because its notations try the same text in a stated order and share their clock, zone and calendar checks.
 */
import { ownEntry } from './own-entry.ts'
import { AGO, DAY_WORDS, MONTHS, NAMED_ZONES, UNITS, ZONE_OF_PLACE, ZONES } from './time/time-words.ts'

export interface TimeOptions {
  /** ISO 8601; the moment of reading. */
  readonly now: string
  /** BCP 47 of the page: order of day and month, zone where none is named. */
  readonly locale?: string | null
  /** Which way a date without a year, and a plain span, points. */
  readonly direction?: 'future' | 'past'
}

export interface ParsedTime {
  /** ISO 8601 in UTC, or a date alone where the text gives no time of day. */
  readonly iso: string
  readonly dateOnly: boolean
  /** No zone is named: this one was assumed (`null` when nothing had to be). */
  readonly assumedZone: string | null
  readonly start: number
  readonly end: number
}

export interface ParsedDuration {
  readonly ms: number
  /** Smallest unit named, in ms: the answer is no more exact than this. */
  readonly unit: number
  readonly start: number
  readonly end: number
}

const monthByWord = new Map<string, number>()
MONTHS.forEach((words, month) => {
  for (const word of words) if (!monthByWord.has(word)) monthByWord.set(word, month + 1)
})
const unitByWord = new Map<string, number>()
for (const { ms, words } of UNITS) for (const word of words) unitByWord.set(word, ms)

const CLOCK =
  /^\W{0,3}(?:(?:at|um|à|a las|alle|ore|om|o godz|o|às|as|kl|,|-|–|um ca)\.?\s+)?(\d{1,2})(?:\s?[:h.時]\s?(\d{2}))(?:分)?(?:[:.](\d{2}))?(?:秒)?\s?(?:uhr|h\b)?\s?([ap]\.?\s?m\.?)?/
const HOUR_ONLY = /^\W{0,3}(?:(?:at|um|à|a las|alle|om|às|kl)\.?\s+)(\d{1,2})\s?(?:uhr|h\b|uur|(a\.?m\.?|p\.?m\.?))/

const DAY_WORD = new RegExp(`(?<![a-zß-öø-ɏͰ-῿])(?:${Object.keys(DAY_WORDS).join('|')})(?![a-zß-öø-ɏͰ-῿])`)

/**
 * Small letters at the same offsets. Patterns for small letters alone are built many times faster than ones that ignore case in all
 * of Unicode, and a page that is read once pays for the building.
 */
function lowerCase(text: string): string {
  const lower = text.toLowerCase()
  return lower.length === text.length
    ? lower
    : Array.from(text, (char) => (char.toLowerCase().length === char.length ? char.toLowerCase() : char)).join('')
}

/** "2d 4h", "3 Tage 5 Std. 12 Min.", "1j 02h", "残り2日4時間". Units must fall; a lone number is no span. */
export function parseDuration(text: string): ParsedDuration | null {
  const pattern = /(\d{1,4})\s?([a-zß-öø-ɏͰ-῿ぁ-鿿]+)\.?/g
  let ms = 0
  let unit = 0
  let start = -1
  let end = -1
  for (const match of text.toLowerCase().matchAll(pattern)) {
    const size = unitByWord.get(match[2]!) ?? cjkUnit(match[2]!)
    if (size === null) {
      if (start >= 0) break
      continue
    }
    // "5 t", "12 g" and "30 m" alone are weights and lengths; with a second unit beside them they are time.
    if (start >= 0 && (size >= unit || match.index - end > 6)) break
    if (start < 0) start = match.index
    end = match.index + match[0].length
    ms += Number(match[1]) * size
    unit = size
    const inner = cjkParts(match[2]!, text.slice(match.index))
    if (inner) {
      ms = inner.ms
      unit = inner.unit
      end = match.index + inner.length
      break
    }
  }
  if (start < 0) return null
  const plain = text.slice(start, end).trim()
  if (/^\d+\s?[a-z]\.?$/i.test(plain) && !/[dhDH]$/.test(plain)) return null
  return { ms, unit, start, end }
}

function cjkUnit(word: string): number | null {
  if (!/[日週時分秒]/.test(word)) return null
  const first = /^(週間|週|日間|日|時間|分|秒)/.exec(word)
  return first ? (unitByWord.get(first[1]!) ?? null) : null
}

/** Japanese writes the parts without spaces: the letters run on into the next number. */
function cjkParts(word: string, text: string): { ms: number; unit: number; length: number } | null {
  if (!/[日週時分秒]/.test(word)) return null
  let ms = 0
  let unit = 0
  let length = 0
  for (const match of text.matchAll(/(\d{1,4})\s?(週間|週|日間|日|時間|分|秒)(?:と|\s)*/gu)) {
    if (match.index !== length) break
    unit = unitByWord.get(match[2]!)!
    ms += Number(match[1]) * unit
    length = match.index + match[0].length
  }
  return unit === 0 ? null : { ms, unit, length }
}

export function parseTime(text: string, options: TimeOptions): ParsedTime | null {
  if (text.length > 400) return parseTime(text.slice(0, 400), options)
  return parseMachine(text) ?? parseDate(text, options) ?? parseRelative(text, options)
}

/** ISO 8601, RFC 2822 and epochs. */
function parseMachine(text: string): ParsedTime | null {
  const iso =
    /(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s?(Z|UTC|GMT|[+-]\d{2}:?\d{2})?)?/i.exec(
      text,
    )
  if (iso && isDate(Number(iso[1]), Number(iso[2]), Number(iso[3]))) {
    const [whole, year, month, day, hour, minute, second = '00', zone] = iso
    const start = iso.index
    if (hour === undefined)
      return { iso: `${year}-${month}-${day}`, dateOnly: true, assumedZone: null, start, end: start + whole.length }
    const named = zone === undefined ? zoneAfter(text.slice(start + whole.length)) : null
    const suffix =
      zone === undefined ? 'Z' : /^(?:Z|UTC|GMT)$/i.test(zone) ? 'Z' : zone.replace(/^([+-]\d{2})(\d{2})$/, '$1:$2')
    const at = Date.parse(`${year}-${month}-${day}T${hour}:${minute}:${second}${suffix}`)
    if (Number.isNaN(at)) return null
    const shifted = named ? at - named.minutes(at) * 60_000 : at
    return {
      iso: toIso(shifted),
      dateOnly: false,
      assumedZone: zone === undefined && !named ? 'UTC' : null,
      start,
      end: start + whole.length,
    }
  }
  const epoch = /^\s*(\d{10}|\d{13})\s*$/.exec(text)
  if (epoch) {
    const at = Number(epoch[1]) * (epoch[1]!.length === 10 ? 1000 : 1)
    return { iso: toIso(at), dateOnly: false, assumedZone: null, start: 0, end: text.length }
  }
  return null
}

interface DateParts {
  year: number | null
  month: number
  day: number
  start: number
  end: number
}

function parseDate(text: string, options: TimeOptions): ParsedTime | null {
  const parts = findDate(text, options)
  if (!parts) return null
  const now = Date.parse(options.now)
  const lower = lowerCase(text)
  const after = lower.slice(parts.end)
  let clock = readClock(after)
  let clockEnd = clock ? parts.end + clock.length : parts.end
  if (!clock) {
    // "20:00, 18 Nov 2026"
    const ahead =
      /(\d{1,2})[:h](\d{2})(?:[:.](\d{2}))?\s?([ap]\.?m\.?)?\s?(?:uhr|h)?[\s,–-]*(?:(?:on|am|le|el|il|op|em)\s+)?(?:[a-zß-öø-ɏͰ-῿]{2,12}\.?,?\s+)?$/.exec(
        lower.slice(0, parts.start),
      )
    if (ahead) clock = clockOf(ahead[1]!, ahead[2]!, ahead[3], ahead[4], ahead[0].length)
    clockEnd = parts.end
  }
  const year = parts.year ?? nearestYear(parts, now, options.direction ?? 'future')
  if (!isDate(year, parts.month, parts.day)) return null
  const date = `${year}-${String(parts.month).padStart(2, '0')}-${String(parts.day).padStart(2, '0')}`
  if (!clock) return { iso: date, dateOnly: true, assumedZone: null, start: parts.start, end: parts.end }
  const local = Date.UTC(year, parts.month - 1, parts.day, clock.hour, clock.minute, clock.second)
  const zone =
    zoneAfter(text.slice(clockEnd)) ??
    (clockEnd === parts.end ? zoneAfter(text.slice(0, parts.start).match(/[A-Z]{2,5}\s*[,)]?\s*$/)?.[0] ?? '') : null)
  if (zone)
    return {
      iso: toIso(local - zone.minutes(local) * 60_000),
      dateOnly: false,
      assumedZone: null,
      start: parts.start,
      end: clockEnd + zone.length,
    }
  const place = zoneOfLocale(options.locale)
  const minutes = place ? offsetMinutes(place, local) : 0
  return {
    iso: toIso(local - minutes * 60_000),
    dateOnly: false,
    assumedZone: place ?? 'UTC',
    start: parts.start,
    end: clockEnd,
  }
}

function findDate(source: string, options: TimeOptions): DateParts | null {
  const text = lowerCase(source)
  const cjk = /(?:(\d{4})\s?[年/]\s?)?(\d{1,2})\s?月\s?(\d{1,2})\s?日(?:\s?[（(].[）)])?/u.exec(text)
  if (cjk)
    return {
      year: cjk[1] ? Number(cjk[1]) : null,
      month: Number(cjk[2]),
      day: Number(cjk[3]),
      start: cjk.index,
      end: cjk.index + cjk[0].length,
    }
  // Day before month: "18. November 2026", "18 de noviembre de 2026", "1er janvier", "18th of Nov 2026", "18-Nov-26".
  for (const match of text.matchAll(
    /(?<![\d:.,])(\d{1,2})(?:\.|st|nd|rd|th|er|º|ª|°)?[\s-]{1,2}(?:de\s|of\s|d')?([a-zß-öø-ɏͰ-῿]{3,12})\.?(?:,?[\s-]{1,2}(?:de\s|del\s|of\s)?(\d{4}|'?\d{2}(?![\d:.hH])))?/g,
  )) {
    const month = monthByWord.get(match[2]!.toLowerCase())
    if (month)
      return {
        year: fullYear(match[3]),
        month,
        day: Number(match[1]),
        start: match.index,
        end: match.index + match[0].length,
      }
  }
  // Month before day: "Nov 18, 2026".
  for (const match of text.matchAll(
    /(?<![a-zß-öø-ɏͰ-῿])([a-zß-öø-ɏͰ-῿]{3,12})\.?[\s-]{1,2}(\d{1,2})(?:st|nd|rd|th)?(?![\d:])(?:,?\s{1,2}(\d{4}))?/g,
  )) {
    const month = monthByWord.get(match[1]!.toLowerCase())
    if (month)
      return {
        year: fullYear(match[3]),
        month,
        day: Number(match[2]),
        start: match.index,
        end: match.index + match[0].length,
      }
  }
  const slashed = /(?<![\d.,/])(\d{4})[/.](\d{1,2})[/.](\d{1,2})(?!\d)/.exec(text)
  if (slashed)
    return {
      year: Number(slashed[1]),
      month: Number(slashed[2]),
      day: Number(slashed[3]),
      start: slashed.index,
      end: slashed.index + slashed[0].length,
    }
  const numeric = /(?<![\d.,/-])(\d{1,2})([./-])(\d{1,2})(?:\2(\d{4}|\d{2})(?!\d)|\.(?=\s|$|,))/.exec(text)
  if (numeric) {
    const a = Number(numeric[1])
    const b = Number(numeric[3])
    const american =
      numeric[2] === '/' && /^en(?:-US|-PH|-CA)?$/i.test(options.locale ?? '') && b > 12
        ? true
        : numeric[2] === '/' && /^en-US|^en$/i.test(options.locale ?? '')
    const monthFirst = a <= 12 && (b > 12 || american)
    const start = numeric.index
    return {
      year: fullYear(numeric[4]),
      month: monthFirst ? a : b,
      day: monthFirst ? b : a,
      start,
      end: start + numeric[0].length,
    }
  }
  const named = DAY_WORD.exec(text)
  if (named) {
    const word = named[0].toLowerCase()
    const days = ownEntry(DAY_WORDS, word)
    // "Morgen" is tomorrow in German and in Dutch a morning: a time or the end of the words must follow.
    const open = word === 'morgen' && !/(?:^|\W)morgen\W*(?:um|om|,|\d|$)/i.test(text)
    if (days !== undefined && !open) {
      const place = zoneOfLocale(options.locale)
      const nowMs = Date.parse(options.now)
      const day = new Date(nowMs + (place ? offsetMinutes(place, nowMs) * 60_000 : 0) + days * 86_400_000)
      return {
        year: day.getUTCFullYear(),
        month: day.getUTCMonth() + 1,
        day: day.getUTCDate(),
        start: named.index,
        end: named.index + word.length,
      }
    }
  }
  return null
}

function fullYear(text: string | undefined): number | null {
  if (!text) return null
  const digits = text.replace(/\D/g, '')
  // Two digits: this century, since sales and deadlines are recent.
  return digits.length === 2 ? 2000 + Number(digits) : Number(digits)
}

function nearestYear(parts: DateParts, now: number, direction: 'future' | 'past'): number {
  const year = new Date(now).getUTCFullYear()
  const at = Date.UTC(year, parts.month - 1, parts.day)
  const day = 86_400_000
  if (direction === 'future') return at < now - 2 * day ? year + 1 : year
  return at > now + day ? year - 1 : year
}

interface Clock {
  hour: number
  minute: number
  second: number
  length: number
}

function clockOf(
  hour: string,
  minute: string | undefined,
  second: string | undefined,
  half: string | undefined,
  length: number,
): Clock | null {
  let h = Number(hour)
  const m = Number(minute ?? 0)
  const s = Number(second ?? 0)
  if (half) {
    const afternoon = /^p/i.test(half)
    if (h > 12) return null
    h = (h % 12) + (afternoon ? 12 : 0)
  }
  return h > 23 || m > 59 || s > 59 ? null : { hour: h, minute: m, second: s, length }
}

function readClock(after: string): Clock | null {
  const exact = CLOCK.exec(after)
  if (exact) return clockOf(exact[1]!, exact[2], exact[3], exact[4], exact[0].length)
  const plain = HOUR_ONLY.exec(after)
  if (plain) return clockOf(plain[1]!, undefined, undefined, plain[2], plain[0].length)
  const half = /^\W{0,3}(?:at\s+)?(\d{1,2})\s?(a\.?m\.?|p\.?m\.?)(?![a-zß-öø-ɏͰ-῿])/.exec(after)
  return half ? clockOf(half[1]!, undefined, undefined, half[2], half[0].length) : null
}

interface Zone {
  /** Minutes ahead of UTC at a local time given as if it were UTC. */
  minutes(local: number): number
  length: number
}

function zoneAfter(text: string): Zone | null {
  const iana = /^\s*\(?\s*((?:Europe|America|Asia|Australia|Pacific|Africa|Atlantic)\/[A-Za-z_]+)/.exec(text)
  if (iana) return { minutes: (local) => offsetMinutes(iana[1]!, local), length: iana[0].length }
  const offset = /^\s*[([]?\s*(?:UTC|GMT|Z)?\s?([+\-−])\s?(\d{1,2})(?::?(\d{2}))?(?!\d)/.exec(text)
  if (offset) {
    const minutes = (offset[1] === '+' ? 1 : -1) * (Number(offset[2]) * 60 + Number(offset[3] ?? 0))
    return Math.abs(minutes) <= 14 * 60 ? { minutes: () => minutes, length: offset[0].length } : null
  }
  const letters = /^\s*[([,]?\s*([A-Z]{1,5})\b/.exec(text)
  if (letters) {
    const named = ownEntry(NAMED_ZONES, letters[1]!)
    if (named) return { minutes: (local) => offsetMinutes(named, local), length: letters[0].length }
    const hours = ownEntry(ZONES, letters[1]!)
    if (hours !== undefined) return { minutes: () => hours * 60, length: letters[0].length }
  }
  return null
}

function zoneOfLocale(locale: string | null | undefined): string | null {
  if (!locale) return null
  const [language = '', ...rest] = locale.split(/[-_]/)
  const region = rest.find((part) => /^[A-Za-z]{2}$/.test(part))?.toUpperCase()
  if (region) return ownEntry(ZONE_OF_PLACE, region) ?? null
  return ownEntry(ZONE_OF_PLACE, language.toLowerCase()) ?? null
}

const formats = new Map<string, Intl.DateTimeFormat | null>()

/** Minutes that a zone is ahead of UTC at a local time given as if it were UTC. */
export function offsetMinutes(zone: string, local: number): number {
  let format = formats.get(zone)
  if (format === undefined) {
    try {
      format = new Intl.DateTimeFormat('en-US', {
        timeZone: zone,
        hourCycle: 'h23',
        year: 'numeric',
        month: 'numeric',
        day: 'numeric',
        hour: 'numeric',
        minute: 'numeric',
      })
    } catch {
      format = null
    }
    formats.set(zone, format)
  }
  if (!format) return 0
  const offsetAt = (instant: number): number => {
    const part = Object.fromEntries(format.formatToParts(instant).map(({ type, value }) => [type, Number(value)]))
    return Math.round(
      (Date.UTC(part.year!, part.month! - 1, part.day, part.hour, part.minute) -
        Math.floor(instant / 60_000) * 60_000) /
        60_000,
    )
  }
  // Twice, since the first guess may lie on the other side of a change of the clocks.
  const first = offsetAt(local)
  return offsetAt(local - first * 60_000)
}

function parseRelative(text: string, options: TimeOptions): ParsedTime | null {
  const span = parseDuration(text)
  if (!span) return null
  const past = AGO.test(text) || options.direction === 'past'
  const at = Date.parse(options.now) + (past ? -span.ms : span.ms)
  if (Number.isNaN(at)) return null
  const iso = toIso(at)
  const dateOnly = span.unit >= 86_400_000 && past
  return { iso: dateOnly ? iso.slice(0, 10) : iso, dateOnly, assumedZone: null, start: span.start, end: span.end }
}

function isDate(year: number, month: number, day: number): boolean {
  if (year < 1990 || year > 2100 || month < 1 || month > 12 || day < 1) return false
  return day <= new Date(Date.UTC(year, month, 0)).getUTCDate()
}

function toIso(at: number): string {
  if (!Number.isFinite(at) || Math.abs(at) > 8.64e15) return ''
  return new Date(at).toISOString().replace('.000Z', 'Z')
}
