/** One listing, field by field, each with its source and how sure it is. Wires the readers of single fields; decides no field itself. */
import type { Disagreement, Listing, ListingPhoto, PriceKind, Provenance, SaleFormat } from '../domain/listing.ts'
import { ownEntry } from '../domain/own-entry.ts'
import { parseMoney } from '../domain/parse-money.ts'
import { parseTime } from '../domain/parse-time.ts'
import type { SiteHint } from '../domain/site-hint.ts'
import { buildSelector } from './build-selector.ts'
import { amountOfRole, type DecidedPrice, decidePrice, readEstimate, readShipping } from './decide-price.ts'
import type { Actions } from './find-actions.ts'
import { type Headline, titleWithoutSite } from './find-headline.ts'
import type { PageEvidence } from './page-evidence.ts'
import {
  type Labelled,
  readBids,
  readCondition,
  readItemNumber,
  readLocation,
  readPayments,
  readPremium,
  readReserve,
  readReturns,
  readTimeOf,
} from './read-labelled.ts'
import { readSeller, siteAsSeller } from './read-seller.ts'
import { readCategories, readDescription, readSpecifics } from './read-words.ts'
import type { Found } from './reading.ts'
import type { ScoredPrices } from './score-price.ts'
import type { RecordSelection } from './select-record.ts'
import type { HintMatch } from './site-hints.ts'
import { stringOf } from './structured/graph.ts'
import { sourceOf } from './structured/offer-records.ts'

export interface ListingParts {
  readonly headline: Headline | null
  readonly selection: RecordSelection
  readonly prices: ScoredPrices
  readonly photos: readonly ListingPhoto[]
  readonly actions: Actions
  readonly place: Labelled
  /** Elements that the buyer pointed at on this site. */
  readonly hints: { readonly matches: readonly HintMatch[]; readonly stale: readonly SiteHint[] }
}

const CONDITION_WORDS: Readonly<Record<string, string>> = {
  NewCondition: 'New',
  UsedCondition: 'Used',
  RefurbishedCondition: 'Refurbished',
  DamagedCondition: 'Damaged',
}

export function* readListing(evidence: PageEvidence, parts: ListingParts): Generator<undefined, Listing> {
  const { index } = evidence
  const { selection, photos, place } = parts
  const { own, ranked } = parts.prices
  const record = selection.main
  const provenance: Record<string, Provenance> = {}
  const disagreements: Disagreement[] = []
  const keep = <T>(field: string, found: Found<T> | null): T | null => {
    if (!found) return null
    provenance[field] = {
      from: found.from,
      confidence: Math.round(found.confidence * 100) / 100,
      where: found.node >= 0 ? buildSelector(index, found.node) : null,
      ...(found.quote ? { quote: found.quote } : {}),
      ...(found.note ? { note: found.note } : {}),
    }
    return found.value
  }

  const title = keep('title', readTitle(evidence, parts))
  const price = decidePrice(evidence, record, ranked, disagreements, place)
  if (price) provenance.price = price.provenance
  yield undefined
  const bids = keep('bids', readBids(place))
  const estimate = keep('estimate', readEstimate(place, own))
  const premiumPercent = keep('premiumPercent', readPremium(place))
  const saleFormat = decideFormat(parts, price, { bids, estimate: estimate !== null, premium: premiumPercent !== null })
  if (saleFormat.format)
    provenance.saleFormat = {
      from: 'page',
      confidence: saleFormat.confidence,
      where: saleFormat.node >= 0 ? buildSelector(index, saleFormat.node) : null,
    }
  const format = saleFormat.format
  const sold = keep('sold', readSold(evidence, parts, price))
  yield undefined
  const ends = readTimeOf(place, 'ends', 'future') ?? readTimeOf(place, 'ended', 'past')
  const endsAt = format === 'fixed' && !ends?.quote ? null : keep('endsAt', ends)
  const soldAt = sold ? keep('soldAt', readTimeOf(place, 'sold', 'past')) : null
  yield undefined
  const returns = readReturns(place)
  const condition = keep('condition', readCondition(place) ?? statedCondition(parts))
  const { specifics, node: specificsNode } = readSpecifics(place)
  if (specificsNode >= 0)
    provenance.specifics = { from: 'page', confidence: 0.7, where: buildSelector(index, specificsNode) }
  const firstPhoto = photos[0]
  if (firstPhoto) provenance.photos = { from: 'page', confidence: 0.8, where: null }

  yield undefined
  const seller =
    readSeller(place, record) ??
    (format === 'fixed' || estimate !== null || premiumPercent !== null || price?.role === 'sold'
      ? siteAsSeller(place)
      : null)
  yield undefined
  const description = readDescription(place, record)
  yield undefined
  const listing: Listing = {
    kind: 'listing',
    url: evidence.url,
    title,
    price: price?.money ?? null,
    priceKind: decidePriceKind(price, format, sold, bids),
    estimate,
    shipping: keep('shipping', readShipping(place, own, price?.money.currency ?? evidence.currency, record)),
    premiumPercent,
    saleFormat: format,
    endsAt,
    sold,
    soldAt,
    seller: keep('seller', seller),
    condition,
    specifics,
    description: keep('description', description),
    returns: keep('returns', returns.returns),
    returnsDays: keep('returnsDays', returns.days),
    minimumIncrement: keep('minimumIncrement', amountOfRole(place, own, 'increment')),
    bids,
    reserve: keep('reserve', readReserve(place)),
    bestOffer: keep('bestOffer', readBestOffer(place)),
    payments: keep('payments', readPayments(place)) ?? [],
    location: keep('location', readLocation(place)),
    itemNumber: keep('itemNumber', readItemNumber(place) ?? statedNumber(parts)),
    categories: keep('categories', readCategories(place, title)) ?? [],
    language: evidence.language,
    photos,
    disagreements,
    partlyRead: evidence.cut,
    provenance,
  }
  return applyHints(evidence, listing, parts.hints)
}

