/**
 * Fields that pages label: condition, location, item number, returns, payments, bids, reserve, premium, times. From label and
 * value pairs first, from telling lines second. Each answer carries where it stood.
 * Long because it is a list: one short reader a field over the same pairs and lines.
 */
import { hasLetter } from '../domain/letters.ts'
import { ownEntry } from '../domain/own-entry.ts'
import { type ParsedTime, parseTime } from '../domain/parse-time.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { type Line, REGION } from './index-document.ts'
import type { Concept } from './lexicon.ts'
import type { PageEvidence } from './page-evidence.ts'
import type { Pair } from './read-pairs.ts'
import type { Found } from './reading.ts'

export interface Labelled {
  readonly evidence: PageEvidence
  /** Shown lines that are not elsewhere: what single fields are looked for in. */
  readonly lines: readonly Line[]
  readonly pairs: readonly Pair[]
  readonly groups: readonly RecordGroup[]
  /** Line of the main heading. */
  readonly headlineLine: number
  /** The heading's element, −1 where the page has none. */
  readonly headlineNode: number
  /** The record that the heading itself stands in, −1 where it stands in none. */
  readonly headlineRow: number
}

export function createPlace(parts: Omit<Labelled, 'lines'>): Labelled {
  const place = { ...parts, lines: [] as Line[] }
  for (const line of parts.evidence.index.lines)
    if (!line.hidden && !isElsewhere(place, line.node)) place.lines.push(line)
  return place
}

/** Not of this item: other records, furniture, strips of related goods. */
export function isElsewhere(place: Labelled, at: number): boolean {
  const { evidence, groups } = place
  const node = evidence.index.nodes[at]
  if (!node) return true
  if (node.region & (REGION.related | REGION.chrome)) return true
  const group = groupAt(evidence.index, groups, at)
  return group !== null && group.row !== place.headlineRow && group.group.rows.length >= 3 && group.group.priced >= 0.5
}

const FORM_RANK = { list: 0, table: 0, line: 1, blocks: 1, heading: 2 } as const

/** The first pair whose label is of this concept; lists and tables before loose lines. */
export function pairOf(place: Labelled, concept: Concept, fits: (pair: Pair) => boolean = () => true): Pair | null {
  let best: { pair: Pair; rank: number } | null = null
  for (const pair of place.pairs) {
    const exact = place.evidence.lexicon.conceptsOf(pair.label).includes(concept)
    if (!exact || isElsewhere(place, pair.valueNode) || !fits(pair)) continue
    const rank = FORM_RANK[pair.form]
    if (best === null || rank < best.rank) best = { pair, rank }
  }
  return best?.pair ?? null
}

function found<T>(value: T, pair: Pair, confidence = 0.8): Found<T> {
  return { value, from: 'page', confidence, node: pair.valueNode, quote: `${pair.label}: ${pair.value}`.slice(0, 300) }
}

/** A value that is itself a label ("Condition" above "Location") is none. */
function isPlainValue(place: Labelled, text: string): boolean {
  return place.evidence.lexicon
    .conceptsOf(text.replace(/[:：]\s*$/, ''))
    .every((concept) => concept === 'sold' || concept === 'free' || concept === 'condition')
}

export function readCondition(place: Labelled): Found<string> | null {
  const pair = pairOf(
    place,
    'condition',
    (each) => each.value.length <= 160 && /\p{L}|\d/u.test(each.value) && isPlainValue(place, each.value),
  )
  return pair ? found(pair.value, pair) : null
}

export function readLocation(place: Labelled): Found<string> | null {
  const pair = pairOf(
    place,
    'location',
    (each) =>
      each.value.length <= 120 &&
      hasLetter(each.value) &&
      isPlainValue(place, each.value) &&
      !/https?:|[?*]$/.test(each.value),
  )
  if (pair) return found(pair.value, pair)
  // A postal code with its town, in a line of its own near the heading.
  for (const line of place.evidence.index.lines) {
    if (line.hidden || line.text.length > 60 || Math.abs(line.at - place.headlineLine) > 60) continue
    if (!POSTAL_LINE.test(line.text) || isElsewhere(place, line.node)) continue
    return { value: line.text, from: 'page', confidence: 0.5, node: line.node, quote: line.text }
  }
  return null
}

const POSTAL_LINE =
  /^(?:[A-Z]{1,2}-)?\d{4,5},?\s+[A-ZÀ-Ž][\wß-ž .'()/-]{2,40}$|^[A-ZÀ-Ž][\wß-ž .'/-]{2,40},?\s\(?\d{5}\)?$/

