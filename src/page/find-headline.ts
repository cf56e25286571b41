/** The page's main heading: the words that name the thing offered, as shown, and where they stand. */
import { wordsOf } from '../domain/letters.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { REGION, textOf } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'

export interface Headline {
  readonly node: number
  readonly text: string
  readonly score: number
}

const TITLE_MARKS =
  /(?:^|[\s_-])(?:title|headline|heading|item-?name|product-?name|item-?title|product-?title|listing-?title|lot-?title|ad-?title|titel|titre|titulo|titolo)(?:$|[\s_-])/
/** Screen readers' lead-ins that some templates put before the title. */
const LEAD_IN = /^(?:details about|item title|title|produktinformationen|artikel)\s*[:\u00a0]\s*/i

export function foldWords(text: string): string[] {
  return folded(text).words
}

/** The same titles, names and captions are compared over and over while one page is read. */
const memo = new Map<string, { words: string[]; set: ReadonlySet<string> }>()
const MEMO_LIMIT = 3000

function folded(text: string): { words: string[]; set: ReadonlySet<string> } {
  let known = memo.get(text)
  if (!known) {
    const words = wordsOf(text.normalize('NFKC').toLowerCase())
    known = { words, set: new Set(words) }
    if (memo.size >= MEMO_LIMIT) memo.clear()
    memo.set(text, known)
  }
  return known
}

/** Share of the words of `part` that `whole` has too, 0–1. */
export function overlap(part: string, whole: string): number {
  const { words } = folded(part)
  if (words.length === 0) return 0
  const others = folded(whole).set
  let shared = 0
  for (const word of words) if (others.has(word)) shared += 1
  return shared / words.length
}

