/**
 * A Document in, a reading out: one listing, the rows of a results page, or nothing. Never changes the page, never throws, never
 * reaches the network; what it cannot tell stays `null`.
 */

import { isCurrencyCode, readCurrencyMark } from '../domain/currencies.ts'
import type {
  Disagreement,
  Listing,
  ListingPhoto,
  PageReading,
  PriceKind,
  Provenance,
  SaleFormat,
} from '../domain/listing.ts'
import type { Money } from '../domain/money.ts'
import type { SiteHint } from '../domain/site-hint.ts'
import { buildSelector } from './build-selector.ts'
import weights from './data/weights.json' with { type: 'json' }
import { decideKind, findActions, type KindDecision } from './decide-kind.ts'
import { findHeadline, type Headline, titleWithoutSite } from './find-headline.ts'
import { findRecordGroups } from './find-record-groups.ts'
import type { LayoutProbe } from './layout-probe.ts'
import { gatherEvidence, type PageEvidence } from './page-evidence.ts'
import { readGallery } from './read-gallery.ts'
import { readPairs } from './read-pairs.ts'
import { readRows } from './read-rows.ts'
import type { Trace } from './reading.ts'
import { type AmountRole, NOT_THE_PRICE, numericKey, type PriceCandidate, scorePrices } from './score-price.ts'
import { type RecordSelection, selectRecord } from './select-record.ts'

export interface ReadOptions {
  readonly url: string | null
  /** ISO 8601. */
  readonly now: string
  readonly probe: LayoutProbe
  readonly hints?: readonly SiteHint[]
}

export function readPage(document: Document, options: ReadOptions): PageReading {
  return explainPage(document, options).reading
}

/** The same reading with the reasons behind it, for `read --explain`. */
export function explainPage(document: Document, options: ReadOptions): { reading: PageReading; trace: Trace } {
  try {
    return readAll(document, options)
  } catch (error) {
    // A page must never break the reader for its caller; the trace says what happened.
    const note = error instanceof Error ? error.message : String(error)
    return {
      reading: { kind: 'none', url: options.url },
      trace: {
        kind: { decision: 'none', listing: 0, results: 0, reasons: [] },
        headline: null,
        prices: [],
        groups: [],
        notes: [`the reader failed: ${note}`],
      },
    }
  }
}

function readAll(document: Document, options: ReadOptions): { reading: PageReading; trace: Trace } {
  const evidence = gatherEvidence(document, options)
  const { index } = evidence
  const groups = findRecordGroups(evidence)
  const headline = findHeadline(evidence, groups)
  const selection = selectRecord(evidence, headline)
  const actions = findActions(evidence, groups)
  const pairs = readPairs(evidence)
  const record = selection.main
  const metaAmount =
    evidence.metadata.names.get('product:price:amount') ?? evidence.metadata.names.get('og:price:amount')
  const { all, ranked } = scorePrices(evidence, {
    headline,
    groups,
    actions: [...actions.buy, ...actions.bid],
    dataAmounts: record?.price ? [record.price] : record?.lowPrice ? [record.lowPrice] : [],
    metaAmounts: metaAmount ? [metaAmount] : [],
  })
  const photos = readGallery(evidence, { headline, groups, record, descriptionNode: null })
  const decision = decideKind(evidence, {
    headline,
    groups,
    selection,
    prices: ranked,
    pairs,
    actions,
    photos: photos.length,
  })
  let reading: PageReading
  if (decision.kind === 'listing') reading = readListing(evidence, { headline, selection, ranked, photos, actions })
  else if (decision.kind === 'results') {
    reading = {
      kind: 'results',
      url: options.url,
      rows: readRows(evidence, decision.resultGroups, all),
      partlyRead: index.cut,
    }
  } else reading = { kind: 'none', url: options.url }
  return { reading, trace: traceOf(evidence, decision, headline, ranked, groups) }
}

