/** What the ledger says about one offer: its sales found by the index, the buyer's marks and rates read, the core asked. Wiring only. */
import { parseClaims } from '../domain/claim/parse-claims.ts'
import type { Claim } from '../domain/claim.ts'
import type { Money } from '../domain/money.ts'
import type { Knowledge } from '../domain/pricing/match-sales.ts'
import { createRateTable, type RateTable } from '../domain/pricing/rates.ts'
import { cardKey, createMarkReader } from '../domain/pricing/sale-marks.ts'
import type { ThisItem } from '../domain/pricing/sold-lately.ts'
import { needsMates, type ValueOptions, valueClaim } from '../domain/pricing/value-claim.ts'
import { createWantReader, type WantFit } from '../domain/pricing/want.ts'
import { inEnglish, said } from '../domain/pricing/words.ts'
import type { Valuation } from '../domain/valuation.ts'
import type { Stores } from './stores.ts'

/** In the panel, and kept with a dossier: what a person looks through beside a listing. The desk shows all. */
export const PANEL_POINTS = 200
/** Sales that a valuation beside a page is taken from, the newest of those whose words fit: more take time and change little. Ours. */
export const PANEL_SALES = 600

type Shelves = Pick<Stores, 'ledger' | 'saleMarks' | 'rates' | 'wants'>

export interface PricedOffer {
  readonly claim: Claim
  readonly title: string | null
  readonly ask: Money | null
  readonly item: ThisItem | null
  /** ISO 8601 date. */
  readonly on: string
}

/** The buyer's rates: thousands of days, needed only where a sale was paid in another currency. */
export async function readRates({ rates }: Pick<Shelves, 'rates'>): Promise<RateTable> {
  return createRateTable(await rates.list())
}

/** @returns `null` where the ledger is empty, which is not the same as none that fit. */
export async function priceOffer(
  { claim, title, ask, item, on }: PricedOffer,
  stores: Shelves,
  knowledge: Knowledge,
  most: { readonly sales: number; readonly points: number },
): Promise<Valuation | null> {
  const { ledger, saleMarks } = stores
  const [{ sales, frequencies, fitting, total }, marks] = await Promise.all([
    ledger.findCandidates(claim, title, most.sales),
    saleMarks.list(),
  ])
  if (total === 0) return null
  const currencies = new Set(sales.map(({ price }) => price.currency))
  const foreign =
    currencies.size > 1 || (ask?.currency != null && currencies.size === 1 && !currencies.has(ask.currency))
  const options: ValueOptions = {
    on,
    ask,
    knowledge,
    title,
    item,
    frequencies,
    mates: [],
    notCounted: createMarkReader(marks, cardKey(claim)),
    rates: foreign ? await readRates(stores) : null,
  }
  const mates = needsMates(claim, sales, options) ? await ledger.findMates(claim) : []
  const valuation = valueClaim(claim, sales, { ...options, mates })
  const points = valuation.points?.slice(0, most.points)
  if (fitting <= sales.length) return { ...valuation, points }
  const step = said('step.newest', { count: sales.length, fitting })
  return { ...valuation, points, said: [step, ...(valuation.said ?? [])], steps: [inEnglish(step), ...valuation.steps] }
}

/** Which of the buyer's wants an offer fits, for one offer or for many rows. */
export async function readWants(
  stores: Shelves,
  knowledge: Knowledge,
  on: string,
): Promise<(words: string, price: Money | null, claim?: Claim) => WantFit | null> {
  const wants = await stores.wants.list()
  if (wants.length === 0) return () => null
  const fits = createWantReader(wants, knowledge, await readRates(stores), on)
  return (words, price, claim) => {
    const offered = claim ?? parseClaims({ title: words, specifics: {}, description: null }, knowledge)[0]
    return offered === undefined ? null : fits(offered, words, price)
  }
}
