/** Rows of a results page: title, link, price, photo, sold or not, date, seller of each repeated record. */
import { hasLetter } from '../domain/letters.ts'
import type { ResultRow } from '../domain/listing.ts'
import type { Money } from '../domain/money.ts'
import { parseTime } from '../domain/parse-time.ts'
import { NOT_THE_PRICE } from './amount-context.ts'
import { buildSelector } from './build-selector.ts'
import { moneyOf } from './decide-price.ts'
import { foldWords } from './find-headline.ts'
import { lowerBound, type RecordGroup, rowTarget } from './find-record-groups.ts'
import { type IndexedNode, textOf } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'
import { isPhotoUrl } from './photo-variants.ts'
import { largestVariant, resolveUrl } from './read-gallery.ts'
import { cleanSellerName, SELLER_MARKS, SELLER_PATH } from './read-seller.ts'
import type { PriceCandidate, ScoredPrices } from './score-price.ts'

/** Rows read of one page; more than any page shows at once. */
const ROW_LIMIT = 1000
const TITLE_LIMIT = 500

/** Headings of lists of finished sales, plural forms too. */
const SOLD_WORD =
  /(?<!\p{L})(?:sold|completed|realised|realized|verkauft\p{L}*|beendet\p{L}*|vendu\p{L}*|vendid[oa]s?|vendut[oiea]|verkocht\p{L}*|sprzedan\p{L}*|såld\p{L}*|solgt\p{L}*|prodan\p{L}*)(?!\p{L})|落札/iu

interface RowsContext {
  readonly evidence: PageEvidence
  readonly prices: ScoredPrices
  /** First amount of each line and after, for a binary search. */
  readonly amountLines: readonly number[]
  /** The whole page lists finished sales. */
  readonly pageSold: boolean
}

export function* readRows(
  evidence: PageEvidence,
  groups: readonly RecordGroup[],
  prices: ScoredPrices,
  heading: string,
): Generator<undefined, ResultRow[]> {
  const context: RowsContext = {
    evidence,
    prices,
    amountLines: evidence.amounts.map((amount) => amount.line),
    pageSold: SOLD_WORD.test(heading.slice(0, 200)) || SOLD_WORD.test((evidence.metadata.title ?? '').slice(0, 200)),
  }
  const rows: ResultRow[] = []
  const seen = new Set<string>()
  for (const group of groups) {
    for (const at of group.rows) {
      if (rows.length >= ROW_LIMIT) return rows
      if (rows.length % 25 === 24) yield undefined
      const row = readRow(context, at)
      if (!row) continue
      // The same card twice in one list is one row (a carousel's clones).
      const key = `${row.url}\u0000${row.title}\u0000${row.price?.amount}`
      if (seen.has(key)) continue
      seen.add(key)
      rows.push(row)
    }
  }
  return dropStrangers(rows)
}

