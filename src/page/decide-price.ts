/**
 * The price, and the other amounts of a listing, out of the scored candidates and the page's own data. The page wins where it
 * plainly shows a price of the main thing; the data wins where the page's best is weak; where neither is sure, nothing is said.
 */
import { isCurrencyCode, readCurrencyMark } from '../domain/currencies.ts'
import type { Disagreement, Provenance, Source } from '../domain/listing.ts'
import type { Money } from '../domain/money.ts'
import { findAmounts } from '../domain/parse-money.ts'
import { type AmountRole, NOT_THE_PRICE } from './amount-context.ts'
import { buildSelector } from './build-selector.ts'
import weights from './data/weights.json' with { type: 'json' }
import type { Line } from './index-document.ts'
import type { Concept } from './lexicon.ts'
import type { PageEvidence } from './page-evidence.ts'
import { isElsewhere, type Labelled } from './read-labelled.ts'
import type { Found } from './reading.ts'
import { numericKey, type PriceCandidate, type PriceFeature } from './score-price.ts'
import { type OfferRecord, sourceOf } from './structured/offer-records.ts'

export interface DecidedPrice {
  readonly money: Money
  readonly role: AmountRole | null
  readonly provenance: Provenance
}

interface StatedPrice {
  readonly money: Money
  readonly from: Source
}

/** An amount as data writes it; `null` where it is no number or nothing. */
export function statedPrice(
  evidence: PageEvidence,
  amount: string | null,
  currency: string | null,
  from: Source,
): StatedPrice | null {
  if (amount === null) return null
  const plain = amount
    .trim()
    .replace(/[\s\u00a0]/g, '')
    .replace(/^[^\d.,-]+|[^\d]+$/g, '')
  let normal: string | null = null
  if (/^\d+(?:\.\d+)?$/.test(plain)) normal = plain
  else if (/^\d{1,3}(?:,\d{3})+(?:\.\d+)?$/.test(plain)) normal = plain.replaceAll(',', '')
  else if (/^\d{1,3}(?:\.\d{3})+,\d+$/.test(plain)) normal = plain.replaceAll('.', '').replace(',', '.')
  else if (/^\d+,\d{1,2}$/.test(plain)) normal = plain.replace(',', '.')
  if (normal === null || normal.length > 16 || Number(normal) === 0) return null
  const code = currency?.trim().toUpperCase() ?? ''
  const known = isCurrencyCode(code)
    ? code
    : (readCurrencyMark(currency ?? '', { locale: evidence.locale })?.currency ?? null)
  return { money: { amount: normal, currency: known ?? evidence.currency }, from }
}

export function statedPrices(
  evidence: PageEvidence,
  record: OfferRecord | null,
): { record: StatedPrice | null; meta: StatedPrice | null } {
  const { names } = evidence.metadata
  return {
    record: statedPrice(
      evidence,
      record ? (record.price ?? singleOf(record)) : null,
      record?.priceCurrency ?? null,
      record ? sourceOf(record) : 'json-ld',
    ),
    meta: statedPrice(
      evidence,
      names.get('product:price:amount') ?? names.get('og:price:amount') ?? null,
      names.get('product:price:currency') ?? names.get('og:price:currency') ?? null,
      'open-graph',
    ),
  }
}

/** Of several sellers' offers the data names the lowest, which need not be the one shown: only a lone or flat one is a price. */
function singleOf(record: OfferRecord): string | null {
  if (record.lowPrice === null) return null
  return record.highPrice === null || record.highPrice === record.lowPrice || record.offerCount === '1'
    ? record.lowPrice
    : null
}

export function formatMoney(money: Money): string {
  return money.currency ? `${money.amount} ${money.currency}` : money.amount
}