function readTitle(evidence: PageEvidence, { headline, selection }: ListingParts): Found<string> | null {
  const { metadata } = evidence
  if (headline && headline.score >= 1)
    return {
      value: headline.text,
      from: 'page',
      confidence: Math.min(1, headline.score / 10),
      node: headline.node,
      quote: headline.text.slice(0, 300),
    }
  const record = selection.main
  if (record?.name) return { value: record.name, from: sourceOf(record), confidence: 0.8, node: -1 }
  const head = metadata.names.get('og:title') ?? metadata.title
  if (head)
    return {
      value: titleWithoutSite(head, metadata.names.get('og:site_name') ?? null),
      from: metadata.names.has('og:title') ? 'open-graph' : 'meta',
      confidence: 0.6,
      node: -1,
    }
  return headline ? { value: headline.text, from: 'page', confidence: 0.3, node: headline.node } : null
}

function decideFormat(
  { actions }: ListingParts,
  price: DecidedPrice | null,
  words: { bids: number | null; estimate: boolean; premium: boolean },
): { format: SaleFormat | null; confidence: number; node: number } {
  const bid = actions.bid[0]
  if (bid !== undefined) return { format: 'auction', confidence: 0.9, node: bid }
  if (price?.role === 'asking') return { format: 'classified', confidence: 0.8, node: actions.contact[0] ?? -1 }
  if (words.bids !== null || price?.role === 'current-bid') return { format: 'auction', confidence: 0.85, node: -1 }
  if (words.estimate || words.premium || price?.role === 'starting-bid')
    return { format: 'auction', confidence: 0.7, node: -1 }
  const buy = actions.buy[0]
  if (buy !== undefined) return { format: 'fixed', confidence: 0.85, node: buy }
  const contact = actions.contact[0]
  if (contact !== undefined) return { format: 'classified', confidence: 0.6, node: contact }
  if (price) return { format: 'fixed', confidence: 0.4, node: -1 }
  return { format: null, confidence: 0, node: -1 }
}

function decidePriceKind(
  price: DecidedPrice | null,
  format: SaleFormat | null,
  sold: boolean | null,
  bids: number | null,
): PriceKind | null {
  if (!price) return null
  const { role } = price
  if (role === 'sold' || (sold === true && format !== 'auction')) return 'sold'
  if (format === 'auction') {
    if (sold === true) return 'sold'
    if (role === 'starting-bid' || (role === 'current-bid' && bids === 0)) return 'starting-bid'
    if (role === 'buy-now') return 'fixed'
    if (bids === 0) return 'starting-bid'
    return 'current-bid'
  }
  if (format === 'classified') return 'asking'
  return format === 'fixed' ? 'fixed' : null
}

