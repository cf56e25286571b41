/** Which of a page's repeated records are its results, and whether they are: prices, not amounts in sentences; not "similar items". */

import { countLetters } from '../domain/letters.ts'
import type { Headline } from './find-headline.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { REGION, textLengthOf } from './index-document.ts'
import { countIn, type PageEvidence } from './page-evidence.ts'
import type { PriceCandidate, ScoredPrices } from './score-price.ts'

/** The lists that can be results; the largest, those built alike, and records without an amount among them. */
export function findResultGroups(
  evidence: PageEvidence,
  groups: readonly RecordGroup[],
  headline: Headline | null,
): RecordGroup[] {
  const { index } = evidence
  const eligible = groups.filter((group) => {
    const { region } = index.nodes[group.container]!
    return (
      group.priced >= 0.4 &&
      !(region & (REGION.related | REGION.chrome | REGION.dialog | REGION.aside)) &&
      !isRelatedGroup(evidence, group, headline)
    )
  })
  return chooseResultGroups(index, eligible).map((group) => withSisters(evidence, group))
}

/** Records without an amount or a picture (sold, reserved) among the others: sisters of the same tag with a link of their own. */
function withSisters(evidence: PageEvidence, group: RecordGroup): RecordGroup {
  const { index, counts } = evidence
  const tag = index.nodes[group.rows[0]!]!.tag
  const marks = new Set(group.rows.map((row) => index.nodes[row]!.marks))
  const rows = new Set(group.rows)
  const parents = new Set(group.rows.map((row) => index.nodes[row]!.parent))
  const added: number[] = []
  for (const parent of parents) {
    for (let at = parent + 1; at < index.nodes[parent]!.end; at = index.nodes[at]!.end) {
      const node = index.nodes[at]!
      if (node.tag !== tag || node.hidden || rows.has(at) || !marks.has(node.marks) || node.firstRun === node.lastRun)
        continue
      const length = textLengthOf(index, at)
      if (
        length >= 12 &&
        length <= 1800 &&
        countIn(counts.links, index, at) > 0 &&
        countIn(counts.amounts, index, at) === 0
      )
        added.push(at)
    }
  }
  // Where they are many, they are something else.
  if (added.length === 0 || added.length > group.rows.length * 0.5) return group
  return { ...group, rows: [...group.rows, ...added].sort((a, b) => a - b) }
}

/** A search with one hit: the largest block around the amount that holds a link and not the heading. */
export function singleRecord(evidence: PageEvidence, headline: Headline, price: PriceCandidate): RecordGroup | null {
  const { index, counts } = evidence
  let row = -1
  for (let up = price.source.node; up > 0; up = index.nodes[up]!.parent) {
    const node = index.nodes[up]!
    if (headline.node >= up && headline.node < node.end) break
    if (textLengthOf(index, up) > 1200) break
    // Lists hold the record; the record is what holds the words.
    if (countIn(counts.links, index, up) > 0 && !/^(?:ul|ol|tbody|table)$/.test(node.tag)) row = up
    if (/^(?:li|article|tr)$/.test(node.tag)) break
  }
  if (row < 0) return null
  return {
    container: index.nodes[row]!.parent,
    rows: [row],
    priced: 1,
    pictured: countIn(counts.images, index, row) > 0 ? 1 : 0,
  }
}

/** The largest group, and others only where their records are built alike: one list cut in parts, not another list. */
function chooseResultGroups(index: PageEvidence['index'], groups: readonly RecordGroup[]): RecordGroup[] {
  const largest = groups.reduce<RecordGroup | null>(
    (best, group) =>
      best === null || group.rows.length * (0.5 + group.priced) > best.rows.length * (0.5 + best.priced) ? group : best,
    null,
  )
  if (!largest) return []
  const shape = (group: RecordGroup): string => {
    const row = index.nodes[group.rows[0]!]!
    return `${row.tag}|${row.depth}|${row.marks.split(/\s+/)[0]}`
  }
  return groups.filter(
    (group) =>
      group === largest ||
      (shape(group) === shape(largest) &&
        index.nodes[group.container]!.marks === index.nodes[largest.container]!.marks),
  )
}

/** Enough to tell prices from amounts in sentences. */
const ROWS_LOOKED_AT = 80

/** Share of records with an amount that stands as a price: alone, labelled, or on the title's own line; not "from", not in a sentence. */
export function cleanShare(evidence: PageEvidence, groups: readonly RecordGroup[], prices: ScoredPrices): number {
  const clean = new Set<number>()
  const looked = new Set(groups.flatMap((group) => group.rows).slice(0, ROWS_LOOKED_AT))
  const rows = looked.size
  for (const source of evidence.amounts) {
    const place = groupAt(evidence.index, groups, source.node)
    if (!place || !looked.has(place.row) || clean.has(place.row)) continue
    const candidate = prices.candidateOf(source)
    const { features, role } = candidate
    if (features.includes('from') || features.includes('prose')) continue
    const labelled =
      role !== null && role !== 'other-amount' && role !== 'saving' && role !== 'related' && role !== 'tax'
    const inTitle = isInLink(evidence, source.node)
    if (
      !labelled &&
      !features.includes('alone-in-line') &&
      !features.includes('marks-price') &&
      !inTitle &&
      source.start > 0 &&
      !isLast(evidence, candidate)
    )
      continue
    if (
      !labelled &&
      features.includes('few-words') &&
      !features.includes('marks-price') &&
      !inTitle &&
      !isLast(evidence, candidate)
    )
      continue
    clean.add(place.row)
  }
  return rows === 0 ? 1 : clean.size / rows
}

/** The amount ends a line that also holds a link: "Grey Petrel, creased … £20". */
function isLast(evidence: PageEvidence, candidate: PriceCandidate): boolean {
  const { source } = candidate
  const line = evidence.index.lines[source.line]!
  if (source.end === 0 || countLetters(line.text.slice(source.end)) > 0) return false
  for (let i = line.firstRun; i < line.lastRun; i += 1)
    if (isInLink(evidence, evidence.index.runs[i]!.node)) return true
  return false
}

function isInLink(evidence: PageEvidence, at: number): boolean {
  const { index } = evidence
  for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1)
    if (index.nodes[up]!.tag === 'a') return true
  return false
}

const OTHERS =
  /^(?:more|other|further|another|weitere|andere|mehr|autres?|plus d|d'autres|otr[oa]s|más|altr[iea]|andere|meer|inne|pozostałe|outr[oa]s|mais|fler|andra|その他|ほかの|他の)\s/iu

/** A heading of the "similar items" kind right above a group, or inside its container's first lines. */
function isRelatedGroup(evidence: PageEvidence, group: RecordGroup, headline: Headline | null): boolean {
  const { index, lexicon } = evidence
  const firstRow = index.nodes[group.rows[0]!]!
  const line = index.runs[firstRow.firstRun]?.line ?? 0
  for (let step = 1; step <= 4; step += 1) {
    const above = index.lines[line - step]
    if (!above) break
    if (above.text.length > 80) break
    // The page's own heading names this list, whatever its words.
    if (headline && above.node >= headline.node && above.node < index.nodes[headline.node]!.end) break
    if (lexicon.has(above.text, 'related') && above.text.length < 60) return true
    if (OTHERS.test(above.text) && above.text.length < 60) return true
    if (evidence.amountsByLine.has(above.at)) break
  }
  return false
}