export function readItemNumber(place: Labelled): Found<string> | null {
  const { evidence } = place
  const fits = (text: string): boolean =>
    /^[#\w][\w./ -]{0,30}$/.test(text) && /\d/.test(text) && !/\d{4}-\d{2}-\d{2}/.test(text)
  const pair = pairOf(place, 'item-number', (each) => fits(each.value.replace(/^(?:#|nr\.?|no\.?|n°)\s*/i, '')))
  if (pair) return found(pair.value.replace(/^(?:#|nr\.?|no\.?|n°|№)\s*/i, ''), pair)
  let best: { value: Found<string>; distance: number } | null = null
  const path = (evidence.url ?? '').replace(/^https?:\/\/[^/]+/, '')
  // "Item number 5512390", "Lot 214", "Artikelnr. KL-60" without a colon.
  for (const line of place.lines) {
    if (line.text.length > 120) continue
    for (const hit of evidence.lexicon.find(line.text)) {
      if (hit.concept !== 'item-number') continue
      const label = line.text.slice(hit.start, hit.end)
      if (label.length <= 2) continue
      const match = /^\s*[:.#]?\s*(?:n[ro°]\.?\s*|#\s*)?([A-Z]{0,5}[-/]?\d[\w-]{0,20})(?=$|[\s,;·|)])/i.exec(
        line.text.slice(hit.end),
      )
      if (
        !match ||
        (hit.start > 0 &&
          /\p{L}\s*$/u.test(line.text.slice(0, hit.start)) &&
          hit.start > 3 &&
          !/[·|,(]\s*$/.test(line.text.slice(0, hit.start)))
      )
        continue
      // Neighbouring lots are named too: the nearest to the heading counts, and sooner one that the address carries.
      const distance = Math.abs(line.at - place.headlineLine) - (path.includes(match[1]!) ? 100 : 0)
      if (best && distance >= best.distance) continue
      best = {
        value: { value: match[1]!, from: 'page', confidence: 0.7, node: line.node, quote: line.text.slice(0, 120) },
        distance,
      }
    }
  }
  if (best) return best.value
  // A figure in a line of its own that the page's address carries too.
  for (const line of place.lines) {
    if (line.text.length > 40 || Math.abs(line.at - place.headlineLine) > 80) continue
    const match = /^(?:[\p{L}.#°º]{0,14}[\s:]{1,2})?#?([A-Za-z]{0,4}-?\d{3,}[\w-]{0,12})$/u.exec(line.text.trim())
    if (match && path.includes(match[1]!))
      return { value: match[1]!, from: 'page', confidence: 0.6, node: line.node, quote: line.text }
  }
  return null
}

export function readReturns(place: Labelled): {
  returns: Found<'accepted' | 'refused'> | null
  days: Found<number> | null
} {
  const { evidence } = place
  const judge = (text: string): 'accepted' | 'refused' | null => {
    const { lexicon } = evidence
    const refused = lexicon.find(text).find((hit) => hit.concept === 'refused')
    if (refused) return 'refused'
    // "May be returned within 10 days if not as described".
    if (daysIn(text) !== null) return 'accepted'
    if (
      /\b(?:no|not|none|keine?|nein|nicht|non|sin|nessun|geen|nie|brak|sem|não)\b|不可/iu.test(text) &&
      text.length < 80
    )
      return 'refused'
    if (lexicon.has(text, 'accepted') || /^(?:yes|ja|oui|sí|sì|tak|sim)\b/i.test(text)) return 'accepted'
    return null
  }
  const pair = pairOf(place, 'returns', (each) => judge(each.value) !== null)
  if (pair) {
    const days = daysIn(pair.value)
    return { returns: found(judge(pair.value)!, pair), days: days === null ? null : found(days, pair) }
  }
  for (const line of evidence.index.lines) {
    if (line.hidden || line.text.length > 200 || (isElsewhere(place, line.node) && !isInFoot(place, line))) continue
    const hits = evidence.lexicon.find(line.text)
    const about = hits.some((hit) => hit.concept === 'returns')
    const refused = hits.find((hit) => hit.concept === 'refused' && line.text.slice(hit.start, hit.end).length > 9)
    const accepted = hits.find((hit) => hit.concept === 'accepted' && line.text.slice(hit.start, hit.end).length > 9)
    if (!about && !refused && !accepted) continue
    if (
      !about &&
      refused &&
      !/return|retour|rück|umtausch|devolu|reso|resi|restitu|zwrot|返品|リターン/i.test(line.text)
    )
      continue
    const verdict = about ? judge(line.text) : refused ? 'refused' : 'accepted'
    if (verdict === null) continue
    const days = verdict === 'accepted' ? daysIn(line.text) : null
    const quote = line.text
    return {
      returns: { value: verdict, from: 'page', confidence: 0.7, node: line.node, quote },
      days: days === null ? null : { value: days, from: 'page', confidence: 0.7, node: line.node, quote },
    }
  }
  return { returns: null, days: null }
}

/** The foot of the page often says for the whole shop how long things can be sent back. */
function isInFoot(place: Labelled, line: Line): boolean {
  const { region } = place.evidence.index.nodes[line.node]!
  return (
    (region & REGION.chrome) !== 0 &&
    (region & REGION.related) === 0 &&
    line.at > place.headlineLine &&
    daysIn(line.text) !== null
  )
}

const SPELT_DAYS: Readonly<Record<string, number>> = {
  seven: 7,
  ten: 10,
  fourteen: 14,
  thirty: 30,
  sieben: 7,
  zehn: 10,
  vierzehn: 14,
  dreißig: 30,
  sept: 7,
  dix: 10,
  quatorze: 14,
  quinze: 15,
  trente: 30,
  siete: 7,
  diez: 10,
  catorce: 14,
  quince: 15,
  treinta: 30,
}

function daysIn(text: string): number | null {
  const lower = text.toLowerCase()
  const spelt = /([a-zß]{3,9})[\s\u00a0-](?:days?|tagen?|jours?|días?)/.exec(lower)
  const number = spelt ? ownEntry(SPELT_DAYS, spelt[1]!) : undefined
  if (number !== undefined) return number
  const match =
    /(\d{1,3})[\s\u00a0-]?(?:(?:days?|tagen?|tage|jours?|días?|dias?|giorni|dagen|dagars?|dager?|dage|dni|dní|dnů)(?![a-zß-ž])|日)/.exec(
      lower,
    )
  if (match) return Number(match[1])
  const word = /\b(?:one month|einen? monat|un mois|un mes|un mese|een maand|miesiąc|um mês)\b/iu.test(text)
  return word ? 30 : null
}

export function readPayments(place: Labelled): Found<readonly string[]> | null {
  const pair = pairOf(place, 'payment', (each) => each.value.length <= 250)
  if (!pair) return paymentsInSentence(place)
  const names = namesOfList(pair.value)
  return names.length > 0 && names.length <= 15 ? found(names, pair) : null
}

function namesOfList(text: string): string[] {
  return text
    .split(/\s*[,;|•·/、]\s*|\s+(?:and|or|und|oder|et|ou|y|o|e|en|of|i|lub|eller|czy|nebo)\s+/i)
    .map((name) => name.replace(/\.$/, '').trim())
    .filter((name) => name.length >= 2 && name.length <= 40)
}

/** Ways to pay as plain words; from general knowledge of the languages, no brands. */
const MEANS =
  /(?:^|[\s(,])(?:cash|cheques?|checks?|money orders?|(?:credit |debit )?cards?|(?:bank )?(?:transfer|wire)|vorkasse|rechnung|überweisung|barzahlung|bar|nachnahme|lastschrift|kreditkarte|virement|chèques?|espèces|carte(?: bancaire)?|bonifico(?: bancario)?|carta|contanti|contrassegno|transferencia|tarjeta|efectivo|overschrijving|contant|przelewem?|gotówką?|transferência|cartão|dinheiro|banköverföring|kort|銀行振込|代引き?)(?![a-zà-ž])/gi

/** "We take check, money order and bank wire." – from the first way to pay to the last, in a sentence with two of them. */
function paymentsInSentence(place: Labelled): Found<readonly string[]> | null {
  for (const line of place.lines) {
    if (line.text.length > 400) continue
    for (const sentence of line.text.split(/[.!?。]\s*/)) {
      const means = sentence.length > 160 ? [] : [...sentence.matchAll(MEANS)]
      const [first, last] = [means[0], means.at(-1)]
      if (!first || !last || means.length < 2) continue
      const names = namesOfList(sentence.slice(first.index, last.index + last[0].length).replace(/^[\s(,]+/, ''))
      if (names.length < 2 || names.length > 8 || names.some((name) => name.split(' ').length > 3)) continue
      return { value: names, from: 'page', confidence: 0.6, node: line.node, quote: sentence.trim() }
    }
  }
  return null
}

export function readBids(place: Labelled): Found<number> | null {
  const { evidence } = place
  const pair = pairOf(place, 'bids', (each) => /^\(?\d{1,4}\)?(?:\s|$)/.test(each.value))
  if (pair) return found(Number.parseInt(pair.value.replace(/\D+/, ''), 10), pair)
  for (const line of place.lines) {
    if (line.text.length > 100) continue
    const hit = evidence.lexicon.find(line.text).find((each) => each.concept === 'bids')
    if (!hit) continue
    const before = /(?:^|[\s([•·|,:])(\d{1,4})\s*$/.exec(line.text.slice(0, hit.start))
    const after = /^\s*[:：(（]\s*(\d{1,4})\b(?!\s*[.,:]\d)/.exec(line.text.slice(hit.end))
    const quote = line.text
    const count = before ?? after
    if (count) return { value: Number(count[1]), from: 'page', confidence: 0.85, node: line.node, quote }
    if (
      /\b(?:no|noch keine|keine|aucune|aucun|sin|nessun[ao]?|geen|nog geen|brak|sem|inga|0)\s*$/iu.test(
        line.text.slice(0, hit.start),
      ) ||
      /^no bids/i.test(line.text.slice(hit.start))
    ) {
      return { value: 0, from: 'page', confidence: 0.8, node: line.node, quote }
    }
    if (/入札(?:なし|はありません)/.test(line.text))
      return { value: 0, from: 'page', confidence: 0.8, node: line.node, quote }
    const japanese = /(\d+)\s*件/.exec(line.text)
    if (japanese && /入札/.test(line.text))
      return { value: Number(japanese[1]), from: 'page', confidence: 0.8, node: line.node, quote }
  }
  return null
}

const NEGATED = /(?:^|[\s(])(?:not|nicht|non|no|niet|nie|não|ej|inte|ikke)\s|未/i
const REACHED = /\bmet\b|reached|erreicht|atteint|alcanzad|raggiunt|bereikt|gehaald|osiągni|ating|uppnå|opnå|dosaž/i

export function readReserve(place: Labelled): Found<'met' | 'not-met' | 'none'> | null {
  const { evidence } = place
  const verdicts: readonly [Concept, 'met' | 'not-met' | 'none'][] = [
    ['reserve-not-met', 'not-met'],
    ['reserve-met', 'met'],
    ['no-reserve', 'none'],
  ]
  for (const line of place.lines) {
    if (line.text.length > 120) continue
    for (const [concept, value] of verdicts)
      if (evidence.lexicon.has(line.text, concept))
        return { value, from: 'page', confidence: 0.85, node: line.node, quote: line.text }
  }
  const sentence = evidence.index.lines.find(
    (line) =>
      !line.hidden &&
      line.text.length <= 120 &&
      evidence.lexicon.has(line.text, 'reserve') &&
      NEGATED.test(line.text) &&
      REACHED.test(line.text) &&
      !isElsewhere(place, line.node),
  )
  if (sentence) return { value: 'not-met', from: 'page', confidence: 0.75, node: sentence.node, quote: sentence.text }
  const pair = pairOf(place, 'reserve')
  if (!pair) return null
  if (NEGATED.test(pair.value)) return found(REACHED.test(pair.value) ? 'not-met' : 'none', pair)
  if (/\b(?:none|keiner|aucun|sin|nessuno|geen|brak|sem)\b|なし/iu.test(pair.value)) return found('none', pair)
  if (REACHED.test(pair.value)) return found('met', pair)
  return null
}

/** "Buyer's premium 22 %": per cent of the hammer price. */
export function readPremium(place: Labelled): Found<number> | null {
  const { evidence } = place
  for (const { at, text, node } of withNext(place)) {
    if (text.length > 400) continue
    const hit = evidence.lexicon.find(text.slice(0, 240)).find((each) => each.concept === 'premium')
    if (!hit) continue
    const match =
      /(\d{1,2}(?:[.,]\d{1,2})?)\s?%/.exec(text.slice(hit.end)) ?? /(\d{1,2}(?:[.,]\d{1,2})?)\s?%/.exec(text)
    if (!match) continue
    const value = Number(match[1]!.replace(',', '.'))
    // Above half of the hammer price it is a discount or a typing error.
    if (value > 0 && value <= 50)
      return { value, from: 'page', confidence: 0.8, node, quote: evidence.index.lines[at]!.text.slice(0, 200) }
  }
  return null
}

/** Each line, and where it ends as a label, with the next one: "Aufgeld" above "23 %". */
function* withNext(place: Labelled): Generator<{ at: number; text: string; node: number }> {
  const { index } = place.evidence
  for (const line of place.lines) {
    const next = index.lines[line.at + 1]
    const joined =
      next && !next.hidden && line.text.length <= 60 && next.text.length <= 60 ? `${line.text} ${next.text}` : line.text
    yield { at: line.at, text: joined, node: line.node }
  }
}

/** The time beside a label of the concept; `time` elements and data attributes of its block are more exact than words. */
export function readTimeOf(
  place: Labelled,
  concept: 'ends' | 'ended' | 'sold',
  direction: 'future' | 'past',
): Found<string> | null {
  const { evidence } = place
  const { index } = evidence
  const options = { now: evidence.now, locale: evidence.locale, direction }
  const candidates: { text: string; node: number; quote: string; rank: number }[] = []
  for (const pair of place.pairs) {
    if (isElsewhere(place, pair.valueNode) || !evidence.lexicon.has(pair.label, concept)) continue
    candidates.push({ text: pair.value, node: pair.valueNode, quote: `${pair.label}: ${pair.value}`, rank: 0 })
  }
  for (const line of place.lines) {
    if (line.text.length > 200) continue
    const hit = evidence.lexicon.find(line.text).find((each) => each.concept === concept)
    if (!hit) continue
    // The label must lead, follow a separator, or stand close before the figures.
    const rest = line.text.slice(hit.end)
    if (/\d/.test(rest)) candidates.push({ text: rest, node: line.node, quote: line.text, rank: 1 })
    else if (/\d/.test(line.text.slice(0, hit.start)) && hit.start < 60)
      candidates.push({ text: line.text, node: line.node, quote: line.text, rank: 2 })
    for (let step = 1; step <= 2; step += 1) {
      const next = index.lines[line.at + step]
      if (next && !next.hidden && /\d/.test(next.text) && next.text.length <= 80 && line.text.length <= 50)
        candidates.push({ text: next.text, node: next.node, quote: `${line.text} ${next.text}`, rank: 2 + step })
    }
  }
  let best: { time: ParsedTime; node: number; quote: string; rank: number } | null = null
  for (const candidate of candidates) {
    const exact = machineTime(place, candidate.node, options)
    const time = exact ?? parseTime(candidate.text, options)
    if (!time || time.iso === '') continue
    // A date beats a span, and a span beats nothing: spans are rounded.
    const relative =
      !exact && time.start >= 0 && !/\d{1,2}[./:]\d{2}|\d{4}|\p{L}{3,}\.?\s\d{1,2}|月/u.test(candidate.text)
    const rank = candidate.rank + (relative ? 5 : 0) + (time.dateOnly ? 2 : 0)
    if (best === null || rank < best.rank) best = { time, node: candidate.node, quote: candidate.quote, rank }
  }
  if (!best) return null
  const note = best.time.assumedZone ? `no time zone is named; ${best.time.assumedZone} assumed` : undefined
  return {
    value: best.time.iso,
    from: 'page',
    confidence: best.time.assumedZone ? 0.6 : 0.85,
    node: best.node,
    quote: best.quote.slice(0, 200),
    ...(note ? { note } : {}),
  }
}

const TIME_ATTRIBUTES = [
  'datetime',
  'data-end',
  'data-endtime',
  'data-end-time',
  'data-ends-at',
  'data-ends',
  'data-end-date',
  'data-expires',
  'data-deadline',
  'data-time',
  'data-timestamp',
  'data-countdown',
  'data-date',
  'data-until',
  'data-closes',
  'data-close',
  'data-ts',
] as const

function machineTime(
  place: Labelled,
  at: number,
  options: { now: string; locale: string | null; direction: 'future' | 'past' },
): ParsedTime | null {
  const { index } = place.evidence
  const node = index.nodes[at]
  if (!node) return null
  const from = node.tag === 'time' || node.end - node.at > 12 ? node.at : Math.max(node.parent, 0)
  const { end } = index.nodes[from]!
  for (let inner = from; inner < Math.min(end, from + 12); inner += 1) {
    const { element } = index.nodes[inner]!
    if (element.attributes.length === 0) continue
    for (const name of TIME_ATTRIBUTES) {
      const value = element.getAttribute(name)
      if (!value || value.length > 40) continue
      const time = parseTime(value, options)
      if (time && Math.abs(Date.parse(time.iso) - Date.parse(options.now)) < 5 * 366 * 86_400_000) return time
    }
  }
  return null
}
