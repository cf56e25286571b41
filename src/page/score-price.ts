/**
 * Which of a page's amounts is the price of the thing offered. Every amount gets named features from its words, marks and place;
 * weights stand in `data/weights.json`. Gives candidates with their reasons, best first; deciding between page and data is elsewhere.
 */
import { type AmountRole, readContext } from './amount-context.ts'
import {
  countUnlabelled,
  hasPriceProperty,
  isInBrackets,
  isInListOfAmounts,
  isStruckByTag,
  readMarks,
  restOfLine,
  strangeValues,
  tagsAround,
  wordsBeside,
} from './amount-place.ts'
import weights from './data/weights.json' with { type: 'json' }
import type { Headline } from './find-headline.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { commonAncestor, REGION, textLengthOf } from './index-document.ts'
import type { PageAmount, PageEvidence } from './page-evidence.ts'
import type { Pair } from './read-pairs.ts'

export type PriceFeature = keyof typeof weights.price

export interface PriceCandidate {
  readonly source: PageAmount
  readonly role: AmountRole | null
  readonly features: readonly PriceFeature[]
  readonly score: number
  /** The label's words, where there are any. */
  readonly label: string | null
}

export interface ScoredPrices {
  /** Of the amounts outside other records; of all where none of those will do. In the page's order. */
  readonly own: readonly PriceCandidate[]
  /** The best of them that are seen, best first. */
  readonly ranked: readonly PriceCandidate[]
  /** Any amount's candidate; those in records are scored only when asked for. */
  candidateOf(source: PageAmount): PriceCandidate
}

/** Amounts of records that are looked at where a page has no other: more are a list. */
const FALLBACK_LIMIT = 200

