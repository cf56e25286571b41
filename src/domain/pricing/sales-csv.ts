/**
 * Finished sales from anybody's CSV file: first a survey of all rows, which says what is clear of the file and what has to be asked, then the
 * rows by a plan. A row that cannot be read without guessing is a fault with its line; the rest stands. Rows come one by one, so that
 * a file of any length needs no memory.
 */
import { isCurrencyCode } from '../currencies.ts'
import { parseTime } from '../parse-time.ts'
import type { Said, Sale } from '../valuation.ts'
import { CSV_FIELDS, type CsvColumns, type CsvField, guessColumns, REQUIRED_FIELDS } from './csv-columns.ts'
import { type DecimalMark, decimalMarkIn, parseAmount } from './parse-amount.ts'
import { saleId } from './sale-id.ts'
import { said } from './words.ts'

export type DateOrder = 'day-first' | 'month-first'

export interface CsvPlan {
  readonly columns: CsvColumns
  /** Cells in the header. */
  readonly width: number
  readonly decimal: DecimalMark | null
  /** `null`: dates must not leave day and month open. */
  readonly dateOrder: DateOrder | null
  /** For rows whose price names no currency; `null`: they stay without one. */
  readonly currency: string | null
  /** For rows without a venue. */
  readonly venue: string | null
  /** ISO 8601 date: later sales are faults. `null`: no such check. */
  readonly today: string | null
}

export interface CsvSurvey {
  readonly header: readonly string[]
  readonly columns: CsvColumns
  readonly rows: number
  /** Some rows, for a person to look at. */
  readonly sample: readonly (readonly string[])[]
  /** `open`: no row decides it, and some leave it open; `null`: no row needs it. */
  readonly decimal: DecimalMark | 'open' | null
  readonly dateOrder: DateOrder | 'open' | null
  /** A date that can be read two ways, as an example for the question. */
  readonly openDate: string | null
  readonly openPrice: string | null
  /** The currency codes and signs that the prices name themselves, or the currency column does. */
  readonly namesCurrency: boolean
}

const SAMPLE_ROWS = 5
const NUMERIC_DATE = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4})(?:\D|$)/

/** Looks at every row once. `add` takes the header first. @param columns the person's choice; absent: guessed. */
export function createCsvSurvey(columns?: CsvColumns): { add(row: readonly string[]): void; result(): CsvSurvey } {
  let header: readonly string[] | null = null
  let chosen: CsvColumns = {}
  let rows = 0
  const sample: (readonly string[])[] = []
  const decimals = new Set<string>()
  let dayFirst = false
  let monthFirst = false
  let openDate: string | null = null
  let openPrice: string | null = null
  let namesCurrency = false
  return {
    add(row) {
      if (header === null) {
        header = row.map((cell, i) => (i === 0 ? cell.replace(/^\ufeff/, '') : cell).trim())
        chosen = columns ?? guessColumns(header)
        return
      }
      if (row.every((cell) => cell.trim() === '')) return
      rows++
      if (sample.length < SAMPLE_ROWS) sample.push(row)
      const cell = (field: CsvField) => row[chosen[field] ?? -1]?.trim() ?? ''
      const date = NUMERIC_DATE.exec(cell('date'))
      if (date) {
        const [first, second] = [Number(date[1]), Number(date[2])]
        if (first > 12) dayFirst = true
        else if (second > 12) monthFirst = true
        else if (first !== second) openDate ??= cell('date')
      }
      const price = cell('price')
      const mark = decimalMarkIn(price)
      if (mark !== null) decimals.add(mark)
      if (mark === 'either') openPrice ??= price
      namesCurrency ||= cell('currency') !== '' || /[A-Za-z]{3}|[€£]/.test(price)
    },
    result() {
      const decimal = decimals.has('.') === decimals.has(',') ? null : decimals.has('.') ? '.' : ','
      const order = dayFirst === monthFirst ? null : dayFirst ? 'day-first' : 'month-first'
      return {
        header: header ?? [],
        columns: chosen,
        rows,
        sample,
        decimal: decimal ?? (openPrice !== null && decimals.size === 1 ? 'open' : null),
        dateOrder: order ?? (openDate !== null ? 'open' : null),
        openDate,
        openPrice,
        namesCurrency,
      }
    },
  }
}

export type CsvRow = { readonly sale: Sale; readonly line: number } | { readonly fault: Said; readonly line: number }

/** Fields that a plan lacks and no file can do without. */
export function missingFields(columns: CsvColumns): readonly CsvField[] {
  return REQUIRED_FIELDS.filter((field) => columns[field] === undefined)
}

/**
 * Reads the rows after the header, one by one. Keeps what every row was so that a repeated one is known.
 * @returns for each row its sale or its fault, `null` for an empty row. Line 1 is the header.
 */
