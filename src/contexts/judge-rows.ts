/** What the words of results rows alone already say. Concerns that need a page or its photos are not raised for a row. */
import { parseClaims } from '../domain/claim/parse-claims.ts'
import type { Book } from '../domain/grader-book.ts'
import { inspect } from '../domain/inspect.ts'
import { emptyListing, type Listing, type ResultRow } from '../domain/listing.ts'
import type { Packs } from '../domain/rules/packs.ts'
import { now } from '../platform/clock.ts'
import type { ResultsRowState } from '../ui/panel/panel-state.ts'
import { readWants } from './price-offer.ts'
import type { Stores } from './stores.ts'

/** A row shows one small picture: what photos lack, and how large they are, is no news there. */
const UNKNOWN_FROM_A_ROW = new Set(['views', 'label', 'resolution'])
/** Most rows leave the number out although their page has it. */
const CERTIFICATE = 'certificate'

export async function judgeRows(rows: readonly ResultRow[], stores: Stores, packs: Packs): Promise<ResultsRowState[]> {
  const book = await stores.readBook()
  const states: ResultsRowState[] = []
  const fits = await readWants(stores, { graders: book.graders, vocabulary: packs.vocabulary }, now().slice(0, 10))
  for (const row of rows) {
    states.push({ ...(await judgeRow(row, book, stores, packs)), want: fits(row.title, row.price) })
  }
  return states
}

async function judgeRow(row: ResultRow, book: Book, stores: Stores, packs: Packs): Promise<ResultsRowState> {
  const knowledge = { graders: book.graders, vocabulary: packs.vocabulary }
  const claims = parseClaims({ title: row.title, specifics: {}, description: null }, knowledge)
  const kept = row.url === null ? null : await stores.dossiers.findByUrl(row.url)
  const { concerns } = inspect(
    {
      listing: listingOf(row),
      photos: [],
      valuation: null,
      traces: [],
      messageLanguage: 'en',
      messageMaxLength: null,
    },
    book,
    packs,
  )
  const open = concerns.filter(({ settledBy, group }) => {
    if (settledBy !== null || UNKNOWN_FROM_A_ROW.has(group)) return false
    return group !== CERTIFICATE || claims[0]?.certificate !== null
  })
  return {
    row,
    openConcerns: open.length,
    foremost: open[0]?.title ?? null,
    keptAs: kept?.id ?? null,
    singleCard: claims.length === 1 && claims[0]!.object === 'card' && !claims[0]!.multiple,
  }
}

function listingOf({ title, url, price, sold, soldAt, photo, seller }: ResultRow): Listing {
  const nothingMore = { url: null, feedbackCount: null, feedbackPercent: null, memberSince: null }
  return {
    ...emptyListing(url),
    title,
    price,
    sold,
    soldAt,
    seller: seller === null ? null : { name: seller, ...nothingMore },
    photos: photo === null ? [] : [{ url: photo, alt: null }],
  }
}