/** Host and first step of an address: records of one list share them, advertisements and help tiles do not. */
function shapeOf(url: string | null): string {
  return url === null ? '' : url.replace(/^(https?:\/\/[^/?#]+\/?[^/?#]*).*$/i, '$1').replace(/[\w-]*\d[\w-]*$/, '#')
}

function dropStrangers(rows: readonly ResultRow[]): ResultRow[] {
  if (rows.length < 6) return [...rows]
  const counts = new Map<string, number>()
  for (const row of rows) counts.set(shapeOf(row.url), (counts.get(shapeOf(row.url)) ?? 0) + 1)
  const [shape, count] = [...counts].reduce((best, each) => (each[1] > best[1] ? each : best))
  // Four fifths: where slugs are the first step, every address differs and nothing can be told.
  return count >= rows.length * 0.8 ? rows.filter((row) => shapeOf(row.url) === shape || row.url === null) : [...rows]
}

/** Lines of a row, in order. */
function* linesOf(evidence: PageEvidence, node: IndexedNode): Generator<{ at: number; text: string; node: number }> {
  const { index } = evidence
  for (let i = index.runs[node.firstRun]?.line ?? index.lines.length; i < index.lines.length; i += 1) {
    const line = index.lines[i]!
    if (line.firstRun >= node.lastRun) return
    if (!line.hidden) yield line
  }
}

function readRow(context: RowsContext, at: number): ResultRow | null {
  const { evidence } = context
  const { index, lexicon } = evidence
  const node = index.nodes[at]!
  if (!evidence.probe.isVisible(node.element)) return null
  const title = titleOf(context, at)
  if (!title) return null
  let sold: boolean | null = null
  let unsold = false
  let soldAt: string | null = null
  let bareDate: string | null = null
  let seller: string | null = null
  let free = false
  let previous = ''
  for (const line of linesOf(evidence, node)) {
    const { text } = line
    if (text.length > 160) continue
    const hits = text === title.text ? [] : lexicon.find(text)
    for (const hit of hits) {
      if (
        hit.concept === 'sold' &&
        !/^\s*(?:by|von|par|por|da|door)\b/iu.test(text.slice(hit.end)) &&
        !/(?:\d\s*|not |nicht |non |no |niet |nie |não |ej )$/iu.test(text.slice(0, hit.start))
      )
        sold = true
      if (hit.concept === 'sold' && /(?:not|nicht|non|niet|nie|não)\s+$/iu.test(text.slice(0, hit.start))) unsold = true
      if (hit.concept === 'give-away' || (hit.concept === 'free' && isWhole(text, hit.start, hit.end))) free = true
    }
    if (
      /^(?:unsold|unverkauft|invendu|no vendido|invenduto|onverkocht|niesprzedane|não vendido|passed|bought in|zurückgegangen|osåld|ej såld|återrop|usolgt|neprodáno|流札)$/iu.test(
        text.trim(),
      )
    )
      unsold = true
    if (/\d/.test(text) && text.length <= 80) {
      const time = parseTime(text, { now: evidence.now, locale: evidence.locale, direction: 'past' })
      if (time && time.iso !== '' && !isSpan(text)) {
        if (hits.some((hit) => hit.concept === 'sold' || hit.concept === 'ended') || lexicon.has(previous, 'sold'))
          soldAt ??= time.iso
        else bareDate ??= time.iso
      }
    }
    seller ??= sellerIn(text, hits)
    previous = text
  }
  const byColumn = readColumns(context, node)
  seller = byColumn.seller ?? seller ?? sellerOfLinks(context, node)
  if ((context.pageSold || byColumn.sold) && sold === null && !unsold) sold = true
  if (unsold) sold = false
  const money = byColumn.price ?? priceOf(context, at)
  const price = money ?? (free ? { amount: '0', currency: evidence.currency } : null)
  const where = buildSelector(index, at)
  return {
    title: title.text.slice(0, TITLE_LIMIT),
    url: resolveUrl(evidence, title.href ?? rowTarget(evidence, at)),
    price: unsold && !money ? null : price,
    sold,
    soldAt: sold ? (soldAt ?? bareDate) : null,
    photo: photoOf(evidence, at),
    seller,
    ...(where ? { where } : {}),
  }
}

function isWhole(text: string, start: number, end: number): boolean {
  return !hasLetter(text.slice(0, start) + text.slice(end))
}

/** "3 days ago" is a date; "2d 4h" is time left. */
function isSpan(text: string): boolean {
  return !/\d{4}|\d{1,2}[./-]\d{1,2}|月|\p{L}{3,}\.?\s\d{1,2}|\d{1,2}\.?\s(?:de\s)?\p{L}{3,}/u.test(text)
}

function sellerIn(text: string, hits: readonly { concept: string; start: number; end: number }[]): string | null {
  const hit = hits.find((each) => each.concept === 'seller' && each.start <= 2)
  const led = hit
    ? text.slice(hit.end)
    : /^(?:by|von|par|por|da|van|od|av|fra)\s+(?=\S)/iu.exec(text)
      ? text.replace(/^\S+\s+/, '')
      : null
  if (led !== null && text.length <= 80) {
    const name = cleanSellerName(led.replace(/^\s*[:：]?\s*/, ''))
    if (
      name.length >= 2 &&
      name.length <= 40 &&
      !/^\d+(?:[.,]\d+)?\s?(?:€|\$|£|%)?$/.test(name) &&
      name.split(' ').length <= 5
    )
      return name
  }
  // "reefline.relics (2,210) 100%"
  const scored = /^([\w.\-*À-ž]{3,30})\s*\((\d[\d.,]*)\)/.exec(text)
  return scored ? scored[1]! : null
}

function sellerOfLinks(context: RowsContext, row: IndexedNode): string | null {
  const { evidence } = context
  const { index, links, lexicon } = evidence
  const fits = (text: string): boolean =>
    text.length >= 2 && text.length <= 40 && lexicon.conceptsOf(text).length === 0 && hasLetter(text)
  for (let i = lowerBound(links, row.at); i < links.length && links[i]! < row.end; i += 1) {
    const link = index.nodes[links[i]!]!
    if (!SELLER_PATH.test(link.element.getAttribute('href') ?? '')) continue
    const name = cleanSellerName(textOf(index, link.at, 80))
    if (fits(name)) return name
  }
  for (let at = row.at + 1; at < row.end; at += 1) {
    const node = index.nodes[at]!
    if (
      !node.marks ||
      !SELLER_MARKS.test(node.marks) ||
      node.lastRun - node.firstRun > 2 ||
      node.firstRun === node.lastRun
    )
      continue
    const name = cleanSellerName(textOf(index, at, 80))
    if (fits(name)) return name
  }
  return null
}

const headsOfTables = new WeakMap<PageEvidence, Map<number, readonly string[]>>()

/** What the heads of a table's columns call the cells of this row. */
function readColumns(
  context: RowsContext,
  row: IndexedNode,
): { seller: string | null; sold: boolean; price: Money | null } {
  const none = { seller: null, sold: false, price: null }
  if (row.tag !== 'tr') return none
  const { evidence } = context
  const { index, lexicon } = evidence
  let table = row.parent
  while (table > 0 && index.nodes[table]!.tag !== 'table') table = index.nodes[table]!.parent
  if (table <= 0) return none
  const tables = headsOfTables.get(evidence) ?? new Map<number, readonly string[]>()
  headsOfTables.set(evidence, tables)
  let heads = tables.get(table)
  if (!heads) {
    let first = table + 1
    while (first < index.nodes[table]!.end && index.nodes[first]!.tag !== 'tr') first += 1
    heads = first < row.at ? cellsOf(evidence, first).map((at) => textOf(index, at, 80)) : []
    tables.set(table, heads)
  }
  if (heads.length < 2) return none
  const cells = cellsOf(evidence, row.at)
  const cellOf = (concepts: readonly string[]): number | null => {
    for (const concept of concepts) {
      const column = heads.findIndex((head) => lexicon.conceptsOf(head).includes(concept as never))
      if (column >= 0 && cells[column] !== undefined) return cells[column]!
    }
    return null
  }
  const sellerCell = cellOf(['seller'])
  const seller = sellerCell === null ? null : cleanSellerName(textOf(index, sellerCell, 80)) || null
  const priceCell = cellOf(['sold', 'current-bid', 'price', 'starting-bid', 'buy-now'])
  let price: Money | null = null
  if (priceCell !== null) {
    const node = index.nodes[priceCell]!
    const amount = evidence.amounts.find((each) => each.node >= priceCell && each.node < node.end)
    const candidate = amount ? context.prices.candidateOf(amount) : undefined
    if (candidate) price = moneyOf(evidence, candidate, null).money
  }
  const sold = price !== null && priceCell === cellOf(['sold'])
  return { seller: seller && seller.length <= 60 ? seller : null, sold, price }
}

function cellsOf(evidence: PageEvidence, row: number): number[] {
  const { index } = evidence
  const cells: number[] = []
  for (let at = row + 1; at < index.nodes[row]!.end; at = index.nodes[at]!.end) cells.push(at)
  return cells
}

/** The words of the row's main link or heading; a picture's alternative text where the link holds only a picture. */
function titleOf(context: RowsContext, at: number): { text: string; href: string | null } | null {
  const { evidence } = context
  const { index, links, lexicon } = evidence
  const node = index.nodes[at]!
  let best: { text: string; href: string | null; score: number } | null = null
  const consider = (text: string, href: string | null, score: number): void => {
    const clean = text.replace(/\s+/g, ' ').trim()
    if (clean.length < 3 || !hasLetter(clean) || lexicon.conceptsOf(clean).length > 0) return
    const words = foldWords(clean).length
    const total =
      score + Math.min(words, 8) * 0.35 - (clean.length > 250 ? 2 : 0) - (words === 1 && clean.length < 6 ? 1 : 0)
    if (best === null || total > best.score) best = { text: clean, href, score: total }
  }
  const hrefAbove = (from: number): string | null => {
    for (let up = from, step = 0; up > 0 && step < 6; up = index.nodes[up]!.parent, step += 1) {
      if (index.nodes[up]!.tag === 'a') return index.nodes[up]!.element.getAttribute('href')
      if (up === at) break
    }
    return null
  }
  for (let inner = at; inner < node.end; inner += 1) {
    const each = index.nodes[inner]!
    if (each.hidden || each.firstRun === each.lastRun) continue
    const heading = /^h[1-6]$/.test(each.tag) || each.role === 'heading'
    const marked =
      !heading &&
      each.marks !== '' &&
      inner !== at &&
      each.children < 5 &&
      each.lastRun - each.firstRun <= 4 &&
      TITLE_MARKS.test(each.marks)
    if (heading || marked)
      consider(textOf(index, inner, TITLE_LIMIT), firstLinkIn(evidence, inner) ?? hrefAbove(inner), heading ? 4 : 2.5)
  }
  for (let i = lowerBound(links, at); i < links.length && links[i]! < node.end; i += 1) {
    const link = index.nodes[links[i]!]!
    const href = link.element.getAttribute('href')
    const seller = SELLER_PATH.test(href ?? '') ? -1.5 : 0
    const whole = link.at === at || link.lastRun - link.firstRun > 4
    const text = textOf(index, link.at, TITLE_LIMIT)
    if (text && !whole) consider(text, href, 2 + seller)
    const label = link.element.getAttribute('title') ?? link.element.getAttribute('aria-label')
    if (label && !text) consider(label, href, 1)
  }
  if (best !== null) return best
  // A row that is one link: the first line that is no label and holds no amount.
  let order = 0
  for (const line of linesOf(evidence, node)) {
    if (context.amountLines[lowerBound(context.amountLines, line.at)] === line.at) continue
    consider(line.text, hrefAbove(line.node), 0.5 - order * 0.4)
    order += 1
    if (order > 8) break
  }
  for (let i = lowerBound(evidence.images, at); i < evidence.images.length && evidence.images[i]! < node.end; i += 1) {
    const alt = index.nodes[evidence.images[i]!]!.element.getAttribute('alt')
    if (alt) consider(alt, null, 0)
  }
  return best
}

const TITLE_MARKS =
  /title|headline|item-?name|product-?name|\bname\b|(?:^|[\s_-])nm(?:$|[\s_-])|titel|titre|titulo|titolo/

function firstLinkIn(evidence: PageEvidence, at: number): string | null {
  const { index, links } = evidence
  const link = links[lowerBound(links, at)]
  return link !== undefined && link < index.nodes[at]!.end ? index.nodes[link]!.element.getAttribute('href') : null
}

function priceOf(context: RowsContext, at: number): Money | null {
  const { evidence, prices } = context
  const { index, amounts } = evidence
  const node = index.nodes[at]!
  const firstLine = index.runs[node.firstRun]?.line
  if (firstLine === undefined) return null
  const fitting: PriceCandidate[] = []
  for (let i = lowerBound(context.amountLines, firstLine); i < amounts.length; i += 1) {
    const source = amounts[i]!
    if (index.lines[source.line]!.firstRun >= node.lastRun) break
    if (source.node < at || source.node >= node.end) continue
    const candidate = prices.candidateOf(source)
    if ((candidate.role && NOT_THE_PRICE.has(candidate.role)) || source.amount.negative) continue
    if (!candidate.features.includes('struck-through')) fitting.push(candidate)
  }
  let best: { candidate: PriceCandidate; score: number } | null = null
  for (const candidate of fitting) {
    if (fitting.length > 1 && evidence.probe.isStruckThrough(index.nodes[candidate.source.node]!.element)) continue
    const score = candidate.score - (candidate.features.includes('marks-other') ? 2 : 0)
    if (best === null || score > best.score) best = { candidate, score }
  }
  return best ? moneyOf(evidence, best.candidate, null).money : null
}

function photoOf(evidence: PageEvidence, at: number): string | null {
  const { index, images, backgrounds } = evidence
  const node = index.nodes[at]!
  for (let i = lowerBound(images, at); i < images.length && images[i]! < node.end; i += 1) {
    const url = resolveUrl(evidence, largestVariant(evidence, images[i]!))
    if (url && isPhotoUrl(url)) return url
  }
  for (let i = lowerBound(backgrounds, at); i < backgrounds.length && backgrounds[i]! < node.end; i += 1) {
    const match = /url\(\s*["']?([^"')]+)["']?\s*\)/.exec(
      index.nodes[backgrounds[i]!]!.element.getAttribute('style') ?? '',
    )
    const url = resolveUrl(evidence, match?.[1])
    if (url && isPhotoUrl(url)) return url
  }
  return null
}