function traceOf(
  evidence: PageEvidence,
  decision: KindDecision,
  headline: Headline | null,
  ranked: readonly PriceCandidate[],
  groups: ReturnType<typeof findRecordGroups>,
): Trace {
  const { index } = evidence
  return {
    kind: { decision: decision.kind, listing: decision.listing, results: decision.results, reasons: decision.reasons },
    headline: headline ? { text: headline.text.slice(0, 200), score: headline.score } : null,
    prices: ranked.slice(0, 8).map((each) => ({
      text:
        index.lines[each.source.line]!.text.slice(Math.max(0, each.source.start - 30), each.source.end + 20) ||
        each.source.amount.money.amount,
      score: Math.round(each.score * 100) / 100,
      role: each.role,
      features: each.features,
      where: buildSelector(index, each.source.node),
    })),
    groups: groups.map((group) => ({
      rows: group.rows.length,
      priced: group.priced,
      where: buildSelector(index, group.container),
    })),
    notes: [],
  }
}

function readListing(
  evidence: PageEvidence,
  place: {
    headline: Headline | null
    selection: RecordSelection
    ranked: readonly PriceCandidate[]
    photos: readonly ListingPhoto[]
    actions: ReturnType<typeof findActions>
  },
): Listing {
  const { index, metadata } = evidence
  const { headline, selection, ranked, photos, actions } = place
  const record = selection.main
  const provenance: Record<string, Provenance> = {}
  const disagreements: Disagreement[] = []
  const say = (field: string, found: Provenance): void => {
    provenance[field] = found
  }

  let title: string | null = null
  if (headline && headline.score >= 3) {
    title = headline.text
    say('title', {
      from: 'page',
      confidence: Math.min(1, headline.score / 10),
      where: buildSelector(index, headline.node),
      quote: headline.text.slice(0, 300),
    })
  } else if (record?.name) {
    title = record.name
    say('title', { from: record.item?.source ?? 'json-ld', confidence: 0.8, where: null })
  } else if (metadata.names.get('og:title') ?? metadata.title) {
    title = titleWithoutSite(
      (metadata.names.get('og:title') ?? metadata.title)!,
      metadata.names.get('og:site_name') ?? null,
    )
    say('title', { from: metadata.names.has('og:title') ? 'open-graph' : 'meta', confidence: 0.6, where: null })
  }

  const price = decidePrice(evidence, selection, ranked, disagreements)
  if (price) say('price', price.provenance)
  const saleFormat: SaleFormat | null =
    actions.bid.length > 0 || price?.role === 'current-bid' || price?.role === 'starting-bid'
      ? 'auction'
      : actions.buy.length > 0
        ? 'fixed'
        : actions.contact.length > 0
          ? 'classified'
          : price
            ? 'fixed'
            : null
  if (record?.seller) say('seller', { from: record.item?.source ?? 'json-ld', confidence: 0.8, where: null })
  const availability = record?.availability ?? ''
  const sold = /SoldOut|OutOfStock|Discontinued/i.test(availability)
    ? true
    : /InStock|InStoreOnly|LimitedAvailability|OnlineOnly/i.test(availability)
      ? false
      : price?.role === 'sold'
        ? true
        : null

  return {
    kind: 'listing',
    url: evidence.url,
    title,
    price: price?.money ?? null,
    priceKind: priceKindOf(price?.role ?? null, saleFormat, sold),
    estimate: null,
    shipping: null,
    premiumPercent: null,
    saleFormat,
    endsAt: null,
    sold,
    soldAt: null,
    seller: record?.seller
      ? { name: record.seller, url: null, feedbackCount: null, feedbackPercent: null, memberSince: null }
      : null,
    condition: null,
    specifics: {},
    description:
      record?.description ?? metadata.names.get('og:description') ?? metadata.names.get('description') ?? null,
    returns: null,
    returnsDays: null,
    minimumIncrement: null,
    bids: null,
    reserve: null,
    bestOffer: null,
    payments: [],
    location: null,
    itemNumber: null,
    categories: [],
    language: evidence.language,
    photos,
    disagreements,
    partlyRead: index.cut,
    provenance,
  }
}

function priceKindOf(role: AmountRole | null, format: SaleFormat | null, sold: boolean | null): PriceKind | null {
  if (role === 'sold') return 'sold'
  if (role === 'current-bid' || role === 'starting-bid') return role
  if (role === 'asking') return 'asking'
  if (role === 'buy-now') return 'fixed'
  if (format === 'classified') return 'asking'
  if (format === 'fixed') return sold ? 'sold' : 'fixed'
  if (format === 'auction') return 'current-bid'
  return null
}

interface DecidedPrice {
  readonly money: Money
  readonly role: AmountRole | null
  readonly provenance: Provenance
}

