/** Where and how an amount stands: what its element is called, what is around it, alone or in a list of its like. Single questions. */
import { wordsOf } from '../domain/letters.ts'
import type { AmountContext } from './amount-context.ts'
import { textLengthOf } from './index-document.ts'
import { LANGUAGES } from './lexicon.ts'
import { countIn, type PageAmount, type PageEvidence } from './page-evidence.ts'
import type { Pair } from './read-pairs.ts'

const MARKS_PRICE =
  /price|preis|prix|\bpris\b|\bhinta\b|precio|prezzo|prijs|\bcena|preco|amount|\bbid\b|betrag|gebot|kwota|valor/

const MARKS_OTHER =
  /old-?price|price-?old|\bwas\b|list-?price|strike|compare|cross(?:ed)?-?(?:out|price)|saving|\bsave|discount|unit-?price|per-?unit|base-?price|instal|regular-?price|original|before|msrp|rrp|uvp|shipping|deliver|versand|postage|\bfees?\b|\btax|\bvat\b|estimate|premium|sub-?total|cart|basket|coupon|voucher|reward|cashback|finance|monthly|converted|approx|increment|range|filter|minimum|lowest|history|bonus|deposit|statt|streich|barre|antes|tachado|barrato/

/** An opening bracket before the amount that nothing has closed. */
export function isInBrackets(before: string): boolean {
  return (
    Math.max(before.lastIndexOf('('), before.lastIndexOf('（')) >
    Math.max(before.lastIndexOf(')'), before.lastIndexOf('）'))
  )
}

/** Characters of the line that are no amount. */
export function restOfLine(evidence: PageEvidence, source: PageAmount): number {
  if (source.end === 0) return 0
  let rest = source.lineLength
  for (const each of evidence.amountsByLine.get(source.line) ?? []) rest -= each.end - each.start
  return rest
}

export function wordsBeside(evidence: PageEvidence, text: string, source: PageAmount): number {
  if (source.end === 0) return 0
  // Other amounts and what stands in brackets are no sentence around this one.
  let rest = ''
  let from = 0
  for (const each of evidence.amountsByLine.get(source.line) ?? []) {
    if (each.start < from) continue
    rest += `${text.slice(from, each.start)} `
    from = each.end
  }
  rest = (rest + text.slice(from)).replace(/[(（][^)）]*[)）]/g, ' ')
  return wordsOf(rest).length
}

/**
 * What the class, id and test names of the amount's element and the few around it call it. A block of two different amounts
 * ("price and shipping") may be named for a price, but what else it is named for says nothing about either.
 */
export function readMarks(evidence: PageEvidence, source: PageAmount): 'marks-price' | 'marks-other' | null {
  const { index, counts } = evidence
  let found: 'marks-price' | null = null
  for (let up = source.node, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1) {
    if (step > 0 && (countIn(counts.amounts, index, up) > 2 || textLengthOf(index, up) > 160)) break
    const { marks } = index.nodes[up]!
    if (marks === '') continue
    if (MARKS_OTHER.test(marks) && isOfOneAmount(evidence, source, up)) return 'marks-other'
    if (MARKS_PRICE.test(marks)) found = 'marks-price'
  }
  return found
}

/** No other amount in the element, but for copies of the same one (for screen readers). */
function isOfOneAmount(evidence: PageEvidence, source: PageAmount, at: number): boolean {
  if (countIn(evidence.counts.amounts, evidence.index, at) <= 1) return true
  const { end } = evidence.index.nodes[at]!
  for (let line = source.line - 3; line <= source.line + 3; line += 1)
    for (const each of evidence.amountsByLine.get(line) ?? [])
      if (each.node >= at && each.node < end && each.amount.money.amount !== source.amount.money.amount) return false
  return true
}

