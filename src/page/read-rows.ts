/** Rows of a results page: title, link, price, photo, sold or not, date, seller of each repeated record. */

import type { ResultRow } from '../domain/listing.ts'
import type { Money } from '../domain/money.ts'
import { buildSelector } from './build-selector.ts'
import { foldWords } from './find-headline.ts'
import { lowerBound, type RecordGroup, rowTarget } from './find-record-groups.ts'
import { textOf } from './index-document.ts'
import type { PageAmount, PageEvidence } from './page-evidence.ts'
import { isPhotoUrl } from './photo-variants.ts'
import { largestVariant, resolveUrl } from './read-gallery.ts'
import { NOT_THE_PRICE, type PriceCandidate } from './score-price.ts'

/** Rows read of one page; more than any page shows at once. */
const ROW_LIMIT = 1000
const TITLE_LIMIT = 500

export function readRows(
  evidence: PageEvidence,
  groups: readonly RecordGroup[],
  candidates: readonly PriceCandidate[],
): ResultRow[] {
  const byAmount = new Map(candidates.map((candidate) => [candidate.source, candidate]))
  const rows: ResultRow[] = []
  for (const group of groups) {
    for (const at of group.rows) {
      if (rows.length >= ROW_LIMIT) return rows
      const row = readRow(evidence, at, byAmount)
      if (row) rows.push(row)
    }
  }
  return rows
}

function readRow(
  evidence: PageEvidence,
  at: number,
  byAmount: ReadonlyMap<PageAmount, PriceCandidate>,
): ResultRow | null {
  const { index, lexicon } = evidence
  const node = index.nodes[at]!
  if (!evidence.probe.isVisible(node.element)) return null
  const title = titleOf(evidence, at)
  if (!title) return null
  const href = title.href ?? rowTarget(evidence, at)
  let sold: boolean | null = null
  let seller: string | null = null
  for (let i = index.runs[node.firstRun]?.line ?? 0; i < index.lines.length; i += 1) {
    const line = index.lines[i]!
    if (line.firstRun >= node.lastRun) break
    if (line.hidden || line.text.length > 120) continue
    const text = line.text
    if (text !== title.text) {
      for (const hit of lexicon.find(text)) {
        if (hit.concept === 'sold') sold = true
        if (hit.concept === 'seller' && seller === null && hit.start <= 2) {
          const rest = text
            .slice(hit.end)
            .replace(/^\s*[:：]?\s*/, '')
            .replace(/\s*[(·|•].*$/, '')
            .trim()
          if (rest && rest.length <= 60) seller = rest
        }
      }
    }
  }
  const price = priceOf(evidence, at, byAmount)
  return {
    title: title.text.slice(0, TITLE_LIMIT),
    url: resolveUrl(evidence, href),
    price,
    sold,
    soldAt: null,
    photo: photoOf(evidence, at),
    seller,
    ...(buildWhere(evidence, at) ?? {}),
  }
}

function buildWhere(evidence: PageEvidence, at: number): { where: string } | null {
  const where = buildSelector(evidence.index, at)
  return where ? { where } : null
}

/** The words of the row's main link or heading; a picture's alternative text where the link holds only a picture. */
function titleOf(evidence: PageEvidence, at: number): { text: string; href: string | null } | null {
  const { index, links, lexicon } = evidence
  const node = index.nodes[at]!
  let best: { text: string; href: string | null; score: number } | null = null
  const consider = (text: string, href: string | null, score: number): void => {
    const clean = text.replace(/\s+/g, ' ').trim()
    if (clean.length < 3 || !/\p{L}/u.test(clean)) return
    if (lexicon.conceptsOf(clean).length > 0) return
    const words = foldWords(clean).length
    const total = score + Math.min(words, 8) * 0.35 - (clean.length > 250 ? 2 : 0)
    if (best === null || total > best.score) best = { text: clean, href, score: total }
  }
  const hrefOf = (from: number): string | null => {
    for (let up = from, step = 0; up > 0 && step < 5; up = index.nodes[up]!.parent, step += 1) {
      if (index.nodes[up]!.tag === 'a') return index.nodes[up]!.element.getAttribute('href')
      if (up === at) break
    }
    return null
  }
  for (let inner = at; inner < node.end; inner += 1) {
    const each = index.nodes[inner]!
    if (each.hidden) continue
    if (/^h[1-6]$/.test(each.tag))
      consider(textOf(index, inner, TITLE_LIMIT), firstLinkIn(evidence, inner) ?? hrefOf(inner), 4)
    else if (
      each.marks &&
      inner !== at &&
      /title|headline|item-?name|product-?name|\bname\b|titel/.test(each.marks) &&
      each.children < 5
    )
      consider(textOf(index, inner, TITLE_LIMIT), firstLinkIn(evidence, inner) ?? hrefOf(inner), 2.5)
  }
  for (let i = lowerBound(links, at); i < links.length && links[i]! < node.end; i += 1) {
    const link = index.nodes[links[i]!]!
    const text = textOf(index, link.at, TITLE_LIMIT)
    const whole = link.at === at || link.lastRun - link.firstRun > 4
    if (text && !whole) consider(text, link.element.getAttribute('href'), 2)
    const label = link.element.getAttribute('title') ?? link.element.getAttribute('aria-label')
    if (label && !text) consider(label, link.element.getAttribute('href'), 1)
  }
  if (best === null) {
    // A row that is one link: the longest line that is no label and no amount.
    for (let i = index.runs[node.firstRun]?.line ?? 0; i < index.lines.length; i += 1) {
      const line = index.lines[i]!
      if (line.firstRun >= node.lastRun) break
      if (line.hidden || evidence.amounts.some((amount) => amount.line === line.at)) continue
      consider(line.text, hrefOf(line.node), 0.5)
    }
    for (
      let i = lowerBound(evidence.images, at);
      i < evidence.images.length && evidence.images[i]! < node.end;
      i += 1
    ) {
      const alt = index.nodes[evidence.images[i]!]!.element.getAttribute('alt')
      if (alt) consider(alt, null, 0)
    }
  }
  return best
}

function firstLinkIn(evidence: PageEvidence, at: number): string | null {
  const { index, links } = evidence
  const i = lowerBound(links, at)
  const link = links[i]
  return link !== undefined && link < index.nodes[at]!.end ? index.nodes[link]!.element.getAttribute('href') : null
}

function priceOf(evidence: PageEvidence, at: number, byAmount: ReadonlyMap<PageAmount, PriceCandidate>): Money | null {
  const { index, amounts } = evidence
  const node = index.nodes[at]!
  let best: { money: Money; score: number } | null = null
  for (const source of amounts) {
    if (source.node < at) continue
    if (source.node >= node.end) continue
    const candidate = byAmount.get(source)
    if (!candidate || (candidate.role && NOT_THE_PRICE.has(candidate.role)) || source.amount.negative) continue
    if (candidate.features.includes('struck-through')) continue
    let score = candidate.score
    if (candidate.features.includes('marks-other')) score -= 2
    if (best === null || score > best.score) best = { money: source.amount.money, score }
  }
  return best?.money ?? null
}

function photoOf(evidence: PageEvidence, at: number): string | null {
  const { index, images } = evidence
  const node = index.nodes[at]!
  for (let i = lowerBound(images, at); i < images.length && images[i]! < node.end; i += 1) {
    const url = resolveUrl(evidence, largestVariant(evidence, images[i]!))
    if (url && isPhotoUrl(url)) return url
  }
  return null
}