/** A lot's number in an element of its own before the title is not part of it. */
function withoutNumber(evidence: PageEvidence, at: number, text: string): string {
  const { index } = evidence
  const node = index.nodes[at]!
  const first = index.runs[node.firstRun]
  if (!first || node.lastRun - node.firstRun < 2 || first.node === index.runs[node.firstRun + 1]!.node) return text
  const lead = first.text.trim()
  return /^(?:lot|los|lote|kavel|lotto|n[°º.]?|nr\.?|no\.?|#)?\s*\d{1,5}\s*[.:)]?$/i.test(lead) && text.startsWith(lead)
    ? text.slice(lead.length)
    : text
}

function isGeneric(text: string): boolean {
  return foldWords(text).length === 0
}

export function findHeadline(evidence: PageEvidence, groups: readonly RecordGroup[]): Headline | null {
  const { index, metadata, records, probe, lexicon } = evidence
  const titles = [metadata.title, metadata.names.get('og:title'), metadata.names.get('twitter:title')].filter(
    (text) => text !== null && text !== undefined,
  )
  const names = records.map((record) => record.name).filter((name) => name !== null)
  const numbers = pageNumbers(evidence)
  const site = siteNames(evidence)
  const alts = imageTexts(evidence, groups)
  const telling = tellingLines(evidence, groups)
  let best: Headline | null = null
  const consider = (at: number, base: number): void => {
    const node = index.nodes[at]!
    if (node.hidden) return
    const text = cleanTitle(withoutNumber(evidence, at, textOf(index, at, 12_000)))
    if (text.length < 2 || text.length > 11_000 || isGeneric(text)) return
    let score = base
    if (text.length > 400) score -= 1
    const agreement = Math.max(0, ...titles.map((title) => overlap(text, title)))
    const group = groupAt(index, groups, at)
    // Titles of other records are many, and none of them is the page's own.
    if (group && group.group.rows.length >= 4 && agreement < 0.5) return
    const covered = Math.max(0, ...titles.map((title) => overlap(title, text)))
    score += agreement * 3 + covered * 1.5
    if (names.some((name) => overlap(text, name) > 0.85 && overlap(name, text) > 0.6)) score += 2.5
    if (alts.some((alt) => overlap(text, alt) > 0.6 && overlap(alt, text) > 0.6)) score += 1.5
    if (/[:：]$/.test(text)) score -= 3
    if (SALE_HEADING.test(text)) score -= 3.5
    if (isNumbered(evidence, numbers, at)) score += 1.5
    if (followsLabel(evidence, at)) score -= 2.5
    if (site.has(foldWords(text).join(''))) score -= 4
    score += Math.min(1.5, 0.3 * countTelling(evidence, telling, at))
    if (node.region & REGION.chrome) score -= 2.5
    if (node.region & REGION.dialog) score -= 2.5
    if (node.region & REGION.related) score -= 2
    if (node.region & REGION.aside) score -= 1
    if (foldWords(text).length === 1) score -= 0.7
    // Numbers and codes name nothing.
    if (!/\p{L}{3}|[\u3040-\u30ff\u4e00-\u9fff]{2}/u.test(text)) score -= 2.5
    if (group) score -= 3
    if (lexicon.conceptsOf(text).length > 0) score -= 3
    if (best === null || score > best.score) {
      if (!probe.isVisible(node.element)) return
      best = { node: at, text, score }
    }
  }
  let others = 0
  for (const node of index.nodes) {
    if (node.firstRun === node.lastRun) continue
    if (node.tag === 'h1') consider(node.at, 4)
    else if (node.tag === 'h2') consider(node.at, 2)
    else if (node.tag === 'h3' || node.role === 'heading') consider(node.at, 1.2)
    else if (node.markup & 1 && node.element.getAttribute('itemprop') === 'name' && node.children < 4)
      consider(node.at, 1.5)
    else if (node.marks && others < 400 && node.children < 4 && TITLE_MARKS.test(node.marks)) {
      others += 1
      consider(node.at, 1.2)
    }
  }
  if (best === null || (best as Headline).score < 5) {
    considerLines(evidence, titles, consider)
    considerEmphasis(evidence, consider)
  }
  return best
}

const EMPHASIS = /^(?:b|strong|big|font|center|caption|legend|em|summary)$/

/** Old pages set the title in bold or large type. */
function considerEmphasis(evidence: PageEvidence, consider: (at: number, base: number) => void): void {
  const { index } = evidence
  let seen = 0
  for (const line of index.lines) {
    if (line.hidden || line.text.length < 12 || line.text.length > 200 || seen > 200) continue
    const run = index.runs[line.firstRun]
    if (!run || line.lastRun - line.firstRun > 2) continue
    let base = 0
    for (let up = run.node, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1) {
      const { tag, element } = index.nodes[up]!
      if (!EMPHASIS.test(tag)) continue
      const large =
        tag === 'big' || tag === 'center' || (tag === 'font' && /[+4-7]/.test(element.getAttribute('size') ?? ''))
      base = Math.max(base, large ? 1.6 : 0.8)
    }
    if (base === 0) continue
    consider(run.node, base)
    seen += 1
  }
}

/** "Sale 31: Northern Classics": the auction's own heading above the lot's. */
const SALE_HEADING =
  /^(?:sale|auction|auktion|versteigerung|vente|enchères|subasta|asta|veiling|aukcja|leilão|auktionen)\s+(?:n[.ro°º]*\s*)?\d+/iu

/** Numbers that the document's title or the end of its address carry: this page's own. */
function pageNumbers(evidence: PageEvidence): ReadonlySet<string> {
  const path = (evidence.url ?? '')
    .replace(/[?#].*$/, '')
    .split('/')
    .slice(-2)
    .join(' ')
  return new Set(`${evidence.metadata.title ?? ''} ${path}`.match(/\d{2,}/g) ?? [])
}

/** "Lot 212" in the lines around a heading, where 212 is this page's number. */
function isNumbered(evidence: PageEvidence, numbers: ReadonlySet<string>, at: number): boolean {
  const { index, lexicon } = evidence
  const own = index.runs[index.nodes[at]!.firstRun]
  if (!own || numbers.size === 0) return false
  for (let step = -2; step <= 2; step += 1) {
    const line = index.lines[own.line + step]
    if (!line || line.text.length > 80 || !lexicon.has(line.text, 'item-number')) continue
    if ((line.text.match(/\d{2,}/g) ?? []).some((number) => numbers.has(number))) return true
  }
  return false
}

/** The value of "Stock no.:" is no title. */
function followsLabel(evidence: PageEvidence, at: number): boolean {
  const { index, lexicon } = evidence
  const node = index.nodes[at]!
  if (/^h[1-3]$/.test(node.tag)) return false
  const run = index.runs[node.firstRun]
  const above = run ? index.lines[run.line - 1] : undefined
  return (
    above !== undefined &&
    above.text.length < 40 &&
    (/[:：]$/.test(above.text) || lexicon.conceptsOf(above.text).includes('item-number'))
  )
}

/** What the site calls itself, folded: its stated name, the labels of its host, its home link where the title repeats it. */
export function siteNames(evidence: PageEvidence): ReadonlySet<string> {
  const names = new Set<string>()
  const shown = siteName(evidence)
  if (shown) names.add(foldWords(shown.text).join(''))
  const named = evidence.metadata.names.get('og:site_name')
  if (named) names.add(foldWords(named).join(''))
  const host = /^https?:\/\/([^/:?#]+)/i.exec(evidence.url ?? '')?.[1]
  for (const label of host?.split('.') ?? [])
    if (label.length > 3)
      names.add(
        label
          .normalize('NFKC')
          .toLowerCase()
          .replace(/[^\p{L}\p{N}]/gu, ''),
      )
  return names
}

/** The name on the link to the front page, where a part of the document's title is the same. */
export function siteName(evidence: PageEvidence): { text: string; node: number } | null {
  const { index, metadata } = evidence
  const parts = new Set(
    (metadata.title ?? '').split(/\s+(?:[|–—·•»:-]|--)\s+|:\s/).map((part) => foldWords(part).join('')),
  )
  for (const at of evidence.links.slice(0, 60)) {
    const { element } = index.nodes[at]!
    const href = element.getAttribute('href') ?? ''
    if (!/^(?:https?:\/\/[^/]+)?\/?(?:index\.\w+|home|[a-z]{2})?\/?(?:[?#].*)?$/i.test(href)) continue
    const text = textOf(index, at, 80) || (element.getElementsByTagName('img')[0]?.getAttribute('alt') ?? '').trim()
    if (text.length >= 3 && text.length <= 60 && parts.has(foldWords(text).join(''))) return { text, node: at }
  }
  return null
}

/** Alternative texts of pictures outside records: the gallery's usually repeat the title. */
function imageTexts(evidence: PageEvidence, groups: readonly RecordGroup[]): string[] {
  const { index } = evidence
  const texts = new Set<string>()
  for (const at of evidence.images) {
    if (texts.size >= 30) break
    const alt = index.nodes[at]!.element.getAttribute('alt')
    if (
      alt &&
      alt.length >= 8 &&
      alt.length < 400 &&
      !(index.nodes[at]!.region & REGION.chrome) &&
      !groupAt(index, groups, at)
    )
      texts.add(alt)
  }
  return [...texts]
}

const TELLING = new Set([
  'price',
  'current-bid',
  'starting-bid',
  'buy-now',
  'asking',
  'sold',
  'shipping',
  'estimate',
  'seller',
  'condition',
  'ends',
  'bids',
  'item-number',
  'buy-action',
  'bid-action',
  'contact-action',
  'returns',
])

/** Which lines speak of an offer: a title stands above such lines. */
function tellingLines(evidence: PageEvidence, groups: readonly RecordGroup[]): Uint8Array {
  const { index, lexicon } = evidence
  const telling = new Uint8Array(index.lines.length + 1)
  for (const amount of evidence.amounts) if (!groupAt(index, groups, amount.node)) telling[amount.line] = 1
  for (const line of index.lines) {
    if (line.hidden || line.text.length > 60 || index.nodes[line.node]!.region & REGION.chrome) continue
    if (
      telling[line.at] === 0 &&
      lexicon.find(line.text).some((hit) => hit.start <= 3 && TELLING.has(hit.concept)) &&
      !groupAt(index, groups, line.node)
    )
      telling[line.at] = 1
  }
  return telling
}

function countTelling(evidence: PageEvidence, telling: Uint8Array, at: number): number {
  const run = evidence.index.runs[Math.max(0, evidence.index.nodes[at]!.lastRun - 1)]
  if (!run) return 0
  let count = 0
  for (let line = run.line + 1; line <= run.line + 12 && line < telling.length; line += 1) count += telling[line]!
  return count
}

/** Pages without headings: the line that the document's own title repeats. */
function considerLines(
  evidence: PageEvidence,
  titles: readonly string[],
  consider: (at: number, base: number) => void,
): void {
  const { index } = evidence
  const folded = titles.map((title) => foldWords(title).join(' ')).filter((title) => title.length >= 8)
  if (folded.length === 0) return
  let seen = 0
  for (const line of index.lines) {
    if (line.hidden || line.text.length < 8 || line.text.length > 400) continue
    const words = foldWords(line.text).join(' ')
    const whole = words.length >= 8 && folded.some((title) => title.includes(words))
    // The title in other words or order: most of them must be there.
    const alike = !whole && line.text.length >= 15 && titles.some((title) => overlap(line.text, title) >= 0.6)
    if (!whole && !alike) continue
    consider(line.node, whole ? 1 : 0.5)
    seen += 1
    if (seen > 60) break
  }
}

export function cleanTitle(text: string): string {
  return text.replace(/\s+/g, ' ').trim().replace(LEAD_IN, '')
}

/** A document title without the site's name behind the last separator. */
export function titleWithoutSite(title: string, siteName: string | null): string {
  const parts = title.split(/\s+[|–—·•»:-]\s+/)
  if (parts.length < 2) return title
  const site = siteName ? foldWords(siteName).join('') : null
  const kept = parts.filter(
    (part, i) => i === 0 || (site === null ? i < parts.length - 1 : foldWords(part).join('') !== site),
  )
  const cut = title.indexOf(kept.at(-1)!, 0) + kept.at(-1)!.length
  return title.slice(0, cut).trim() || title
}
