/** Who offers the thing: by label, by a link to a seller's own page, by marks; with feedback and length of membership beside it. */
import type { Seller } from '../domain/listing.ts'
import { parseTime } from '../domain/parse-time.ts'
import { siteName } from './find-headline.ts'
import { textLengthOf, textOf } from './index-document.ts'
import { resolveUrl } from './read-gallery.ts'
import { isElsewhere, type Labelled } from './read-labelled.ts'
import type { Found } from './reading.ts'
import { lineOfNode } from './score-price.ts'
import { stringOf } from './structured/graph.ts'
import { type OfferRecord, sourceOf } from './structured/offer-records.ts'

export const SELLER_PATH =
  /\/(?:users?|usr|sellers?|shops?|stores?|members?|profiles?|u|dealers?|vendors?|merchants?|verkaeufer|haendler|anbieter|nutzer|mitglied|vendeurs?|boutiques?|vendedor(?:es)?|tiendas?|usuarios?|venditor[ei]|negozi[o]?|utente|verkopers?|winkels?|gebruikers?|sprzedawc[ay]|uzytkownik|sklep|lojas?|utilizador|anunciante|people|accounts?|bestandsliste)\/[^/?#]+|[?&](?:seller|user|userid|member|shop|store|vendor)(?:_?id|name)?=/i
export const SELLER_MARKS =
  /seller|vendor|merchant|shop-?name|store-?name|verk(?:ä|ae)ufer|anbieter|vendeur|vendedor|venditore|verkoper|sprzedaw|dealer|advertiser|owner-?name|user-?name|consignor|offered-?by|sold-?by/
const NOT_A_NAME =
  /^(?:see|view|visit|more|all|other|contact|ask|follow|report|save|show|message|mehr|alle|weitere|andere|zum|kontakt|folgen|voir|autres|plus de|contacter|ver|otros|más|mais|outros|todos|vedi|altri|tutti|contatta|bekijk|meer|zobacz|wszystkie|seller|verkäufer|vendeur|vendedor|venditore|verkoper|sprzedawca|出品者|\d+[%\s])/iu
/** "Write to Maud", "Nachricht an Hauke": whoever can be written to about the thing offers it. */
const ADDRESSED =
  /^(?:write to|ask|message|contact|send (?:a )?message to|question for|(?:eine )?(?:nachricht|frage|anfrage) an|schreib(?:e|en sie)?(?: an)?|kontakt(?:iere)?|écrire à|contacter|question à|(?:escribir|preguntar|mensaje) a|contactar (?:con|a)|scrivi a|contatta|messaggio (?:a|per)|bericht (?:aan|naar)|napisz do|mensagem para|contatar)\s+(\S.{1,40})$/iu
/** Characters of the block around a seller's name in which feedback and membership are looked for. */
const BLOCK_LIMIT = 500

interface SellerCandidate {
  readonly name: string
  readonly url: string | null
  readonly node: number
  readonly score: number
  readonly quote: string
}

export function cleanSellerName(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .replace(/^(?:by|von|par|por|da|van|od|@)\s+/i, '')
    .replace(/\s*[(（[].*$/, '')
    .replace(/\s*[★☆✓✔].*$/, '')
    .replace(/\s+(?:[·|•–—]|--).*$/, '')
    .replace(
      /\s+\d[\d.,]*\s?(?:%|sales|sold|feedback|bewertungen|avis|ratings?|reviews?|verkäufe|ventes|ventas|vendite|evaluations|verkopen|sprzedaży|vendas).*$/i,
      '',
    )
    .replace(/[,;:]+$/, '')
    .trim()
}

export function readSeller(place: Labelled, record: OfferRecord | null): Found<Seller> | null {
  const { evidence } = place
  const { index, lexicon } = evidence
  const candidates: SellerCandidate[] = []
  const add = (raw: string, url: string | null, node: number, score: number, quote: string): void => {
    const name = cleanSellerName(raw)
    if (name.length < 2 || name.length > 60 || NOT_A_NAME.test(name) || !/[\p{L}\d]/u.test(name)) return
    const concepts = lexicon.conceptsOf(name)
    if (concepts.some((concept) => concept !== 'sold' && concept !== 'price')) return
    if (/https?:\/\/|[?!]$|\.{3}$/.test(name) || name.split(' ').length > 8) return
    candidates.push({ name, url, node, score, quote: quote.slice(0, 200) })
  }
  for (const pair of place.pairs) {
    if (isElsewhere(place, pair.valueNode)) continue
    const concepts = lexicon.conceptsOf(pair.label)
    if (!concepts.includes('seller')) continue
    const weak = pair.label.length <= 4
    const link = linkIn(place, pair.valueNode)
    const linked = link && pair.value.startsWith(link.text) && link.text.length >= 2 ? link : null
    add(
      linked?.text ?? pair.value,
      linked?.url ?? null,
      linked?.node ?? pair.valueNode,
      (pair.form === 'heading' ? 3 : 4) - (weak ? 1.5 : 0) + (linked ? 0.5 : 0),
      `${pair.label}: ${pair.value}`,
    )
  }
  for (const line of place.lines) {
    if (line.text.length > 140) continue
    const hit = lexicon.find(line.text).find((each) => each.concept === 'seller')
    if (!hit || hit.start > 2) continue
    const label = line.text.slice(hit.start, hit.end)
    const rest = line.text.slice(hit.end).replace(/^\s*[:：]?\s*/, '')
    // "Sold by tanglewrack" – but "Seller's other items", "Shop by category".
    if (
      rest === '' ||
      /^['’]s\b/.test(rest) ||
      // A trail of links.
      /^[›»>/|]/.test(rest) ||
      (label.length <= 5 && !/[:：]/.test(line.text.slice(hit.end, hit.end + 2)))
    )
      continue
    // "Seller guide" as one link leads somewhere else.
    if (isOneLink(place, line.firstRun, line.lastRun)) continue
    const link = linkIn(place, line.node) ?? linkAfter(place, line.firstRun, line.lastRun)
    const linked = link && rest.startsWith(link.text) && link.text.length >= 2 ? link : null
    if (/\b(?:by|von|durch|par|por|da|door|przez)$/i.test(label) || linked)
      add(linked?.text ?? rest, linked?.url ?? null, linked?.node ?? line.node, linked ? 4 : 3, line.text)
    else if (rest.length <= 40) add(rest, null, line.node, 2, line.text)
  }
  for (const line of index.lines) {
    const addressed = line.hidden || isElsewhere(place, line.node) ? null : ADDRESSED.exec(line.text)
    if (!addressed) continue
    // Only a name that also stands by itself: "Ask a question" addresses nobody.
    const alone = index.lines.find((other) => !other.hidden && other !== line && other.text === addressed[1])
    if (alone) add(addressed[1]!, null, alone.node, 3.2, line.text)
  }
  for (const at of evidence.links) {
    const node = index.nodes[at]!
    const href = node.element.getAttribute('href') ?? ''
    if (!SELLER_PATH.test(href) || isElsewhere(place, at) || node.hidden) continue
    const text = nameIn(place, at)
    const line = lineOfNode(evidence, at)
    const distance = line - place.headlineLine
    add(
      text,
      resolveUrl(evidence, href),
      at,
      2.2 + (SELLER_MARKS.test(marksAround(place, at)) ? 1 : 0) - (distance < -3 ? 1.5 : 0) - (distance > 80 ? 1 : 0),
      text,
    )
  }
  for (const node of index.nodes) {
    if (node.hidden || node.firstRun === node.lastRun || node.lastRun - node.firstRun > 3) continue
    const property = node.markup & 1 ? node.element.getAttribute('itemprop') : null
    const named = property !== null && /(?:^|\s)(?:seller|offeredBy)(?:\s|$)/.test(property)
    if (!named && !(node.marks && SELLER_MARKS.test(node.marks))) continue
    if (isElsewhere(place, node.at)) continue
    const link = linkIn(place, node.at)
    const text = link?.text ?? textOf(index, node.at, 120)
    add(text, link?.url ?? null, link?.node ?? node.at, named ? 3 : /name|title|link/.test(node.marks) ? 2 : 1.4, text)
  }
  for (const node of index.nodes) {
    // A seller's block: its heading, or what it sets in bold, is the name.
    if (node.marks === '' || node.hidden || !SELLER_MARKS.test(node.marks) || isElsewhere(place, node.at)) continue
    if (node.lastRun - node.firstRun < 2 || textLengthOf(index, node.at) > BLOCK_LIMIT) continue
    for (let inner = node.at + 1; inner < node.end; inner += 1) {
      const { tag } = index.nodes[inner]!
      if (!/^(?:h[2-6]|strong|b)$/.test(tag)) continue
      const text = textOf(index, inner, 120)
      add(text, null, inner, 1.7, text)
      break
    }
  }
  const stated =
    record?.seller && !/^https?:|^\w{0,3}[-_]?\d+$/.test(record.seller) ? cleanSellerName(record.seller) : null
  let best: SellerCandidate | null = null
  for (const candidate of candidates) {
    const agrees = stated !== null && candidate.name.toLowerCase() === stated.toLowerCase()
    const score = candidate.score + (agrees ? 2 : 0)
    if (best === null || score > best.score) best = { ...candidate, score }
  }
  if (best && stated && best.name.toLowerCase() !== stated.toLowerCase() && best.score < 3) best = null
  if (best && best.score >= 1.4) {
    const beside = readBeside(place, best.node)
    return {
      value: { name: best.name, url: best.url, ...beside },
      from: 'page',
      confidence: Math.min(0.95, 0.4 + best.score / 10),
      node: best.node,
      quote: best.quote,
    }
  }
  if (stated) {
    const url = resolveUrl(evidence, stringOf(record?.sellerItem, 'url'))
    return {
      value: { name: stated, url, feedbackCount: null, feedbackPercent: null, memberSince: null },
      from: record ? sourceOf(record) : 'json-ld',
      confidence: 0.8,
      node: -1,
    }
  }
  return null
}

/** A link's heading or first words, where stars, counts and buttons follow in elements of their own. */
function nameIn(place: Labelled, at: number): string {
  const { index } = place.evidence
  const node = index.nodes[at]!
  for (let inner = at + 1; inner < node.end; inner += 1)
    if (/^(?:h[1-6]|strong|b)$/.test(index.nodes[inner]!.tag)) return textOf(index, inner, 120)
  const first = index.runs[node.firstRun]
  return first && node.lastRun - node.firstRun > 1 && first.text.trim().length >= 3
    ? first.text.trim()
    : textOf(index, at, 120)
}

function isOneLink(place: Labelled, firstRun: number, lastRun: number): boolean {
  const { index } = place.evidence
  const linkOf = (at: number): number => {
    for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1)
      if (index.nodes[up]!.tag === 'a') return up
    return -1
  }
  const first = linkOf(index.runs[firstRun]!.node)
  return first >= 0 && linkOf(index.runs[lastRun - 1]!.node) === first
}

/** A shop or auction house that sells on its own account: its own name, where the page names nobody else. */
export function siteAsSeller(place: Labelled): Found<Seller> | null {
  const { evidence } = place
  const { index, metadata } = evidence
  const letters = (text: string): string =>
    text
      .normalize('NFKD')
      .toLowerCase()
      .replace(/&/g, 'and')
      .replace(/[^\p{L}\p{N}]/gu, '')
  const host = (/^https?:\/\/([^/:?#]+)/i.exec(evidence.url ?? '')?.[1] ?? '').split('.').map(letters)
  const fitsHost = (name: string): boolean => {
    const plain = letters(name)
    const bare = letters(name.replace(/&/g, ''))
    return (
      plain.length >= 4 &&
      host.some(
        (label) => label.length >= 4 && (label.includes(plain) || plain.includes(label) || label.includes(bare)),
      )
    )
  }
  const found = (name: string, from: 'open-graph' | 'page' | 'json-ld', node: number): Found<Seller> => ({
    value: { name, url: null, feedbackCount: null, feedbackPercent: null, memberSince: null },
    from,
    confidence: 0.35,
    node,
    note: 'nobody is named as the seller; the site itself',
  })
  const stated = metadata.names.get('og:site_name')
  if (stated && stated.length <= 60) return found(stated, 'open-graph', -1)
  const shown = siteName(evidence)
  if (shown) return found(shown.text, 'page', shown.node)
  for (const at of evidence.links) {
    const href = index.nodes[at]!.element.getAttribute('href') ?? ''
    if (!/^(?:https?:\/\/[^/]+)?\/?(?:index\.\w+|home)?(?:[?#].*)?$/i.test(href)) continue
    const text = textOf(index, at, 80)
    if (text.length >= 3 && text.length <= 60 && fitsHost(text)) return found(text, 'page', at)
  }
  for (const part of (metadata.title ?? '').split(/\s+[|–—·•»:-]\s+/))
    if (part.length <= 60 && fitsHost(part)) return found(part.trim(), 'page', -1)
  return null
}

function marksAround(place: Labelled, at: number): string {
  const { index } = place.evidence
  let marks = ''
  for (let up = at, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1)
    marks += ` ${index.nodes[up]!.marks}`
  return marks
}

function linkIn(place: Labelled, at: number): { text: string; url: string | null; node: number } | null {
  const { index } = place.evidence
  const node = index.nodes[at]
  if (!node) return null
  for (let inner = at; inner < node.end && inner < at + 30; inner += 1) {
    const each = index.nodes[inner]!
    if (each.tag !== 'a') continue
    // Stars and counts stand in elements of their own behind the name.
    const run = index.runs[each.firstRun]
    const text =
      each.lastRun - each.firstRun > 1 && run && run.text.trim().length >= 2
        ? run.text.trim()
        : textOf(index, inner, 120)
    if (text) return { text, url: resolveUrl(place.evidence, each.element.getAttribute('href')), node: inner }
  }
  return null
}

function linkAfter(
  place: Labelled,
  firstRun: number,
  lastRun: number,
): { text: string; url: string | null; node: number } | null {
  const { index } = place.evidence
  for (let i = firstRun; i < lastRun; i += 1) {
    const at = index.runs[i]!.node
    for (let up = at, step = 0; up > 0 && step < 3; up = index.nodes[up]!.parent, step += 1) {
      if (index.nodes[up]!.tag === 'a')
        return {
          text: textOf(index, up, 120),
          url: resolveUrl(place.evidence, index.nodes[up]!.element.getAttribute('href')),
          node: up,
        }
    }
  }
  return null
}

/** Feedback and membership in the block around the name. */
function readBeside(
  place: Labelled,
  at: number,
): { feedbackCount: number | null; feedbackPercent: number | null; memberSince: string | null } {
  const { evidence } = place
  const { index, lexicon } = evidence
  let block = at
  for (let up = index.nodes[at]!.parent, step = 0; up > 0 && step < 5; up = index.nodes[up]!.parent, step += 1) {
    if (
      textLengthOf(index, up) > BLOCK_LIMIT ||
      evidence.counts.amounts[index.nodes[up]!.end]! - evidence.counts.amounts[up]! > 0
    )
      break
    block = up
  }
  let feedbackCount: number | null = null
  let feedbackPercent: number | null = null
  let memberSince: string | null = null
  const node = index.nodes[block]!
  const first = index.runs[node.firstRun]?.line ?? 0
  for (let i = first; i < index.lines.length && index.lines[i]!.firstRun < node.lastRun; i += 1) {
    const { text } = index.lines[i]!
    if (text.length > 200) continue
    const percent = /(?<![\d.,])(\d{1,3}(?:[.,]\d{1,2})?)\s?%/.exec(text)
    if (percent && feedbackPercent === null) {
      const value = Number(percent[1]!.replace(',', '.'))
      if (value <= 100 && (lexicon.has(text, 'feedback') || i - first <= 4)) feedbackPercent = value
    }
    if (feedbackCount === null) {
      const hit = lexicon.find(text).find((each) => each.concept === 'feedback')
      const number = '(\\d{1,3}(?:[.,\\s\\u00a0]\\d{3})+|\\d{1,7})'
      const before = hit ? new RegExp(`${number}\\s*(?:\\p{L}+\\s)?$`, 'u').exec(text.slice(0, hit.start)) : null
      const after = hit
        ? new RegExp(`^\\s*[:：(]?\\s*${number}(?![.,]?\\d*\\s?%)`, 'u').exec(text.slice(hit.end))
        : null
      const bracket = new RegExp(`[(（]\\s*${number}\\s*[★☆]?\\s*[)）]`, 'u').exec(text)
      const match = before ?? after ?? bracket
      if (match) feedbackCount = Number(match[1]!.replace(/\D/g, ''))
    }
    if (memberSince === null) {
      const hit = lexicon.find(text).find((each) => each.concept === 'member-since')
      if (hit && (text.slice(hit.start, hit.end).length > 4 || hit.start === 0)) {
        const rest = text
          .slice(hit.end)
          .replace(/^\s*[:：]?\s*/, '')
          .replace(/[.,;)]+$/, '')
          .trim()
        if (/\d{4}|\d{1,2}\s/.test(rest) && rest.length <= 40) {
          const time = parseTime(rest, { now: evidence.now, locale: evidence.locale, direction: 'past' })
          memberSince = time ? time.iso.slice(0, 10) : rest
        }
      }
    }
  }
  return { feedbackCount, feedbackPercent, memberSince }
}
