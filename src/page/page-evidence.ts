/**
 * Everything about one page that several parts of the reader look at, gathered once: the index, the words of its language, its
 * own data, and running counts that make "how many links (pictures, amounts) are inside this element" a subtraction.
 */
import { ownEntry } from '../domain/own-entry.ts'
import { type Amount, findAmounts } from '../domain/parse-money.ts'
import { detectLanguage } from './detect-language.ts'
import { indexInSteps, type PageIndex } from './index-document.ts'
import type { LayoutProbe } from './layout-probe.ts'
import { createLexicon, hasLabels, type Language, type Lexicon } from './lexicon.ts'
import type { StructuredGraph } from './structured/graph.ts'
import { readJsonLd } from './structured/json-ld.ts'
import { type PageMetadata, readMetadata } from './structured/metadata.ts'
import { readMicrodata } from './structured/microdata.ts'
import { type OfferRecord, readOfferRecords } from './structured/offer-records.ts'
import { readRdfa } from './structured/rdfa.ts'
import { readState, type StateRecord } from './structured/state.ts'

/** A chance to pause; with languages: their label words are wanted and not known yet. */
export type Pause = readonly Language[] | undefined

export interface PageAmount {
  readonly amount: Amount
  /** The element that holds all of it. */
  readonly node: number
  readonly line: number
  /** UTF-16 offsets in the line; both 0 where the amount was put together from several lines. */
  readonly start: number
  readonly end: number
  /** The line is prose, or the amount stands among many words. */
  readonly lineLength: number
}

export interface PageEvidence {
  readonly index: PageIndex
  readonly url: string | null
  readonly now: string
  readonly probe: LayoutProbe
  readonly language: string | null
  readonly lexicon: Lexicon
  readonly metadata: PageMetadata
  readonly graphs: readonly StructuredGraph[]
  readonly records: readonly OfferRecord[]
  /** Goods named by the application's embedded state. */
  readonly state: readonly StateRecord[]
  /** Something was larger than its budget and was left unread. */
  readonly cut: boolean
  /** The currency that the page's own data or its unambiguous prices name. */
  readonly currency: string | null
  /** Language with the region of the page's own data or host, for `$`, `kr` and dates. */
  readonly locale: string | null
  readonly amounts: readonly PageAmount[]
  readonly amountsByLine: ReadonlyMap<number, readonly PageAmount[]>
  readonly links: readonly number[]
  readonly images: readonly number[]
  /** Elements with a picture as background, and links to picture files that hold no picture themselves. */
  readonly backgrounds: readonly number[]
  /** Attribute values that hold lists of picture addresses as data. */
  readonly dataLists: readonly string[]
  readonly counts: { readonly links: Uint32Array; readonly images: Uint32Array; readonly amounts: Uint32Array }
}

