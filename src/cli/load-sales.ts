/** The sales of a CSV file. Lines with a fault are reported and left out; a file without one good line is bad input. */
import { parseSalesCsv } from '../domain/pricing/parse-sales-csv.ts'
import type { Sale } from '../domain/valuation.ts'
import { BadInput } from './bad-input.ts'
import { readText } from './read-file.ts'

// About a million lines. Ours, no source.
const SALES_LIMIT_BYTES = 256 * 2 ** 20

export interface SalesRead {
  readonly sales: readonly Sale[]
  readonly faults: readonly { readonly line: number; readonly fault: string }[]
}

export async function loadSales(path: string | null): Promise<SalesRead> {
  if (path === null) return { sales: [], faults: [] }
  const read = parseSalesCsv(await readText(path, SALES_LIMIT_BYTES))
  const [first] = read.faults
  if (read.sales.length === 0 && first) {
    const more = read.faults.length > 1 ? ` and ${read.faults.length - 1} more faults` : ''
    throw new BadInput(`${path}: no sale could be read: line ${first.line}: ${first.fault}${more}.`)
  }
  return read
}