const BRACKETS_BEFORE = /[([{（]\s*(?:≈|~|ca\.?|approx\.?|about|=|us|\w{0,3})?\s*$/i
const APPROXIMATE = /(?:≈|~|\bapprox\w*\.?|\bca\.|\babout|\benviron|\bungefähr|\bcirca|\baprox\w*\.?|約)\s*$/i

/** "From $61": the lowest of several, not the one offered here. */
const FROM =
  /(?:^|\W)(?:from|ab|dès|à partir de|desde|a partir de|da|a partire da|vanaf|od|från|fra|starting at)\s*[:：]?\s*$/iu

/** Records enough, and priced enough, to be a list and not the columns of a page. */
function isList(group: RecordGroup): boolean {
  return group.rows.length >= 3 && group.priced >= 0.5
}

export function scorePrices(
  evidence: PageEvidence,
  place: {
    headline: Headline | null
    groups: readonly RecordGroup[]
    actions: readonly number[]
    pairs: readonly Pair[]
    dataAmounts: readonly string[]
    metaAmounts: readonly string[]
  },
): ScoredPrices {
  const { index } = evidence
  const { headline, groups, actions } = place
  const headlineLine = headline ? lineOfNode(evidence, headline.node) : null
  const occurrences = new Map<string, number>()
  for (const each of evidence.amounts) {
    const key = numericKey(each.amount.money.amount)
    occurrences.set(key, (occurrences.get(key) ?? 0) + 1)
  }
  const headlineRegion = headline ? index.nodes[headline.node]!.region : 0
  const actionLines = actions.map((at) => lineOfNode(evidence, at))
  const headlineGroup = headline ? groupAt(index, groups, headline.node) : null
  const ofOtherRecord = (source: PageAmount): boolean => {
    const place = groupAt(index, groups, source.node)
    return place !== null && place.row !== headlineGroup?.row && isList(place.group)
  }
  const own = evidence.amounts.filter((source) => !ofOtherRecord(source))
  const contexts = new Map(own.map((source) => [source, readContext(evidence, source)]))
  const unlabelled = countUnlabelled(evidence, contexts)
  const strange = strangeValues(evidence, place.pairs)
  let first = true
  const score = (source: PageAmount): PriceCandidate => {
    const { amount } = source
    const node = index.nodes[source.node]!
    const features: PriceFeature[] = ['base']
    const line = index.lines[source.line]!
    const context = contexts.get(source) ?? readContext(evidence, source)
    const role = context.role
    if (role) features.push(`label-${role}` as PriceFeature)
    if (
      (role === null || context.shared) &&
      isInListOfAmounts(evidence, unlabelled, source.node, context.shared ? 3 : 4)
    )
      features.push('in-list-of-amounts')
    if (role === null && strange.has(source)) features.push('unknown-label')
    const marks = readMarks(evidence, source)
    if (marks) features.push(marks)
    if (hasPriceProperty(evidence, source.node)) features.push('itemprop-price')
    const before = line.text.slice(0, source.start)
    const inGroup = groupAt(index, groups, source.node)
    // In records the question is asked only where two amounts compete, and then by the row's reader.
    if (inGroup ? isStruckByTag(evidence, source.node) : evidence.probe.isStruckThrough(node.element))
      features.push('struck-through')
    if (source.end > 0 && (BRACKETS_BEFORE.test(before) || isInBrackets(before))) features.push('bracketed')
    if (APPROXIMATE.test(before)) features.push('approximate')
    if (FROM.test(before)) features.push('from')
    if (amount.negative) features.push('negative')
    if (/\d\s?%/.test(line.text) && line.text.length < 40) features.push('percent-beside')
    const words = wordsBeside(evidence, line.text, source)
    if (
      restOfLine(evidence, source) <= 3 ||
      (role === null && (words === 0 || (words === 1 && (evidence.amountsByLine.get(source.line)?.length ?? 0) > 1)))
    )
      features.push('alone-in-line')
    else if (words <= 5) features.push('few-words')
    else if (role === null && source.start > 0) features.push('in-sentence')
    if (words > 14 || source.lineLength > 160) features.push('prose')
    const tags = tagsAround(evidence, source.node)
    const inHeadline =
      headline !== null && source.node >= headline.node && source.node < index.nodes[headline.node]!.end
    if (/ h[1-6] /.test(tags) && !inHeadline) features.push('heading-tag')
    else if (/ (?:b|strong|em) /.test(tags)) features.push('emphasis')
    if (/ option /.test(tags)) features.push('in-option')
    if (headline && headlineLine !== null) {
      const distance = source.line - headlineLine
      if (distance >= 0 && distance <= 14) features.push('near-headline')
      else if (distance >= -4 && distance < 0) features.push('just-above-headline')
      else if (distance > 70) features.push('far-from-headline')
      if (distance < -4) features.push('before-headline')
      if (inHeadline) features.push('in-headline')
      else {
        const shared = commonAncestor(index, Math.min(source.node, headline.node), Math.max(source.node, headline.node))
        if (shared > 0 && textLengthOf(index, shared) < 1500) features.push('same-block-as-headline')
      }
    }
    if (actionLines.some((at) => Math.abs(at - source.line) <= 8)) features.push('near-action')
    // Two or three "records", one of which holds the heading, are columns of one page.
    const columns = headlineGroup !== null && inGroup?.group === headlineGroup.group && inGroup.group.rows.length <= 2
    if (inGroup && headlineGroup?.row !== inGroup.row && !columns) {
      features.push(isList(inGroup.group) ? 'in-group' : 'in-small-group')
    }
    const region = node.region & ~headlineRegion
    if (region & REGION.chrome) features.push('chrome')
    if (region & REGION.aside) features.push('aside')
    if (region & REGION.related) features.push('related')
    if (region & REGION.dialog) features.push('dialog')
    const key = numericKey(amount.money.amount)
    if (place.dataAmounts.some((each) => numericKey(each) === key)) features.push('agrees-with-data')
    else if (place.metaAmounts.some((each) => numericKey(each) === key)) features.push('agrees-with-meta')
    if ((occurrences.get(key) ?? 0) > 1) features.push('repeated')
    if (amount.range === 'low') features.push('range-low')
    if (amount.range === 'high') features.push('range-high')
    if (Number(amount.money.amount) === 0) features.push('zero')
    if (amount.weak && amount.money.currency !== evidence.currency) features.push('weak-mark')
    if (
      amount.money.currency !== null &&
      evidence.currency !== null &&
      !amount.assumed &&
      amount.money.currency !== evidence.currency
    )
      features.push('other-currency')
    let points = 0
    for (const feature of features) points += weights.price[feature]
    if (first && points > 2 && (headlineLine === null || source.line >= headlineLine)) {
      features.push('first')
      points += weights.price.first
      first = false
    }
    return { source, role, features, score: points, label: context.label }
  }
  const known = new Map<PageAmount, PriceCandidate>()
  const candidateOf = (source: PageAmount): PriceCandidate => {
    let candidate = known.get(source)
    if (!candidate) {
      candidate = score(source)
      known.set(source, candidate)
    }
    return candidate
  }
  const scored = own.map(candidateOf)
  // Where nothing outside the records will do, what looks like records may be the columns of one page.
  if (!scored.some((each) => each.score >= weights.thresholds.price))
    scored.push(...evidence.amounts.filter(ofOtherRecord).slice(0, FALLBACK_LIMIT).map(candidateOf))
  const best = [...scored].sort((a, b) => b.score - a.score || a.source.line - b.source.line)
  return { own: scored, ranked: enlarge(evidence, best), candidateOf }
}

/** Type size is asked for the best few only, once: every question costs layout. */
function enlarge(evidence: PageEvidence, scored: PriceCandidate[]): PriceCandidate[] {
  const contenders = scored.slice(0, 12).filter((each) => each.score > 0)
  const visible = contenders.filter((each) => evidence.probe.isVisible(evidence.index.nodes[each.source.node]!.element))
  const sizes = visible.map((each) => evidence.probe.fontSize(evidence.index.nodes[each.source.node]!.element) ?? 0)
  const largest = Math.max(0, ...sizes)
  const result: PriceCandidate[] = []
  for (const [i, each] of visible.entries()) {
    // Half as large again as body text (16 CSS px is the browsers' default) and the largest on the page but for a pixel.
    if (largest >= 20 && sizes[i]! >= largest - 1)
      result.push({
        ...each,
        features: [...each.features, 'large-type'],
        score: each.score + weights.price['large-type'],
      })
    else result.push(each)
  }
  return result.sort((a, b) => b.score - a.score || a.source.line - b.source.line)
}

export function numericKey(amount: string): string {
  const plain = amount.trim()
  return plain.includes('.') ? plain.replace(/\.?0+$/, '') : plain
}

export function lineOfNode(evidence: PageEvidence, at: number): number {
  const { index } = evidence
  const run = index.runs[index.nodes[at]!.firstRun]
  return run ? run.line : index.lines.length
}
