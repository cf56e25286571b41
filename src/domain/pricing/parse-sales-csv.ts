/**
 * Finished sales from a CSV file with the header `date,title,price,currency,venue,seller,url`, in any order, any delimiter.
 * A line that cannot be read without guessing is reported and left out; the rest stands.
 */
import Papa from 'papaparse'
import { isCurrencyCode } from '../currencies.ts'
import type { Sale } from '../valuation.ts'
import { parseAmount } from './parse-amount.ts'
import { saleId } from './sale-id.ts'

export interface SalesFault {
  /** 1 is the header. */
  readonly line: number
  readonly fault: string
}

const COLUMNS = ['date', 'title', 'price', 'currency', 'venue', 'seller', 'url'] as const
const REQUIRED: readonly Column[] = ['date', 'title', 'price']
type Column = (typeof COLUMNS)[number]

export function parseSalesCsv(text: string): { sales: Sale[]; faults: SalesFault[] } {
  const parsed = Papa.parse(text.replace(/^\ufeff/, ''), { delimitersToGuess: [',', ';', '\t', '|'] })
  const [header = [], ...rows] = parsed.data as string[][]
  const places = new Map<Column, number>()
  for (const column of COLUMNS) {
    const place = header.findIndex((name) => name.trim().toLowerCase() === column)
    if (place >= 0) places.set(column, place)
  }
  const missing = REQUIRED.filter((column) => !places.has(column))
  if (missing.length > 0) {
    return {
      sales: [],
      faults: [{ line: 1, fault: `the header lacks ${missing.join(', ')}; expected ${COLUMNS.join(',')}` }],
    }
  }

  const sales: Sale[] = []
  const faults: SalesFault[] = []
  const lineOf = new Map<string, number>()
  let line = 1
  let consumed = header.join('').split('\n').length - 1
  for (const row of rows) {
    line = line + 1 + consumed
    consumed = row.join('').split(/\r\n|\r|\n/).length - 1
    if (row.every((cell) => cell.trim() === '')) continue
    const cell = (column: Column) => row[places.get(column) ?? -1]?.trim() || null
    const read =
      row.length > header.length
        ? { fault: 'has more cells than the header; quote cells that contain the delimiter' }
        : readSale(cell)
    if ('fault' in read) {
      faults.push({ line, fault: read.fault })
      continue
    }
    const first = lineOf.get(read.id)
    if (first !== undefined) {
      faults.push({ line, fault: `repeats line ${first}` })
      continue
    }
    lineOf.set(read.id, line)
    sales.push(read)
  }
  return { sales, faults }
}

function readSale(cell: (column: Column) => string | null): Sale | { fault: string } {
  const date = readDate(cell('date'))
  if ('fault' in date) return date
  const title = cell('title')
  if (title === null) return { fault: 'the title is empty' }
  const currency = cell('currency')?.toUpperCase() ?? null
  if (currency !== null && !isCurrencyCode(currency)) return { fault: `"${currency}" is no ISO 4217 currency code` }
  const price = parseAmount(cell('price') ?? '', currency)
  if ('fault' in price) return price
  const [venue, seller, url] = [cell('venue'), cell('seller'), cell('url')]
  return {
    id: saleId([date.date, title, price.amount, currency, venue, seller, url]),
    date: date.date,
    title,
    price: { amount: price.amount, currency },
    venue,
    seller,
    url,
  }
}

/** ISO 8601 dates only: any other order of day and month can be read two ways. */
function readDate(text: string | null): { date: string } | { fault: string } {
  if (text === null) return { fault: 'the date is empty' }
  const parts = /^(\d{4}-\d{2}-\d{2})(?:[T ].*)?$/.exec(text)
  const date = parts?.[1]
  if (date === undefined) return { fault: `the date "${text}" is not written as YYYY-MM-DD` }
  const time = Date.parse(`${date}T00:00:00Z`)
  if (Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== date) {
    return { fault: `there is no day ${date}` }
  }
  return { date }
}
