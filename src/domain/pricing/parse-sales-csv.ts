/**
 * Finished sales from a CSV text with the header `date,title,price,currency,venue,seller,url`, in any order, any delimiter: for scripts, where
 * nobody can be asked. Days are ISO 8601, and what can be read two ways is a fault of its line.
 */
import Papa from 'papaparse'
import type { Sale } from '../valuation.ts'
import { CSV_FIELDS, type CsvColumns } from './csv-columns.ts'
import { createCsvReader, describeMissing, missingFields } from './sales-csv.ts'
import { inEnglish } from './words.ts'

export interface SalesFault {
  /** 1 is the header. */
  readonly line: number
  readonly fault: string
}

export const DELIMITERS = [',', ';', '\t', '|']

export function parseSalesCsv(text: string): { sales: Sale[]; faults: SalesFault[] } {
  const parsed = Papa.parse(text.replace(/^\ufeff/, ''), { delimitersToGuess: DELIMITERS })
  const [header = [], ...rows] = parsed.data as string[][]
  const columns: CsvColumns = Object.fromEntries(
    CSV_FIELDS.flatMap((field) => {
      const place = header.findIndex((name) => name.trim().toLowerCase() === field)
      return place < 0 ? [] : [[field, place]]
    }),
  )
  const missing = missingFields(columns)
  if (missing.length > 0) return { sales: [], faults: [{ line: 1, fault: inEnglish(describeMissing(missing)) }] }
  const plan = {
    columns,
    width: header.length,
    decimal: null,
    dateOrder: null,
    currency: null,
    venue: null,
    today: null,
  }
  const read = createCsvReader(plan, header)
  const sales: Sale[] = []
  const faults: SalesFault[] = []
  for (const row of rows) {
    const result = read(row)
    if (result === null) continue
    if ('sale' in result) sales.push(result.sale)
    else faults.push({ line: result.line, fault: inEnglish(result.fault) })
  }
  return { sales, faults }
}