/** ASCII, full-width, Arabic and Indic digits. */
const HAS_DIGIT = /[\d\u0660-\u0669\u06f0-\u06f9\u0966-\u096f\u09e6-\u09ef\uff10-\uff19]/
/** Lines between two chances to pause. */
const LINES_A_STEP = 300
const NODES_A_STEP = 4000
/** Amounts kept of one page: a results page of a thousand rows has fewer. */
const AMOUNT_LIMIT = 6000
const IMAGE_LINK = /\.(?:jpe?g|png|webp|avif)(?:$|[?#])/i
const PICTURE_MARKS = /galler|carousel|slide|swiper|photo|image|picture|zoom|viewer|media|bild|foto/
const PRICE_MARKS = /price|preis|prix|precio|prezzo|prijs|cena|preco|amount|\bbid\b|betrag|gebot/

export function countIn(counts: Uint32Array, index: PageIndex, at: number): number {
  return counts[index.nodes[at]!.end]! - counts[at]!
}

export function* gatherEvidence(
  document: Document,
  options: { url: string | null; now: string; probe: LayoutProbe; budget?: number },
): Generator<Pause, PageEvidence> {
  const index = yield* indexInSteps(document, options.budget)
  const metadata = readMetadata(document, index.metas)
  const graphs = [readJsonLd(index.scripts), readMicrodata(index), readRdfa(index)]
  const records = graphs.flatMap(readOfferRecords)
  yield undefined
  const state = readState(index.scripts)
  yield undefined
  const stated =
    document.documentElement?.getAttribute('lang') ||
    metadata.names.get('og:locale')?.replace('_', '-') ||
    metadata.names.get('content-language') ||
    null
  const finding = detectLanguage(
    stated,
    (function* () {
      for (const line of index.lines) if (!line.hidden) yield line.text
    })(),
  )
  const unknown = finding.languages.filter((language) => !hasLabels(language))
  if (unknown.length > 0) yield unknown
  const locale = localeOf(stated ?? finding.tag, options.url, metadata)
  const currency = statedCurrency(records, metadata)
  const amounts = yield* collectAmounts(index, currency, locale)
  const links: number[] = []
  const images: number[] = []
  const backgrounds: number[] = []
  const dataLists: string[] = []
  const size = index.nodes.length + 1
  const counts = { links: new Uint32Array(size), images: new Uint32Array(size), amounts: new Uint32Array(size) }
  const perNode = new Uint32Array(size)
  for (const amount of amounts) perNode[amount.node] = perNode[amount.node]! + 1
  for (const node of index.nodes) {
    if (node.at % NODES_A_STEP === 0) yield undefined
    const isLink = node.tag === 'a' && node.element.hasAttribute('href')
    const isImage = node.tag === 'img' || node.tag === 'amp-img'
    if (isLink) links.push(node.at)
    if (isImage) images.push(node.at)
    else if (backgrounds.length < 500) {
      const style = node.styled ? node.element.getAttribute('style') : null
      if (style?.includes('url(')) backgrounds.push(node.at)
      else if (isLink && node.firstRun === node.lastRun && IMAGE_LINK.test(node.element.getAttribute('href') ?? ''))
        backgrounds.push(node.at)
    }
    if (
      (node.marks || node.tag.includes('-')) &&
      dataLists.length < 40 &&
      PICTURE_MARKS.test(`${node.tag} ${node.marks}`)
    ) {
      for (const { value } of node.element.attributes)
        if (value.length > 30 && value.length < 60_000 && /^\s*[[{]/.test(value)) dataLists.push(value)
    }
    counts.links[node.at + 1] = counts.links[node.at]! + (isLink ? 1 : 0)
    counts.images[node.at + 1] = counts.images[node.at]! + (isImage ? 1 : 0)
    counts.amounts[node.at + 1] = counts.amounts[node.at]! + perNode[node.at]!
  }
  return {
    index,
    url: options.url,
    now: options.now,
    probe: options.probe,
    language: finding.tag,
    lexicon: createLexicon(finding.languages),
    metadata,
    graphs,
    records,
    state: state.records,
    cut: index.cut || state.cut,
    currency: currency ?? commonestCurrency(amounts),
    locale,
    amounts,
    amountsByLine: byLine(amounts),
    links,
    images,
    backgrounds,
    dataLists,
    counts,
  }
}

function byLine(amounts: readonly PageAmount[]): Map<number, PageAmount[]> {
  const lines = new Map<number, PageAmount[]>()
  for (const amount of amounts) {
    const known = lines.get(amount.line)
    if (known) known.push(amount)
    else lines.set(amount.line, [amount])
  }
  return lines
}

function statedCurrency(records: readonly OfferRecord[], metadata: PageMetadata): string | null {
  const named =
    metadata.names.get('product:price:currency') ??
    metadata.names.get('og:price:currency') ??
    records.find((record) => record.priceCurrency)?.priceCurrency
  const code = named?.trim().toUpperCase()
  return code && /^[A-Z]{3}$/.test(code) ? code : null
}

function commonestCurrency(amounts: readonly PageAmount[]): string | null {
  const counts = new Map<string, number>()
  for (const { amount } of amounts) {
    const code = amount.money.currency
    if (code && !amount.assumed && !amount.weak) counts.set(code, (counts.get(code) ?? 0) + 1)
  }
  let best: string | null = null
  for (const [code, count] of counts) if (best === null || count > counts.get(best)!) best = code
  return best
}

/** Country domains whose money `$` or `kr` would be; generic domains say nothing. */
const DOMAIN_REGION: Readonly<Record<string, string>> = {
  ca: 'CA',
  au: 'AU',
  nz: 'NZ',
  sg: 'SG',
  hk: 'HK',
  mx: 'MX',
  ar: 'AR',
  cl: 'CL',
  uy: 'UY',
  tw: 'TW',
  se: 'SE',
  no: 'NO',
  dk: 'DK',
  is: 'IS',
  in: 'IN',
  pk: 'PK',
  lk: 'LK',
  za: 'ZA',
  cn: 'CN',
  jp: 'JP',
  us: 'US',
}

function localeOf(language: string | null, url: string | null, metadata: PageMetadata): string | null {
  const base = language?.trim() || null
  // The host's country says more about the money than a template's `en-US`.
  const host = url && /^https?:\/\/([^/:?#]+)/i.exec(url)?.[1]
  const region = host ? ownEntry(DOMAIN_REGION, host.split('.').at(-1)!.toLowerCase()) : undefined
  if (region) return `${base?.split(/[-_]/)[0] ?? 'en'}-${region}`
  if (base && /[-_]/.test(base)) return base
  const og = metadata.names.get('og:locale')
  if (og && /^[a-z]{2}[_-][A-Z]{2}$/.test(og)) return og.replace('_', '-')
  return base
}

function* collectAmounts(
  index: PageIndex,
  currency: string | null,
  locale: string | null,
): Generator<undefined, PageAmount[]> {
  const found: PageAmount[] = []
  const options = { currencyHint: currency, locale }
  const marked = new Set<number>()
  const unmarked = new Set<string>()
  for (const line of index.lines) {
    if (line.hidden || found.length >= AMOUNT_LIMIT || !HAS_DIGIT.test(line.text)) continue
    if (line.at % LINES_A_STEP === 0) yield undefined
    const text = line.text.length > 2000 ? line.text.slice(0, 2000) : line.text
    // "Lot 17", "Lot 18" …: whether figures have a mark beside them does not depend on the figures.
    const shape = text.replace(/\d/g, '0')
    if (unmarked.has(shape)) continue
    const amountsHere = findAmounts(text, options)
    if (amountsHere.every((amount) => amount.mark === null)) unmarked.add(shape)
    for (const amount of amountsHere) {
      if (amount.mark === null) continue
      found.push({
        amount,
        node: nodeOfSpan(index, line.firstRun, line.lastRun, amount.start, amount.end),
        line: line.at,
        start: amount.start,
        end: amount.end,
        lineLength: line.text.length,
      })
      marked.add(line.at)
    }
  }
  // Prices whose mark and number stand in blocks of their own: put together only inside an element that is named for a price.
  for (const node of index.nodes) {
    if (
      node.hidden ||
      node.children < 2 ||
      !PRICE_MARKS.test(node.marks) ||
      node.lastRun - node.firstRun < 2 ||
      node.lastRun - node.firstRun > 6
    )
      continue
    let joined = ''
    let complete = false
    const firstLine = index.runs[node.firstRun]!.line
    for (let i = node.firstRun; i < node.lastRun; i += 1) {
      const run = index.runs[i]!
      if (marked.has(run.line)) complete = true
      const piece = run.text.trim()
      joined += /^\d\d$/.test(piece) && /\d$/.test(joined) && !/[.,]/.test(joined) ? `.${piece}` : piece
    }
    if (complete || joined.length > 40 || index.runs[node.lastRun - 1]!.line === firstLine) continue
    const amount = findAmounts(joined, options).find((each) => each.mark !== null)
    if (!amount) continue
    found.push({ amount, node: node.at, line: firstLine, start: 0, end: 0, lineLength: joined.length })
    for (let i = node.firstRun; i < node.lastRun; i += 1) marked.add(index.runs[i]!.line)
  }
  return found.sort((a, b) => a.line - b.line || a.start - b.start)
}

/** Deepest element that holds the whole span of a line. */
export function nodeOfSpan(index: PageIndex, firstRun: number, lastRun: number, start: number, end: number): number {
  let first = -1
  let last = -1
  for (let i = firstRun; i < lastRun; i += 1) {
    const run = index.runs[i]!
    if (run.offset + run.text.length <= start && first < 0) continue
    if (run.offset >= end) break
    if (first < 0) first = run.node
    last = run.node
  }
  if (first < 0) return index.runs[firstRun]?.node ?? 0
  let at = first
  while (at > 0 && !(last >= at && last < index.nodes[at]!.end)) at = index.nodes[at]!.parent
  return Math.max(at, 0)
}
