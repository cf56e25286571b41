/** A page reading for a person: the fields that are known, in a fixed order; with `explain`, where each came from. */
import type { Listing, PageReading, Results } from '../../domain/listing.ts'
import { columns, moneyText, paragraphs, safe, table, wrap } from './lay-out.ts'

const DESCRIPTION_SHOWN = 600

function knownFields(listing: Listing): [field: string, words: string][] {
  const { estimate, seller } = listing
  const returns = listing.returns && `${listing.returns}${listing.returnsDays ? `, ${listing.returnsDays} days` : ''}`
  const fields: [string, string | null | undefined | false][] = [
    ['price', listing.price && moneyText(listing.price) + (listing.priceKind ? ` (${listing.priceKind})` : '')],
    ['estimate', estimate && `${moneyText(estimate.low)} to ${moneyText(estimate.high)}`],
    ['shipping', listing.shipping && moneyText(listing.shipping)],
    ['premiumPercent', listing.premiumPercent !== null && `${listing.premiumPercent} %`],
    ['saleFormat', listing.saleFormat],
    ['endsAt', listing.endsAt],
    ['sold', listing.sold !== null && (listing.sold ? 'yes' : 'no')],
    ['soldAt', listing.soldAt],
    ['seller', seller && seller.name + (seller.feedbackCount === null ? '' : ` (${seller.feedbackCount} ratings)`)],
    ['condition', listing.condition],
    ['returns', returns],
    ['bids', listing.bids !== null && String(listing.bids)],
    ['reserve', listing.reserve],
    ['payments', listing.payments.join(', ')],
    ['location', listing.location],
    ['itemNumber', listing.itemNumber],
    ...Object.entries(listing.specifics).map(([name, value]): [string, string] => [safe(name), value]),
    ['description', listing.description && cut(listing.description)],
    ['photos', String(listing.photos.length)],
  ]
  return fields.filter((row): row is [string, string] => typeof row[1] === 'string' && row[1] !== '')
}

function cut(text: string): string {
  return text.length <= DESCRIPTION_SHOWN ? text : `${text.slice(0, DESCRIPTION_SHOWN)} … (${text.length} characters)`
}

function explained(listing: Listing): string {
  const rows = Object.entries(listing.provenance).map(([field, { from, confidence, where, note }]) => [
    field,
    from,
    confidence.toFixed(2),
    [where, note].filter(Boolean).join(' — '),
  ])
  if (rows.length === 0) return ''
  return `Where each field came from\n${columns([['field', 'from', 'sure', 'where'], ...rows])}`
}

function listingText(listing: Listing, explain: boolean): string {
  const notShown = ['price', 'seller', 'returns', 'condition'].filter((name) => listing[name as 'price'] === null)
  return paragraphs(
    wrap(safe(listing.title ?? '(no title)')) + (listing.url ? `\n${listing.url}` : ''),
    table(knownFields(listing).map(([name, words]) => [name, safe(words)])),
    notShown.length > 0 && `Not on the page: ${notShown.join(', ')}.`,
    listing.disagreements.length > 0 &&
      `The page and its data disagree\n${table(
        listing.disagreements.map(({ field, shown, data, source }) => [
          field,
          safe(`shown "${shown}", ${source} says "${data}"`),
        ]),
      )}`,
    listing.partlyRead && 'The page is larger than the reader’s budget and was read in part.',
    explain && explained(listing),
  )
}

function resultsText(results: Results): string {
  const rows = results.rows.map((row) => [
    safe(row.title).slice(0, 52),
    row.price ? moneyText(row.price) : '',
    row.sold ? `sold ${row.soldAt ?? ''}`.trim() : '',
  ])
  return paragraphs(`A results page with ${results.rows.length} rows.`, columns(rows))
}

export function readingText(reading: PageReading, explain: boolean): string {
  switch (reading.kind) {
    case 'listing':
      return listingText(reading, explain)
    case 'results':
      return resultsText(reading)
    case 'none':
      return 'No listing was found on this page.'
  }
}