/** The page wins where it shows a price of the main thing plainly; the data wins where the page's best is weak. */
function decidePrice(
  evidence: PageEvidence,
  selection: RecordSelection,
  ranked: readonly PriceCandidate[],
  disagreements: Disagreement[],
): DecidedPrice | null {
  const { index, metadata } = evidence
  const record = selection.main
  const stated = statedPrice(
    evidence,
    record ? (record.price ?? record.lowPrice) : null,
    record?.priceCurrency ?? null,
    record?.item?.source ?? record?.offer?.source ?? 'json-ld',
  )
  const meta = statedPrice(
    evidence,
    metadata.names.get('product:price:amount') ?? metadata.names.get('og:price:amount') ?? null,
    metadata.names.get('product:price:currency') ?? metadata.names.get('og:price:currency') ?? null,
    'open-graph',
  )
  const data = stated ?? meta
  const usable = ranked.filter((each) => !(each.role && NOT_THE_PRICE.has(each.role)) && !each.source.amount.negative)
  const best = usable[0]
  const { thresholds } = weights
  if (best && data) {
    const agreeing = usable.find(
      (each) => numericKey(each.source.amount.money.amount) === numericKey(data.money.amount),
    )
    if (agreeing && (agreeing === best || best.score - agreeing.score < 3))
      return fromCandidate(evidence, agreeing, data, 0.95)
    if (best.score >= thresholds['page-beats-data']) {
      disagreements.push({
        field: 'price',
        shown: formatMoney(best.source.amount.money),
        data: formatMoney(data.money),
        source: data.from,
      })
      return fromCandidate(evidence, best, data, 0.75)
    }
  }
  if (data)
    return {
      money: data.money,
      role: null,
      provenance: { from: data.from, confidence: 0.7, where: null, quote: data.money.amount },
    }
  if (best && best.score >= thresholds.price)
    return fromCandidate(evidence, best, null, Math.min(0.9, 0.4 + best.score / 20))
  void index
  return null
}

function formatMoney(money: Money): string {
  return money.currency ? `${money.amount} ${money.currency}` : money.amount
}

function statedPrice(
  evidence: PageEvidence,
  amount: string | null,
  currency: string | null,
  from: Provenance['from'],
): { money: Money; from: Provenance['from'] } | null {
  if (amount === null) return null
  const plain = amount
    .trim()
    .replace(/[\s\u00a0]/g, '')
    .replace(/^[^\d.,-]+|[^\d]+$/g, '')
  let normal: string | null = null
  if (/^\d+(?:\.\d+)?$/.test(plain)) normal = plain
  else if (/^\d{1,3}(?:,\d{3})+(?:\.\d+)?$/.test(plain)) normal = plain.replaceAll(',', '')
  else if (/^\d{1,3}(?:\.\d{3})+(?:,\d+)?$/.test(plain)) normal = plain.replaceAll('.', '').replace(',', '.')
  else if (/^\d+,\d{1,2}$/.test(plain)) normal = plain.replace(',', '.')
  if (normal === null || normal.length > 16 || Number(normal) === 0) return null
  const code = currency?.trim().toUpperCase() ?? ''
  const known = isCurrencyCode(code)
    ? code
    : (readCurrencyMark(currency ?? '', { locale: evidence.locale })?.currency ?? null)
  return { money: { amount: normal, currency: known ?? evidence.currency }, from }
}

function fromCandidate(
  evidence: PageEvidence,
  candidate: PriceCandidate,
  data: { money: Money } | null,
  confidence: number,
): DecidedPrice {
  const { index } = evidence
  const { amount } = candidate.source
  const line = index.lines[candidate.source.line]!
  let { currency } = amount.money
  let note: string | undefined
  if (amount.assumed) {
    const hint = data?.money.currency ?? evidence.currency
    const meaning = amount.mark ? readCurrencyMark(amount.mark, { currencyHint: hint, locale: evidence.locale }) : null
    if (meaning) {
      currency = meaning.currency
      if (meaning.assumed) note = `"${amount.mark}" taken as ${meaning.currency}`
    }
  }
  const quote =
    candidate.source.end > 0 ? line.text.slice(candidate.source.start, candidate.source.end) : line.text.slice(0, 60)
  return {
    money: { amount: amount.money.amount, currency },
    role: candidate.role,
    provenance: {
      from: 'page',
      confidence,
      where: buildSelector(index, candidate.source.node),
      quote,
      ...(note ? { note } : {}),
    },
  }
}
