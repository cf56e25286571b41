/**
 * What the words beside an amount say it is: a price, a bid, shipping, an old price. Before it in the line, after it, on the line
 * above, in the head of its row or column. Gives the role and the label's words; what they are worth is weighed elsewhere.
 */
import { countLetters } from '../domain/letters.ts'
import { commonAncestor, textLengthOf, textOf } from './index-document.ts'
import type { Concept } from './lexicon.ts'
import { countIn, type PageAmount, type PageEvidence } from './page-evidence.ts'

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
  const letters = countLetters(text)
  const best = strongest(hits, (hit) => hit.end - hit.start)
  if (!best) return null
  // Most of the line must be the label, else it is a sentence that happens to hold the word.
  const own = countLetters(text.slice(best.start, best.end))
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