/** Amounts beside a label in a list or table that is no label of a price: an insured value, a salary, a height in a currency's letters. */
export function strangeValues(evidence: PageEvidence, pairs: readonly Pair[]): ReadonlySet<PageAmount> {
  const { index, lexicon, language } = evidence
  const found = new Set<PageAmount>()
  // Where the page's language is not one whose labels are known, every label is strange.
  if (!(LANGUAGES as readonly string[]).includes((language ?? '').split(/[-_]/)[0]!.toLowerCase())) return found
  for (const pair of pairs) {
    if (
      (pair.form !== 'list' && pair.form !== 'table') ||
      countIn(evidence.counts.amounts, index, pair.valueNode) === 0
    )
      continue
    if (lexicon.find(pair.label).length > 0) continue
    const value = index.nodes[pair.valueNode]!
    for (let line = index.runs[value.firstRun]?.line ?? index.lines.length; line < index.lines.length; line += 1) {
      if (index.lines[line]!.firstRun >= value.lastRun) break
      for (const amount of evidence.amountsByLine.get(line) ?? []) found.add(amount)
    }
  }
  return found
}

/** Running count of amounts without a label of their own, by element; of those in other records nobody asked. */
export function countUnlabelled(evidence: PageEvidence, contexts: ReadonlyMap<PageAmount, AmountContext>): Uint32Array {
  const size = evidence.index.nodes.length + 1
  const perNode = new Uint32Array(size)
  for (const source of evidence.amounts) {
    const context = contexts.get(source)
    if (!context || context.role === null || context.shared) perNode[source.node] = perNode[source.node]! + 1
  }
  const running = new Uint32Array(size)
  for (let at = 0; at + 1 < size; at += 1) running[at + 1] = running[at]! + perNode[at]!
  return running
}

/** Fees, bid histories, increments, bulk prices: sisters of one tag, each with an amount that no label of its own tells apart. */
export function isInListOfAmounts(
  evidence: PageEvidence,
  unlabelled: Uint32Array,
  at: number,
  needed: number,
): boolean {
  const { index } = evidence
  for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1) {
    const node = index.nodes[up]!
    const parent = index.nodes[node.parent]
    // Entries of a list or lines of a table are alike by their make; blocks need one more to be.
    const enough = /^(?:li|tr)$/.test(node.tag) ? 3 : needed
    if (!parent || parent.tag === 'body' || parent.children < enough) continue
    let alike = 0
    let seen = 0
    for (let sister = parent.at + 1; sister < parent.end && seen < 40; sister = index.nodes[sister]!.end) {
      seen += 1
      const other = index.nodes[sister]!
      const amounts = countIn(unlabelled, index, sister)
      if (
        other.tag === node.tag &&
        other.children === node.children &&
        other.marks === node.marks &&
        amounts >= 1 &&
        amounts <= 3 &&
        other.lastRun - other.firstRun <= 12 &&
        !other.hidden
      )
        alike += 1
    }
    if (alike >= enough) return true
  }
  return false
}

export function tagsAround(evidence: PageEvidence, at: number): string {
  const { index } = evidence
  let tags = ' '
  for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1)
    tags += `${index.nodes[up]!.tag} `
  return tags
}

export function isStruckByTag(evidence: PageEvidence, at: number): boolean {
  const { index } = evidence
  for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1)
    if (/^(?:del|s|strike)$/.test(index.nodes[up]!.tag)) return true
  return false
}

export function hasPriceProperty(evidence: PageEvidence, at: number): boolean {
  const { index } = evidence
  for (let up = at, step = 0; up > 0 && step < 3; up = index.nodes[up]!.parent, step += 1) {
    const node = index.nodes[up]!
    if (node.markup === 0) continue
    const name = node.element.getAttribute('itemprop') ?? node.element.getAttribute('property')
    if (name && /^(?:price|lowPrice)$/i.test(name)) return true
    if (name && /offers/i.test(name) && countIn(evidence.counts.amounts, index, up) === 1) return true
  }
  return false
}