export function createCsvReader(plan: CsvPlan, header: readonly string[]): (row: readonly string[]) => CsvRow | null {
  const lineOf = new Map<string, number>()
  let line = 1
  let consumed = lineBreaks(header)
  return (row) => {
    line = line + 1 + consumed
    consumed = lineBreaks(row)
    if (row.every((cell) => cell.trim() === '')) return null
    const read = row.length > plan.width ? { fault: said('fault.cells') } : readSale(row, plan)
    if ('fault' in read) return { line, fault: read.fault }
    const first = lineOf.get(read.id)
    if (first !== undefined) return { line, fault: said('fault.repeats', { line: first }) }
    lineOf.set(read.id, line)
    return { line, sale: read }
  }
}

function lineBreaks(row: readonly string[]): number {
  return row.join('').split(/\r\n|\r|\n/).length - 1
}

function readSale(row: readonly string[], plan: CsvPlan): Sale | { fault: Said } {
  const cell = (field: CsvField) => row[plan.columns[field] ?? -1]?.trim() || null
  const date = readDate(cell('date'), plan)
  if ('fault' in date) return date
  const title = cell('title')
  if (title === null) return { fault: said('fault.no-title') }
  const named = cell('currency')?.toUpperCase() ?? null
  if (named !== null && !isCurrencyCode(named)) return { fault: said('fault.currency', { text: named }) }
  const price = parseAmount(cell('price') ?? '', named ?? plan.currency, plan.decimal)
  if ('fault' in price) return price
  if (named !== null && price.sign !== null && price.sign !== named) {
    return { fault: said('fault.currencies', { sign: price.sign, currency: named }) }
  }
  const currency = named ?? price.sign ?? plan.currency
  const [venue, seller, url] = [cell('venue') ?? plan.venue, cell('seller'), cell('url')]
  const [premium, shipping, offer] = (['premium-included', 'shipping-included', 'best-offer'] as const).map((field) =>
    readYes(cell(field)),
  )
  return {
    id: saleId([date.date, title, price.amount, currency, venue, seller, url]),
    date: date.date,
    title,
    price: { amount: price.amount, currency },
    venue,
    seller,
    url,
    ...(premium == null ? {} : { premiumIncluded: premium }),
    ...(shipping == null ? {} : { shippingIncluded: shipping }),
    ...(offer ? { bestOffer: true } : {}),
  }
}

function readYes(text: string | null): boolean | null {
  if (text === null) return null
  if (/^(?:y|yes|j|ja|true|wahr|1|x)$/i.test(text)) return true
  return /^(?:n|no|nein|false|falsch|0|-)$/i.test(text) ? false : null
}

function readDate(text: string | null, { dateOrder, today }: CsvPlan): { date: string } | { fault: Said } {
  if (text === null) return { fault: said('fault.no-date') }
  const found = writtenDay(text, dateOrder)
  if ('fault' in found) return found
  const { date } = found
  const time = Date.parse(`${date}T00:00:00Z`)
  if (Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== date) {
    return { fault: said('fault.no-day', { text: date }) }
  }
  return today !== null && date > today ? { fault: said('fault.future', { text: date }) } : { date }
}

function writtenDay(text: string, order: DateOrder | null): { date: string } | { fault: Said } {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ].*)?$/.exec(text)
  const join = (year = '', month = '', day = '') => ({
    date: `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`,
  })
  if (iso) return join(iso[1], iso[2], iso[3])
  // With full stops the day comes first: common practice wherever they are used.
  const stops = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})(?:\D.*)?$/.exec(text)
  if (stops) return join(stops[3], stops[2], stops[1])
  const numeric = NUMERIC_DATE.exec(text)
  if (numeric) {
    const [, first = '', second = '', year = ''] = numeric
    if (order === 'day-first')
      return Number(second) > 12 ? { fault: said('fault.date-order', { text }) } : join(year, second, first)
    if (order === 'month-first')
      return Number(first) > 12 ? { fault: said('fault.date-order', { text }) } : join(year, first, second)
    return { fault: said('fault.date-form', { text }) }
  }
  if (/^\d{1,2}[./-]\d{1,2}[./-]\d{2}$/.test(text)) return { fault: said('fault.short-year', { text }) }
  // A month in words leaves nothing open, if the year is written too.
  const words =
    /\p{L}{3}/u.test(text) && /\b\d{4}\b/.test(text) ? parseTime(text, { now: '2000-01-01T12:00:00Z' }) : null
  return words === null ? { fault: said('fault.date-form', { text }) } : { date: words.iso.slice(0, 10) }
}

export function describeMissing(missing: readonly CsvField[]): Said {
  return said('fault.header', { columns: missing.join(', '), expected: CSV_FIELDS.slice(0, 7).join(',') })
}
