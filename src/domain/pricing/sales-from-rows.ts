/**
 * Sales from the rows of a page of sold results, and for each row that is none of use why not. A row whose page does not say that it
 * was sold, when and for how much is no sale; nothing is filled in.
 */
import { parseClaims } from '../claim/parse-claims.ts'
import type { ResultRow } from '../listing.ts'
import type { Said, Sale } from '../valuation.ts'
import type { Knowledge } from './match-sales.ts'
import { saleId } from './sale-id.ts'
import { said } from './words.ts'

export interface RowSales {
  readonly sales: readonly Sale[]
  readonly skipped: readonly { readonly title: string; readonly why: Said }[]
}

export interface RowsFrom {
  /** Address of the results page. */
  readonly pageUrl: string | null
  /** ISO 8601 date. */
  readonly today: string
  readonly knowledge: Knowledge
  readonly isKnown: (id: string) => boolean
}

export function salesFromRows(rows: readonly ResultRow[], from: RowsFrom): RowSales {
  const venue = venueOf(from.pageUrl)
  const sales: Sale[] = []
  const skipped: { title: string; why: Said }[] = []
  const seen = new Set<string>()
  for (const row of rows) {
    const sale = readRow(row, venue, from)
    const why = 'code' in sale ? sale : from.isKnown(sale.id) || seen.has(sale.id) ? said('skip.known') : null
    if (why !== null || 'code' in sale) skipped.push({ title: row.title, why: why as Said })
    else {
      seen.add(sale.id)
      sales.push(sale)
    }
  }
  return { sales, skipped }
}

function readRow(row: ResultRow, venue: string | null, { today, knowledge }: RowsFrom): Sale | Said {
  const { title, price, sold, soldAt, seller, url } = row
  if (sold === false) return said('skip.unsold')
  if (sold !== true && soldAt === null) return said('skip.open')
  if (price === null || !(Number(price.amount) > 0)) return said('skip.no-price')
  if (soldAt === null) return said('skip.no-date')
  const date = soldAt.slice(0, 10)
  if (date > today) return said('skip.future')
  const claims = parseClaims({ title, specifics: {}, description: null }, knowledge)
  if (claims.length > 1 || claims[0]?.object !== 'card' || claims[0].multiple) return said('skip.lot')
  return {
    id: saleId([date, title, price.amount, price.currency, venue, seller, url]),
    date,
    title,
    price,
    venue,
    seller,
    url,
    source: 'results-page',
  }
}

/** The house's own name is seldom on a page in a form that can be trusted; its address is. */
function venueOf(url: string | null): string | null {
  if (url === null || !URL.canParse(url)) return null
  return new URL(url).hostname.replace(/^www\./, '')
}
