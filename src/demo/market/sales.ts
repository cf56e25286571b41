/**
 * The buyer's sales of the demo: `sales.csv`, dated against `DEMO_NOW` and moved along so that they are as old on the day
 * the demo is started as they are in the tests.
 */
import { readFileSync } from 'node:fs'
import papa from 'papaparse'
import { DEMO_NOW, dateBefore } from './clock.ts'

export interface SaleRow {
  readonly daysAgo: number
  readonly title: string
  readonly price: string
  readonly venue: string
  readonly seller: string
  readonly url: string
}

const DAY = 86_400_000
const today = Date.parse(DEMO_NOW.slice(0, 10))
const parsed = papa.parse<Record<string, string>>(readFileSync(new URL('../sales.csv', import.meta.url), 'utf8'), {
  header: true,
  skipEmptyLines: true,
})

/** Newest first. */
export const SALES: readonly SaleRow[] = parsed.data.map((row) => ({
  daysAgo: Math.round((today - Date.parse(row.date!)) / DAY),
  title: row.title!,
  price: row.price!,
  venue: row.venue!,
  seller: row.seller!,
  url: row.url!,
}))

/** The CSV as a buyer would import it on the day `now`. */
export function salesCsv(now: string): string {
  const rows = SALES.map((sale) => ({
    date: dateBefore(now, sale.daysAgo),
    title: sale.title,
    price: sale.price,
    currency: 'EUR',
    venue: sale.venue,
    seller: sale.seller,
    url: sale.url,
  }))
  return `${papa.unparse(rows, { newline: '\n' })}\n`
}