export function decidePrice(
  evidence: PageEvidence,
  record: OfferRecord | null,
  ranked: readonly PriceCandidate[],
  disagreements: Disagreement[],
  place: Labelled,
): DecidedPrice | null {
  const stated = statedPrices(evidence, record)
  const data = stated.record ?? stated.meta
  const usable = ranked.filter(
    (each) =>
      !(each.role && NOT_THE_PRICE.has(each.role)) &&
      !each.source.amount.negative &&
      Number(each.source.amount.money.amount) > 0,
  )
  const best = preferBid(usable)
  const { thresholds } = weights
  if (best && data) {
    const agreeing = usable.find(
      (each) => numericKey(each.source.amount.money.amount) === numericKey(data.money.amount),
    )
    // An auction's data often states what the bidding began with.
    const opening =
      (best.role === 'current-bid' || best.role === 'sold') &&
      agreeing !== undefined &&
      agreeing !== best &&
      agreeing.role !== best.role
    if (agreeing && !opening && (agreeing === best || best.score - agreeing.score < 2))
      return fromCandidate(evidence, agreeing, data, 0.95)
    if (best.score >= thresholds['page-beats-data']) {
      disagreements.push({
        field: 'price',
        shown: formatMoney(moneyOf(evidence, best, data).money),
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
  // "Price on request": only a plainly labelled price says otherwise.
  const plain = best?.features.some((feature) => PLAIN.has(feature)) ?? false
  const needed = isOnRequest(place)
    ? thresholds['page-beats-data'] + 2
    : plain
      ? thresholds.price
      : thresholds['page-beats-data']
  if (best && best.score >= needed) return fromCandidate(evidence, best, null, Math.min(0.9, 0.4 + best.score / 20))
  return giveAway(place)
}

/** What makes an amount stand as a price and not as words of a sentence. */
export const PLAIN: ReadonlySet<string> = new Set<PriceFeature>([
  'alone-in-line',
  'marks-price',
  'itemprop-price',
  'heading-tag',
  'emphasis',
  'large-type',
  'near-action',
  'agrees-with-data',
  'agrees-with-meta',
  'label-price',
  'label-current-bid',
  'label-sold',
  'label-buy-now',
  'label-starting-bid',
  'label-asking',
  'label-regular-price',
])

/** A short line of this item, not of another on the page, that is a label of the concept. */
function ownLine(place: Labelled, concept: Concept): Line | undefined {
  const { evidence } = place
  return evidence.index.lines.find(
    (line) =>
      !line.hidden &&
      line.text.length <= 60 &&
      Math.abs(line.at - place.headlineLine) <= 60 &&
      evidence.lexicon.conceptsOf(line.text).includes(concept) &&
      !isElsewhere(place, line.node),
  )
}

/** "Zu verschenken" in the place of a price. */
function giveAway(place: Labelled): DecidedPrice | null {
  const { evidence } = place
  const line = ownLine(place, 'give-away')
  if (!line) return null
  return {
    money: { amount: '0', currency: evidence.currency },
    role: 'asking',
    provenance: { from: 'page', confidence: 0.8, where: buildSelector(evidence.index, line.node), quote: line.text },
  }
}

function isOnRequest(place: Labelled): boolean {
  return ownLine(place, 'on-request') !== undefined
}

/** Where bidding is on and "buy now" stands beside it, the price is what the bidding has reached. */
function preferBid(usable: readonly PriceCandidate[]): PriceCandidate | undefined {
  const best = usable[0]
  if (best?.role !== 'buy-now') return best
  // Labels and marks of the two lines differ by no more than this where they stand side by side.
  const bid = usable.find(
    (each) =>
      (each.role === 'current-bid' || each.role === 'starting-bid') &&
      best.score - each.score <= 3 &&
      !each.features.includes('in-group'),
  )
  return bid ?? best
}

/** The money of a candidate, with an open mark settled by the page's evidence. */
export function moneyOf(
  evidence: PageEvidence,
  candidate: PriceCandidate,
  data: { money: Money } | null,
): { money: Money; note?: string } {
  const { amount } = candidate.source
  if (!amount.assumed || !amount.mark) return { money: amount.money }
  const meaning = readCurrencyMark(amount.mark, {
    currencyHint: data?.money.currency ?? evidence.currency,
    locale: evidence.locale,
  })
  if (!meaning) return { money: amount.money }
  const money = { amount: amount.money.amount, currency: meaning.currency }
  return meaning.assumed ? { money, note: `"${amount.mark}" taken as ${meaning.currency}` } : { money }
}

export function quoteOf(evidence: PageEvidence, candidate: PriceCandidate): string {
  const line = evidence.index.lines[candidate.source.line]!
  return candidate.source.end > 0
    ? line.text.slice(candidate.source.start, candidate.source.end)
    : line.text.slice(0, 60)
}

function fromCandidate(
  evidence: PageEvidence,
  candidate: PriceCandidate,
  data: { money: Money } | null,
  confidence: number,
): DecidedPrice {
  const { money, note } = moneyOf(evidence, candidate, data)
  return {
    money,
    role: candidate.role,
    provenance: {
      from: 'page',
      confidence,
      where: buildSelector(evidence.index, candidate.source.node),
      quote: quoteOf(evidence, candidate),
      ...(note ? { note } : {}),
    },
  }
}

const THRESHOLD =
  /(?:over|above|from|of|ab|über|dès|de|desde|da|a|oltre|vanaf|boven|od|powyżej|acima de|för|fra|más de|[≥>])\s*$/i

/** "Free shipping over 50 €": the 50 € are no shipping. */
function isThreshold(evidence: PageEvidence, candidate: PriceCandidate): boolean {
  const { text } = evidence.index.lines[candidate.source.line]!
  return THRESHOLD.test(text.slice(0, candidate.source.start)) && evidence.lexicon.has(text, 'free')
}

/** The first amount of a role that belongs to this item, nearest to the heading's block. */
export function amountOfRole(place: Labelled, all: readonly PriceCandidate[], role: AmountRole): Found<Money> | null {
  const { evidence } = place
  let best: PriceCandidate | null = null
  for (const candidate of all) {
    if (candidate.role !== role || isElsewhere(place, candidate.source.node) || candidate.source.amount.negative)
      continue
    if (role === 'shipping' && isThreshold(evidence, candidate)) continue
    if (
      (candidate.features.includes('bracketed') && role !== 'shipping') ||
      candidate.features.includes('approximate') ||
      candidate.features.includes('struck-through')
    )
      continue
    if (
      best === null ||
      candidate.source.line < best.source.line ||
      (candidate.source.line === best.source.line && candidate.source.start < best.source.start)
    )
      best = candidate
  }
  if (!best) return null
  const { money, note } = moneyOf(evidence, best, null)
  return {
    value: money,
    from: 'page',
    confidence: 0.75,
    node: best.source.node,
    quote: evidence.index.lines[best.source.line]!.text.slice(0, 200),
    ...(note ? { note } : {}),
  }
}

/** Characters of a line that states an estimate; a longer one is prose. */
const ESTIMATE_LINE = 90

/** "1 000 € / 1 200 €": the second half has no label of its own. */
function isOtherHalf(evidence: PageEvidence, first: PriceCandidate, other: PriceCandidate): boolean {
  if (other.source.line !== first.source.line || other.source.start < first.source.end) return false
  const between = evidence.index.lines[first.source.line]!.text.slice(first.source.end, other.source.start)
  return /^\s*[/–—-]\s*$/.test(between)
}

export function readEstimate(
  place: Labelled,
  all: readonly PriceCandidate[],
): Found<{ low: Money; high: Money }> | null {
  const { evidence } = place
  const estimates = all
    .filter(
      (each) =>
        each.role === 'estimate' &&
        // In a description it is what somebody else thinks.
        each.source.lineLength <= ESTIMATE_LINE &&
        !isElsewhere(place, each.source.node) &&
        !each.features.includes('bracketed'),
    )
    .sort((a, b) => a.source.line - b.source.line || a.source.start - b.source.start)
  const first = estimates[0]
  if (!first) return null
  const second = estimates[1] ?? all.find((each) => isOtherHalf(evidence, first, each))
  const low = moneyOf(evidence, first, null).money
  const pair =
    second &&
    second.source.line - first.source.line <= 4 &&
    second.source.amount.money.currency === first.source.amount.money.currency
      ? moneyOf(evidence, second, null).money
      : low
  if (Number(pair.amount) < Number(low.amount)) return null
  return {
    value: { low, high: pair },
    from: 'page',
    confidence: 0.8,
    node: first.source.node,
    quote: evidence.index.lines[first.source.line]!.text.slice(0, 200),
  }
}

/** Shipping: an amount so labelled, or words that say it is free. */
export function readShipping(
  place: Labelled,
  all: readonly PriceCandidate[],
  currency: string | null,
  record: OfferRecord | null,
): Found<Money> | null {
  const { evidence } = place
  const { lexicon, index } = evidence
  const amount = amountOfRole(place, all, 'shipping')
  let free: Found<Money> | null = null
  const zero = { amount: '0', currency }
  for (const pair of place.pairs) {
    if (isElsewhere(place, pair.valueNode) || !lexicon.has(pair.label, 'shipping') || pair.value.length > 80) continue
    if (lexicon.has(pair.value, 'free') && !findAmounts(pair.value).some((each) => each.mark !== null)) {
      free = { value: zero, from: 'page', confidence: 0.8, node: pair.valueNode, quote: `${pair.label}: ${pair.value}` }
      break
    }
  }
  if (!free) {
    for (const line of place.lines) {
      if (line.text.length > 90) continue
      const hits = lexicon.find(line.text)
      if (!hits.some((hit) => hit.concept === 'free')) continue
      const ships =
        hits.some((hit) => hit.concept === 'shipping') ||
        /free shipping|free postage|free delivery|送料無料|versandkostenfrei|portofrei/i.test(line.text)
      if (!ships || hits.some((hit) => hit.concept === 'returns') || evidence.amountsByLine.has(line.at)) continue
      if (/\b(?:over|above|ab|dès|desde|oltre|vanaf|od|acima)\b/iu.test(line.text)) continue
      free = { value: zero, from: 'page', confidence: 0.75, node: line.node, quote: line.text }
      break
    }
  }
  if (amount && free) return index.nodes[free.node] && free.node < amount.node ? free : amount
  if (amount ?? free) return amount ?? free
  const stated = record?.shipping ?? null
  if (stated && /^\d+(?:\.\d+)?$/.test(stated.amount)) {
    return {
      value: { amount: stated.amount, currency: stated.currency ?? currency },
      from: record ? sourceOf(record) : 'json-ld',
      confidence: 0.6,
      node: -1,
    }
  }
  return null
}
