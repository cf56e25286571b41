/** Which of the page's own data records is about the thing offered: a page also states breadcrumbs, reviews, related goods, lists. */
import { type Headline, overlap } from './find-headline.ts'
import type { PageEvidence } from './page-evidence.ts'
import { resolveUrl } from './read-gallery.ts'
import { hasType, itemsOf, type StructuredItem } from './structured/graph.ts'
import { isProduct, type OfferRecord } from './structured/offer-records.ts'

const ASIDE_LINKS = [
  'isRelatedTo',
  'isSimilarTo',
  'isAccessoryOrSparePartFor',
  'itemListElement',
  'isConsumableFor',
  'review',
  'hasVariant',
] as const

/** The application's own item, where its id stands in the address or its name is the page's heading. */
function selectState(evidence: PageEvidence, headline: Headline | null): OfferRecord | null {
  const path = (evidence.url ?? '').replace(/^https?:\/\/[^/]+/, '')
  const title = evidence.metadata.names.get('og:title') ?? evidence.metadata.title ?? ''
  let best: { record: OfferRecord; score: number } | null = null
  for (const { record, inList, id } of evidence.state) {
    const name = record.name ?? ''
    const named = Math.max(
      headline ? Math.min(overlap(name, headline.text), overlap(headline.text, name)) : 0,
      overlap(name, title) * 0.9,
    )
    const addressed =
      (id !== null && id.length >= 3 && path.includes(id)) ||
      (record.url !== null && record.url.length > 5 && path.includes(record.url.replace(/^https?:\/\/[^/]+/, '')))
    const score = named * 2 + (addressed ? 2 : 0) - (inList ? 0.5 : 0)
    if (score >= 1.5 && (best === null || score > best.score)) best = { record, score }
  }
  return best?.record ?? null
}

export interface RecordSelection {
  readonly main: OfferRecord | null
  /** Different things that the data states, apart from the main one. */
  readonly others: number
}

export function selectRecord(evidence: PageEvidence, headline: Headline | null): RecordSelection {
  const aside = new Set<StructuredItem>()
  for (const graph of evidence.graphs) {
    for (const item of graph.items) {
      for (const property of ASIDE_LINKS) {
        for (const linked of itemsOf(graph, item, property)) {
          aside.add(linked)
          for (const inner of itemsOf(graph, linked, 'item', 'url')) aside.add(inner)
        }
      }
    }
  }
  const here = (evidence.url ?? evidence.metadata.canonical ?? '').replace(/[?#].*$/, '')
  const canonical = resolveUrl(evidence, evidence.metadata.canonical)?.replace(/[?#].*$/, '') ?? here
  const goods = evidence.records.filter((record) => !record.lease && (record.item === null || isGoods(record)))
  let main: OfferRecord | null = null
  let best = Number.NEGATIVE_INFINITY
  for (const record of goods) {
    let score = 0
    if (record.item && aside.has(record.item)) score -= 3
    const name = record.name
    if (name && headline) score += Math.min(overlap(name, headline.text), 1) * 2 + overlap(headline.text, name) * 2
    else if (name && evidence.metadata.title) score += overlap(name, evidence.metadata.title) * 2
    const url = resolveUrl(evidence, record.url ?? record.offerUrl)?.replace(/[?#].*$/, '')
    if (url && (url === here || url === canonical)) score += 2
    else if (url && url !== here) score -= 0.5
    if (record.price !== null || record.lowPrice !== null) score += 1
    if (record.offerType === 'AggregateOffer') score += 0.3
    if (record.item && isProduct(record.item)) score += 0.5
    // Of equals the first stated counts.
    if (score > best) {
      best = score
      main = record
    }
  }
  // Data about something that neither the heading nor the title knows is about something else.
  if (main && headline && isStranger(evidence, main, headline)) main = null
  const names = new Set(
    goods.filter((record) => record.item !== null && record.item !== main?.item).map((record) => record.name),
  )
  // One record among many that does not fit the heading is one of a list.
  if (main && names.size >= 2 && best < 2.5) main = null
  if (main?.item && aside.has(main.item) && best < 2) main = null
  return { main: main ?? selectState(evidence, headline), others: names.size }
}

function isStranger(evidence: PageEvidence, record: OfferRecord, headline: Headline): boolean {
  if (record.name === null || headline.score < 4) return false
  if (overlap(record.name, headline.text) >= 0.34 || overlap(headline.text, record.name) >= 0.34) return false
  return !evidence.metadata.title || overlap(record.name, evidence.metadata.title) < 0.5
}

function isGoods(record: OfferRecord): boolean {
  if (!record.item) return false
  if (isProduct(record.item)) return true
  if (
    hasType(
      record.item,
      /^(?:Service|JobPosting|Organization|LocalBusiness|WebSite|WebApplication|SoftwareApplication|Hotel|Restaurant)$/,
    )
  )
    return false
  return record.offer !== null
}