function readSold(
  evidence: PageEvidence,
  { selection, place, headline }: ListingParts,
  price: DecidedPrice | null,
): Found<boolean> | null {
  const availability = selection.main?.availability ?? ''
  const { index, lexicon } = evidence
  // "Sold" as a badge or banner near the heading, not "Sold by" or "12 sold".
  for (const line of place.lines) {
    if (line.text.length > 60 || Math.abs(line.at - place.headlineLine) > 60) continue
    if (headline && line.node >= headline.node && line.node < index.nodes[headline.node]!.end) continue
    if (!lexicon.conceptsOf(line.text.replace(/\d.*$/u, '')).includes('sold')) continue
    // "Sold: 12" counts copies.
    if (
      /[:：]?\s*\d{1,5}\s*(?:x|×|times|mal|stück|pcs|pieces|szt\.?)?$/i.test(line.text) &&
      !/\d{4}|[.,/]\d/.test(line.text)
    )
      continue
    if (/^\d|sold by|verkauft von|vendu par|\bby\b/i.test(line.text)) continue
    if (!evidence.probe.isVisible(index.nodes[line.node]!.element)) continue
    return { value: true, from: 'page', confidence: 0.8, node: line.node, quote: line.text }
  }
  if (price?.role === 'sold') return { value: true, from: 'page', confidence: 0.8, node: -1 }
  if (/SoldOut/i.test(availability))
    return { value: true, from: selection.main ? sourceOf(selection.main) : 'json-ld', confidence: 0.8, node: -1 }
  if (/InStock|InStoreOnly|LimitedAvailability|OnlineOnly|PreOrder/i.test(availability))
    return { value: false, from: selection.main ? sourceOf(selection.main) : 'json-ld', confidence: 0.7, node: -1 }
  return null
}

function statedNumber({ selection }: ListingParts): Found<string> | null {
  const number = stringOf(selection.main?.item, 'sku', 'productID', 'mpn')
  return number && number.length <= 40 && selection.main
    ? { value: number, from: sourceOf(selection.main), confidence: 0.6, node: -1 }
    : null
}

function statedCondition({ selection }: ListingParts): Found<string> | null {
  const stated = selection.main?.condition
  if (!stated) return null
  const name = stated.replace(/^.*\//, '')
  return {
    value: ownEntry(CONDITION_WORDS, name) ?? name,
    from: selection.main ? sourceOf(selection.main) : 'json-ld',
    confidence: 0.5,
    node: -1,
  }
}

function readBestOffer(place: Labelled): Found<boolean> | null {
  const { lexicon } = place.evidence
  for (const line of place.lines) {
    if (line.text.length > 60) continue
    const hit = lexicon.find(line.text).find((each) => each.concept === 'best-offer')
    if (!hit) continue
    const negated = /\b(?:no|not|kein|keine|nicht|non|pas|sin|senza|geen|bez|nie|não|sem)\b/iu.test(
      line.text.slice(0, hit.start),
    )
    return { value: !negated, from: 'page', confidence: 0.8, node: line.node, quote: line.text }
  }
  return null
}

/** Fields whose value is plain text. */
const TEXT_FIELDS = new Set(['title', 'condition', 'description', 'location', 'itemNumber'])
const MONEY_FIELDS = new Set(['price', 'shipping', 'minimumIncrement'])
const TIME_FIELDS = new Set(['endsAt', 'soldAt'])

/** What the buyer pointed at comes before what was found; a place that no longer holds such a value changes nothing. */
function applyHints(evidence: PageEvidence, listing: Listing, { matches, stale }: ListingParts['hints']): Listing {
  const changes: Record<string, unknown> = {}
  const provenance: Record<string, Provenance> = { ...listing.provenance }
  for (const { field } of stale) {
    const known = provenance[field]
    if (known) provenance[field] = { ...known, note: 'the place pointed at on this site is not there any more' }
  }
  for (const { hint, element } of matches) {
    const text = (element.textContent ?? '').replace(/\s+/g, ' ').trim()
    let value: unknown = null
    if (TEXT_FIELDS.has(hint.field)) value = text === '' ? null : text
    else if (MONEY_FIELDS.has(hint.field))
      value = parseMoney(text, { currencyHint: evidence.currency, locale: evidence.locale })?.money ?? null
    else if (TIME_FIELDS.has(hint.field))
      value =
        parseTime(text, {
          now: evidence.now,
          locale: evidence.locale,
          direction: hint.field === 'endsAt' ? 'future' : 'past',
        })?.iso ?? null
    else if (hint.field === 'seller' && text !== '')
      value = {
        ...(listing.seller ?? { url: null, feedbackCount: null, feedbackPercent: null, memberSince: null }),
        name: text,
      }
    if (value === null) continue
    changes[hint.field] = value
    const at = evidence.index.byElement.get(element)
    provenance[hint.field] = {
      from: 'hint',
      confidence: 1,
      where: at === undefined ? null : buildSelector(evidence.index, at),
      quote: text.slice(0, 200),
    }
  }
  return { ...listing, ...changes, provenance }
}
