/**
 * Which of a page's amounts is the price of the thing offered. Every amount gets named features from its words, marks and place;
 * weights stand in `data/weights.json`. Gives candidates with their reasons, best first; deciding between page and data is elsewhere.
 * Long because the words beside an amount give it its role and its features in one reading of the same lines.
 */
import weights from './data/weights.json' with { type: 'json' }
import type { Headline } from './find-headline.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { commonAncestor, REGION, textLengthOf, textOf } from './index-document.ts'
import type { Concept } from './lexicon.ts'
import { LANGUAGES } from './lexicon.ts'
import { countIn, type PageAmount, type PageEvidence } from './page-evidence.ts'
import type { Pair } from './read-pairs.ts'

export type PriceFeature = keyof typeof weights.price

/** What the words around an amount say it is. */
export type AmountRole = Extract<
  Concept,
  | 'price'
  | 'current-bid'
  | 'starting-bid'
  | 'buy-now'
  | 'asking'
  | 'sold'
  | 'shipping'
  | 'premium'
  | 'estimate'
  | 'increment'
  | 'old-price'
  | 'saving'
  | 'instalment'
  | 'per-unit'
  | 'tax'
  | 'other-amount'
  | 'related'
  | 'regular-price'
>

export interface PriceCandidate {
  readonly source: PageAmount
  readonly role: AmountRole | null
  readonly features: readonly PriceFeature[]
  readonly score: number
  /** The label's words, where there are any. */
  readonly label: string | null
}

const ROLES = new Set<string>([
  'price',
  'current-bid',
  'starting-bid',
  'buy-now',
  'asking',
  'sold',
  'shipping',
  'premium',
  'estimate',
  'increment',
  'old-price',
  'saving',
  'instalment',
  'per-unit',
  'tax',
  'other-amount',
  'related',
  'regular-price',
])
/** Roles that make an amount something else than the price, whatever else stands beside it. */
export const NOT_THE_PRICE = new Set<AmountRole>([
  'shipping',
  'premium',
  'estimate',
  'increment',
  'old-price',
  'saving',
  'instalment',
  'per-unit',
  'tax',
  'other-amount',
])

const MARKS_PRICE = /price|preis|prix|\bpris\b|\bhinta\b|precio|prezzo|prijs|\bcena|preco|amount|\bbid\b|betrag|gebot|kwota|valor/
const MARKS_OTHER =
  /old-?price|price-?old|\bwas\b|list-?price|strike|compare|cross(?:ed)?-?(?:out|price)|saving|\bsave|discount|unit-?price|per-?unit|base-?price|instal|regular-?price|original|before|msrp|rrp|uvp|shipping|deliver|versand|postage|\bfees?\b|\btax|\bvat\b|estimate|premium|sub-?total|cart|basket|coupon|voucher|reward|cashback|finance|monthly|converted|approx|increment|range|filter|minimum|lowest|history|bonus|deposit|statt|streich|barre|antes|tachado|barrato/
const BRACKETS_BEFORE = /[([{（]\s*(?:≈|~|ca\.?|approx\.?|about|=|us|\w{0,3})?\s*$/i
const APPROXIMATE = /(?:≈|~|\bapprox\w*\.?|\bca\.|\babout|\benviron|\bungefähr|\bcirca|\baprox\w*\.?|約)\s*$/i

/** "From $61": the lowest of several, not the one offered here. */
const FROM =
  /(?:^|\W)(?:from|ab|dès|à partir de|desde|a partir de|da|a partire da|vanaf|od|från|fra|starting at)\s*[:：]?\s*$/iu

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
): { all: readonly PriceCandidate[]; ranked: readonly PriceCandidate[] } {
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
  const scored: PriceCandidate[] = []
  const contexts = new Map(evidence.amounts.map((source) => [source, readContext(evidence, source)]))
  const unlabelled = countUnlabelled(evidence, contexts)
  const strange = strangeValues(evidence, place.pairs)
  let first = true
  for (const source of evidence.amounts) {
    const { amount } = source
    const node = index.nodes[source.node]!
    const features: PriceFeature[] = ['base']
    const line = index.lines[source.line]!
    const context = contexts.get(source)!
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
    if (restOfLine(evidence, source) <= 3 || (words === 0 && role === null)) features.push('alone-in-line')
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
    const headlineGroup = headline ? groupAt(index, groups, headline.node) : null
    // Two or three "records", one of which holds the heading, are columns of one page.
    const columns = headlineGroup !== null && inGroup?.group === headlineGroup.group && inGroup.group.rows.length <= 2
    if (inGroup && headlineGroup?.row !== inGroup.row && !columns) {
      features.push(inGroup.group.rows.length >= 3 && inGroup.group.priced >= 0.5 ? 'in-group' : 'in-small-group')
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
    let score = 0
    for (const feature of features) score += weights.price[feature]
    if (first && score > 2 && (headlineLine === null || source.line >= headlineLine)) {
      features.push('first')
      score += weights.price.first
      first = false
    }
    scored.push({ source, role, features, score, label: context.label })
  }
  scored.sort((a, b) => b.score - a.score || a.source.line - b.source.line)
  return { all: scored, ranked: enlarge(evidence, scored) }
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

/** An opening bracket before the amount that nothing has closed. */
function isInBrackets(before: string): boolean {
  return (
    Math.max(before.lastIndexOf('('), before.lastIndexOf('（')) >
    Math.max(before.lastIndexOf(')'), before.lastIndexOf('）'))
  )
}

/** Characters of the line that are no amount. */
function restOfLine(evidence: PageEvidence, source: PageAmount): number {
  if (source.end === 0) return 0
  let rest = source.lineLength
  for (const each of evidence.amountsByLine.get(source.line) ?? []) rest -= each.end - each.start
  return rest
}

function wordsBeside(evidence: PageEvidence, text: string, source: PageAmount): number {
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
  return (rest.match(/[\p{L}\p{N}]+/gu) ?? []).length
}

/**
 * What the class, id and test names of the amount's element and the few around it call it. A block of two different amounts
 * ("price and shipping") may be named for a price, but what else it is named for says nothing about either.
 */
function readMarks(evidence: PageEvidence, source: PageAmount): 'marks-price' | 'marks-other' | null {
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
function strangeValues(evidence: PageEvidence, pairs: readonly Pair[]): ReadonlySet<PageAmount> {
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

/** Running count of amounts without a label of their own, by element. */
function countUnlabelled(evidence: PageEvidence, contexts: ReadonlyMap<PageAmount, AmountContext>): Uint32Array {
  const size = evidence.index.nodes.length + 1
  const perNode = new Uint32Array(size)
  for (const [source, context] of contexts)
    if (context.role === null || context.shared) perNode[source.node] = perNode[source.node]! + 1
  const running = new Uint32Array(size)
  for (let at = 0; at + 1 < size; at += 1) running[at + 1] = running[at]! + perNode[at]!
  return running
}

/** Fees, bid histories, increments, bulk prices: sisters of one tag, each with an amount that no label of its own tells apart. */
function isInListOfAmounts(evidence: PageEvidence, unlabelled: Uint32Array, at: number, needed: number): boolean {
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

function tagsAround(evidence: PageEvidence, at: number): string {
  const { index } = evidence
  let tags = ' '
  for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1)
    tags += `${index.nodes[up]!.tag} `
  return tags
}

function isStruckByTag(evidence: PageEvidence, at: number): boolean {
  const { index } = evidence
  for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1)
    if (/^(?:del|s|strike)$/.test(index.nodes[up]!.tag)) return true
  return false
}

function hasPriceProperty(evidence: PageEvidence, at: number): boolean {
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

export interface AmountContext {
  readonly role: AmountRole | null
  readonly label: string | null
  /** The label heads a whole column, so it tells nothing about this amount among the others. */
  readonly shared?: boolean
}

/** "$1,600 $1,299.00": of two amounts side by side the first, higher one is the old price. */
function isCrossedBefore(evidence: PageEvidence, source: PageAmount, text: string): boolean {
  if (source.amount.range !== null) return false
  const next = evidence.amountsByLine.get(source.line)?.find((each) => each.start >= source.end)
  if (!next || next.amount.money.currency !== source.amount.money.currency || next.amount.range !== null) return false
  return (
    text.slice(source.end, next.start).trim() === '' &&
    Number(source.amount.money.amount) > Number(next.amount.money.amount) &&
    Number(next.amount.money.amount) > 0
  )
}

const INSTALMENT_UNIT = /^\W*(?:mo|month|monat|mois|mes|mese|maand|mies|mês|月)/iu

/** "12x de", "in 6 Raten zu", "6 meses de". */
const INSTALMENTS =
  /(?<!\d)\d{1,2}\s?(?:x|×|meses|mois|mesi|monate|monat|raten|rate|mensualidades|pagos|payments|cuotas|vezes|fois|termijnen|rat|raty|回)(?:[\s:]|$)[^\d]{0,16}$/iu

/** Function words and the like say something about an amount only right beside it. */
const TIGHT = new Set(
  'was now only nur jetzt van de por par da nu ora od ab over about ca ok enter value off list by prima avant antes vor før på wert cote trend each left before today est von von eerder du'.split(
    ' ',
  ),
)

function isTight(label: string): boolean {
  return label.length <= 2 || TIGHT.has(label.toLowerCase())
}

/** The label of an amount: before it in the line, after it, on the line above, in the row's or column's head. */
export function readContext(evidence: PageEvidence, source: PageAmount): AmountContext {
  const { index, lexicon } = evidence
  const line = index.lines[source.line]!
  const sameLine = evidence.amountsByLine.get(source.line) ?? []
  if (source.end > 0) {
    const previousEnd = Math.max(
      0,
      ...sameLine.filter((each) => each.end <= source.start && each !== source).map((each) => each.end),
    )
    const nextStart = Math.min(
      line.text.length,
      ...sameLine.filter((each) => each.start >= source.end && each !== source).map((each) => each.start),
    )
    // A label names both halves of a range: "Estimate: $100 – $200".
    const from = source.amount.range === 'high' ? 0 : previousEnd
    const before = line.text.slice(Math.max(from, source.start - 80), source.start)
    // What follows a range belongs to both its halves: "7 000 – 9 500 zł / month".
    const high = source.amount.range === 'low' ? sameLine.find((each) => each.start >= source.end) : undefined
    const after = high
      ? line.text.slice(high.end, high.end + 60)
      : line.text.slice(source.end, Math.min(nextStart, source.end + 60))
    const beforeHits = lexicon.find(before).filter((hit) => ROLES.has(hit.concept))
    const near = beforeHits.filter((hit) => !isTight(before.slice(hit.start, hit.end)) || before.length - hit.end <= 3)
    if (isCrossedBefore(evidence, source, line.text)) return { role: 'old-price', label: null }
    if (/^\s*\*?\s*\/\s*(?:\d+\s?)?\p{L}/u.test(after))
      return { role: INSTALMENT_UNIT.test(after) ? 'instalment' : 'per-unit', label: after.slice(0, 12).trim() }
    if (INSTALMENTS.test(before)) return { role: 'instalment', label: before.trim() }
    // "Shipping cost: £8" is shipping, though "cost" stands nearer.
    const generic = strongest(near, (hit) => hit.end)
    const last =
      generic?.concept === 'price'
        ? (near.find((hit) => NOT_THE_PRICE.has(hit.concept as AmountRole) && before.length - hit.end <= 30) ?? generic)
        : generic
    const afterHits = lexicon.find(after).filter((hit) => ROLES.has(hit.concept) || hit.concept === 'bids')
    // What follows counts when it follows closely, or when it turns the amount into something else.
    const following = afterHits.find(
      (hit) =>
        hit.start <= 4 ||
        (hit.start <= 24 && NOT_THE_PRICE.has(hit.concept as AmountRole) && !/[,;•|]/.test(after.slice(0, hit.start))),
    )
    const percentBetween = following?.concept === 'saving' && /\d\s?%/.test(after.slice(0, following.start))
    if (
      following &&
      NOT_THE_PRICE.has(following.concept as AmountRole) &&
      !percentBetween &&
      (following.concept === 'instalment' || following.concept === 'per-unit' || !isAddition(after))
    ) {
      return { role: following.concept as AmountRole, label: after.slice(following.start, following.end) }
    }
    if (last) return { role: last.concept as AmountRole, label: before.slice(last.start, last.end) }
    if (following) {
      const role = following.concept === 'bids' ? 'current-bid' : (following.concept as AmountRole)
      if (!NOT_THE_PRICE.has(role)) return { role, label: after.slice(following.start, following.end) }
    }
    if (/\p{L}{3}/u.test(before) && beforeHits.length === 0 && before.trim().length > 25)
      return { role: null, label: null }
  }
  return contextAbove(evidence, source)
}

/** "+ 4,90 € shipping" names the amount; "120 € plus shipping", "incl. VAT", "zzgl. Versand" name what comes on top of it. */
function isAddition(after: string): boolean {
  return /^\W*(?:\+|plus|zzgl|zuzüglich|inkl|incl|inc\b|includ|excl|ex\b|exkl|inklusive|hors|hors|ttc|más|mas\b|più|iva|con|con iva|sin|senza|excl|met|z vat|brutto|com|mais|税込|includes|inclus|without|before|ohne|und|and|or|\||•|·|free|kostenlos|gratis|\()/i.test(
    after,
  )
}

function strongest<T extends { concept: Concept }>(hits: readonly T[], order: (hit: T) => number): T | null {
  let best: T | null = null
  for (const hit of hits)
    if (
      best === null ||
      order(hit) > order(best) ||
      (order(hit) === order(best) && NOT_THE_PRICE.has(hit.concept as AmountRole))
    )
      best = hit
  return best
}

function roleOf(evidence: PageEvidence, text: string): AmountContext | null {
  if (text.length > 70) return null
  const hits = evidence.lexicon.find(text).filter((hit) => ROLES.has(hit.concept))
  if (hits.length === 0) return null
  const letters = text.replace(/[^\p{L}]/gu, '').length
  const best = strongest(hits, (hit) => hit.end - hit.start)
  if (!best) return null
  // Most of the line must be the label, else it is a sentence that happens to hold the word.
  const own = text.slice(best.start, best.end).replace(/[^\p{L}]/gu, '').length
  if (own < letters * 0.45 && !/[:：]\s*$/.test(text)) return null
  return { role: best.concept as AmountRole, label: text.slice(best.start, best.end) }
}

function contextAbove(evidence: PageEvidence, source: PageAmount): AmountContext {
  const { index } = evidence
  const cell = cellOf(evidence, source.node)
  if (cell) {
    const found = headOfCell(evidence, cell)
    if (found) return found
  }
  for (let step = 1; step <= 2; step += 1) {
    const above = index.lines[source.line - step]
    if (!above || above.hidden) break
    const holder = commonAncestor(index, Math.min(above.node, source.node), Math.max(above.node, source.node))
    // The label and its amount share a small block; across blocks a line above says nothing.
    if (textLengthOf(index, holder) > 220 && countIn(evidence.counts.amounts, index, holder) > 2) break
    if (evidence.amountsByLine.has(above.at)) break
    const found = roleOf(evidence, above.text)
    if (found) return found
  }
  const below = index.lines[source.line + 1]
  if (below && !below.hidden && !evidence.amountsByLine.has(below.at)) {
    const holder = commonAncestor(index, Math.min(below.node, source.node), Math.max(below.node, source.node))
    if (textLengthOf(index, holder) <= 120) {
      const found = roleOf(evidence, below.text)
      if (found?.role && !NOT_THE_PRICE.has(found.role) && !/[:：]\s*$/.test(below.text)) return found
    }
  }
  return { role: null, label: null }
}

function cellOf(evidence: PageEvidence, at: number): number | null {
  const { index } = evidence
  for (let up = at, step = 0; up > 0 && step < 5; up = index.nodes[up]!.parent, step += 1)
    if (/^t[dh]$/.test(index.nodes[up]!.tag)) return up
  return null
}

function headOfCell(evidence: PageEvidence, cell: number): AmountContext | null {
  const { index } = evidence
  const row = index.nodes[index.nodes[cell]!.parent]!
  let column = 0
  let head: number | null = null
  for (let at = row.at + 1; at < row.end && at < cell; at = index.nodes[at]!.end) {
    head = at
    column += 1
  }
  if (head !== null) {
    const found = roleOf(evidence, textOf(index, head, 100))
    if (found) return found
  }
  // The column's head: the same place in the table's first row.
  let table = row.parent
  while (table > 0 && index.nodes[table]!.tag !== 'table') table = index.nodes[table]!.parent
  if (table <= 0) return null
  let firstRow = table + 1
  while (firstRow < index.nodes[table]!.end && index.nodes[firstRow]!.tag !== 'tr') firstRow += 1
  if (firstRow >= row.at) return null
  let place = 0
  for (let at = firstRow + 1; at < index.nodes[firstRow]!.end; at = index.nodes[at]!.end) {
    if (place === column) {
      const head = roleOf(evidence, textOf(index, at, 100))
      return head ? { ...head, shared: true } : null
    }
    place += 1
  }
  return null
}
