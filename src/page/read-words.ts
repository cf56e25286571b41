/** The longer words of a listing: description, item specifics, category path. */

import { foldWords, overlap } from './find-headline.ts'
import { blockTextOf, REGION, textLengthOf, textOf } from './index-document.ts'
import { isElsewhere, type Labelled } from './read-labelled.ts'
import type { Found } from './reading.ts'
import { hasType, itemsOf, stringOf } from './structured/graph.ts'
import { type OfferRecord, sourceOf } from './structured/offer-records.ts'

/** Characters kept of a description. */
const DESCRIPTION_LIMIT = 20_000
const DESCRIPTION_MARKS =
  /(?:^|[\s_-])(?:description|desc|beschreibung|descripcion|descrizione|omschrijving|opis|descricao|item-?details?-?text|lot-?essay|product-?details|longtext|ad-?body|ad-?text|posting-?body)(?:$|[\s_-])/
const SPECIFICS_LIMIT = 120

export function readDescription(place: Labelled, record: OfferRecord | null): Found<string> | null {
  const { evidence } = place
  const { index, lexicon, metadata } = evidence
  const candidates: { text: string; node: number; score: number }[] = []
  const add = (at: number, base: number, from?: string): void => {
    const text = from ?? blockTextOf(index, at, DESCRIPTION_LIMIT)
    if (text.length < 3) return
    candidates.push({ text, node: at, score: base + Math.min(text.length, 1500) / 500 })
  }
  for (const node of index.nodes) {
    if (node.hidden || node.firstRun === node.lastRun || isElsewhere(place, node.at)) continue
    if (node.markup & 3) {
      const name = node.element.getAttribute('itemprop') ?? node.element.getAttribute('property')
      if (name && /(?:^|[\s:])description$/i.test(name) && textLengthOf(index, node.at) > 10) add(node.at, 4)
    }
    if (node.marks && DESCRIPTION_MARKS.test(node.marks) && textLengthOf(index, node.at) > 20) {
      const text = withoutHeading(place, blockTextOf(index, node.at, DESCRIPTION_LIMIT))
      // A box of pairs is specifics, whatever its name.
      if (text.split('\n').filter((line) => line.length > 60).length > 0 || text.length < 400)
        add(node.at, 3 - (node.children > 25 ? 1 : 0), text)
    }
  }
  for (const line of place.lines) {
    if (line.text.length > 60) continue
    if (!lexicon.conceptsOf(line.text).includes('description')) continue
    const text = sectionAfter(place, line.at)
    if (text && text.length > 15)
      candidates.push({ text, node: index.lines[line.at + 1]!.node, score: 3.2 + Math.min(text.length, 1500) / 500 })
  }
  if (candidates.length === 0) {
    const prose = longestProse(place)
    if (prose) candidates.push({ text: prose.text, node: prose.node, score: 1 })
  }
  const best = candidates.reduce<(typeof candidates)[number] | null>(
    (top, each) => (top === null || each.score > top.score ? each : top),
    null,
  )
  if (best)
    return {
      value: best.text,
      from: 'page',
      confidence: Math.min(0.9, 0.4 + best.score / 12),
      node: best.node,
      quote: best.text.slice(0, 120),
    }
  if (record?.description)
    return { value: plainText(record.description), from: sourceOf(record), confidence: 0.7, node: -1 }
  const head = metadata.names.get('og:description') ?? metadata.names.get('description')
  return head
    ? { value: head, from: metadata.names.has('og:description') ? 'open-graph' : 'meta', confidence: 0.3, node: -1 }
    : null
}

/** Data often carries the description as markup. */
function plainText(text: string): string {
  return text
    .replace(/<br\s*\/?>|<\/p>/gi, '\n')
    .replace(/<[^>]{1,400}>/g, '')
    .trim()
    .slice(0, DESCRIPTION_LIMIT)
}

function withoutHeading(place: Labelled, text: string): string {
  const [first = '', ...rest] = text.split('\n')
  return rest.length > 0 && place.evidence.lexicon.conceptsOf(first).length > 0 ? rest.join('\n') : text
}

/** Lines after a heading, up to the next heading or label of another section, inside the smallest block that holds them. */
function sectionAfter(place: Labelled, from: number): string | null {
  const { index, lexicon } = place.evidence
  const heading = index.lines[from]!
  let holder = index.nodes[heading.node]!.at
  for (let step = 0; step < 6 && holder > 0; step += 1) {
    if (index.nodes[holder]!.lastRun > heading.lastRun && textLengthOf(index, holder) > heading.text.length + 15) break
    holder = index.nodes[holder]!.parent
  }
  const end = index.nodes[Math.max(holder, 0)]!.lastRun
  const kept: string[] = []
  let length = 0
  for (let i = from + 1; i < index.lines.length && length < DESCRIPTION_LIMIT; i += 1) {
    const line = index.lines[i]!
    if (line.firstRun >= end) break
    if (line.hidden) continue
    const tag = tagAround(place, line.node)
    if (/^h[1-6]$/.test(tag) || tag === 'dt' || tag === 'th' || tag === 'button' || tag === 'summary') break
    if (
      line.text.length < 40 &&
      lexicon.conceptsOf(line.text).some((concept) => concept !== 'description' && concept !== 'sold')
    )
      break
    kept.push(line.text)
    length += line.text.length
  }
  return kept.length > 0 ? kept.join('\n') : null
}

function tagAround(place: Labelled, at: number): string {
  const { index } = place.evidence
  for (let up = at, step = 0; up > 0 && step < 3; up = index.nodes[up]!.parent, step += 1) {
    const { tag } = index.nodes[up]!
    if (/^(?:h[1-6]|dt|th|button|summary)$/.test(tag)) return tag
  }
  return index.nodes[at]!.tag
}

function longestProse(place: Labelled): { text: string; node: number } | null {
  const { index } = place.evidence
  let best: { at: number; length: number } | null = null
  for (const line of place.lines) {
    if (line.text.length < 80) continue
    if (index.nodes[line.node]!.region & (REGION.aside | REGION.dialog)) continue
    if (best === null || line.text.length > best.length) best = { at: line.at, length: line.text.length }
  }
  return best ? withParagraphsAround(place, best.at) : null
}

/** The longest line with its neighbours in the same box, up to a heading, a button or a line of another kind of element. */
function withParagraphsAround(place: Labelled, from: number): { text: string; node: number } {
  const { index } = place.evidence
  const line = index.lines[from]!
  // Up to the element that holds this line alone: a paragraph, or the box itself where breaks part the lines.
  let block = line.node
  while (block > 0) {
    const above = index.nodes[index.nodes[block]!.parent]
    if (!above || above.firstRun < line.firstRun || above.lastRun > line.lastRun) break
    block = above.at
  }
  const { tag, parent } = index.nodes[block]!
  const box = index.nodes[Math.max(parent, 0)]!
  const belongs = (at: number): boolean => {
    const near = index.lines[at]
    if (!near || near.firstRun < box.firstRun || near.lastRun > box.lastRun) return false
    if (near.hidden || /^(?:h[1-6]|dt|th|button|summary)$/.test(tagAround(place, near.node))) return false
    let own = near.node
    while (own > 0 && index.nodes[own]!.parent !== parent && own !== parent) own = index.nodes[own]!.parent
    return own === parent || index.nodes[own]!.tag === tag
  }
  let first = from
  let last = from
  while (belongs(first - 1)) first -= 1
  while (belongs(last + 1)) last += 1
  const text = index.lines
    .slice(first, last + 1)
    .map((each) => each.text)
    .join('\n')
  return { text: text.slice(0, DESCRIPTION_LIMIT), node: first === last ? line.node : box.at }
}

export function readSpecifics(place: Labelled): { specifics: Record<string, string>; node: number } {
  const specifics: [string, string][] = []
  const seen = new Set<string>()
  let node = -1
  for (const pair of place.pairs) {
    if (specifics.length >= SPECIFICS_LIMIT || pair.form === 'heading') continue
    if (pair.value.length > 300 || isElsewhere(place, pair.labelNode)) continue
    if (seen.has(pair.label)) continue
    seen.add(pair.label)
    specifics.push([pair.label, pair.value])
    if (node < 0) node = pair.labelNode
  }
  // `Object.fromEntries` defines own properties, so a label "__proto__" is a label.
  return { specifics: Object.fromEntries(specifics), node }
}

const CRUMB_MARKS = /bread-?crumbs?|brotkrumen|fil-?d-?ariane|\bcrumbs?\b|migas|kruimel|briciole/
const START_PAGE =
  /^(?:home|start|startseite|accueil|inicio|início|home ?page|hem|strona główna|index|top|トップ|ホーム|main|shop|store|boutique|tienda|negozio|sklep|loja|winkel|all categories|alle kategorien)$/iu

export function readCategories(place: Labelled, title: string | null): Found<readonly string[]> | null {
  const { evidence } = place
  const { index } = evidence
  const clean = (names: readonly string[]): string[] => {
    const trimmed = names
      .map((name) =>
        name
          .replace(/\s+/g, ' ')
          .replace(/^[›»>/\s|·•→]+|[›»>/\s|·•→]+$/g, '')
          .trim(),
      )
      .map((name, i) => (i === 0 ? name.replace(/^.{0,30}[:：]\s*/, '') : name))
      .filter(
        (name) =>
          /\p{L}{2}|[\u3040-\u30ff\u4e00-\u9fff]|^\d{4}/u.test(name) && !/^[\d.,\s]+\s?[\p{L}€$£]{1,3}$/u.test(name),
      )
    const kept = trimmed.filter(
      (name, i) =>
        !(
          i === 0 &&
          (START_PAGE.test(name) ||
            isSiteName(evidence.metadata.names.get('og:site_name'), name) ||
            isHostName(evidence.url, name))
        ),
    )
    const last = kept.at(-1)
    if (
      last &&
      title &&
      (foldWords(last).join(' ') === foldWords(title).join(' ') ||
        (overlap(last, title) > 0.8 && (overlap(title, last) > 0.5 || foldWords(last).length >= 3)) ||
        (/(?:…|\.{3})$/.test(last) && overlap(last, title) > 0.8))
    )
      kept.pop()
    return kept
  }
  // The list that is shown, by its name or role.
  for (const node of index.nodes) {
    if (node.hidden || node.firstRun === node.lastRun) continue
    const label =
      node.tag === 'nav' || node.tag === 'ol' || node.tag === 'ul'
        ? (node.element.getAttribute('aria-label') ?? '')
        : ''
    const marked = (node.marks && CRUMB_MARKS.test(node.marks)) || /breadcrumb|brotkrumen|ariane|migas/i.test(label)
    if (!marked || textLengthOf(index, node.at) > 600) continue
    const names = namesIn(place, node.at)
    if (names.length >= 1) {
      const kept = clean(names)
      if (kept.length > 0) return { value: kept, from: 'page', confidence: 0.85, node: node.at }
    }
  }
  for (const graph of evidence.graphs) {
    for (const item of graph.items) {
      if (!hasType(item, /^BreadcrumbList$/)) continue
      const elements = itemsOf(graph, item, 'itemListElement')
      const ordered = [...elements].sort(
        (a, b) => Number(stringOf(a, 'position') ?? 0) - Number(stringOf(b, 'position') ?? 0),
      )
      const names = ordered.map(
        (element) => stringOf(element, 'name') ?? stringOf(itemsOf(graph, element, 'item')[0], 'name') ?? '',
      )
      const kept = clean(names)
      if (kept.length > 0) return { value: kept, from: item.source, confidence: 0.85, node: -1 }
    }
  }
  // A short list above the heading that begins at the start page, or whose addresses grow step by step.
  for (const node of index.nodes) {
    if (node.at > (place.headlineNode < 0 ? index.nodes.length : place.headlineNode)) break
    if (
      node.hidden ||
      node.children < 2 ||
      node.children > 8 ||
      !/^(?:ol|ul|div|p|nav|span)$/.test(node.tag) ||
      textLengthOf(index, node.at) > 200
    )
      continue
    const steps = stepsOf(place, node.at)
    if (steps.length < 2) continue
    const fromStart = START_PAGE.test(steps[0]!.text) || /^\/?$/.test(steps[0]!.path)
    const growing =
      steps.length >= 2 &&
      steps
        .slice(1)
        .every(
          (step, i) =>
            steps[i]!.path.length < step.path.length && step.path.startsWith(steps[i]!.path.replace(/\/$/, '')),
        )
    if (!(growing || (fromStart && steps.length >= 3 && START_PAGE.test(steps[0]!.text)))) continue
    const kept = clean(steps.map((step) => step.text))
    if (kept.length > 0 && kept.length <= 7) return { value: kept, from: 'page', confidence: 0.7, node: node.at }
  }
  // A line of links parted by ">" or "›" above the heading.
  for (const line of index.lines) {
    if (line.hidden || line.at > place.headlineLine + 2 || line.text.length > 300) continue
    if (!/\s[›»>→/|]\s/.test(line.text)) continue
    const links = linksOfLine(place, line.firstRun, line.lastRun)
    if (links < 2) continue
    const kept = clean(line.text.split(/\s*[›»>→/|]\s+/))
    if (kept.length > 0 && kept.length <= 8) return { value: kept, from: 'page', confidence: 0.7, node: line.node }
  }
  return null
}

function isHostName(url: string | null, name: string): boolean {
  const plain = foldWords(name).join('')
  return (
    plain.length >= 4 && (/^https?:\/\/([^/:?#]+)/i.exec(url ?? '')?.[1] ?? '').replace(/[-.]/g, '').includes(plain)
  )
}

function isSiteName(siteName: string | undefined, name: string): boolean {
  return siteName !== undefined && foldWords(siteName).join('') === foldWords(name).join('')
}

function namesIn(place: Labelled, at: number): string[] {
  const { index } = place.evidence
  const node = index.nodes[at]!
  const names: string[] = []
  for (let inner = at + 1; inner < node.end; inner += 1) {
    const each = index.nodes[inner]!
    if (each.tag === 'li' || each.tag === 'a') {
      const text = textOf(index, inner, 120)
      if (text) names.push(text)
      inner = each.end - 1
    }
  }
  // The last step is often no link: what stands behind the last one.
  if (names.length > 0 && !/^(?:ol|ul)$/.test(node.tag)) {
    const whole = textOf(index, at, 600)
    const rest = whole.slice(whole.lastIndexOf(names.at(-1)!) + names.at(-1)!.length)
    const tail = rest.replace(/^[\s›»>/|·•→]+/, '').trim()
    if (tail && /[\p{L}\d]/u.test(tail)) names.push(...tail.split(/\s+[›»>/|→]\s+/))
  }
  return names
}

/** Links of an element that holds little else, in order, with the paths they lead to. */
function stepsOf(place: Labelled, at: number): { text: string; path: string }[] {
  const { index } = place.evidence
  const node = index.nodes[at]!
  const steps: { text: string; path: string }[] = []
  let length = 0
  for (let inner = at + 1; inner < node.end; inner += 1) {
    const each = index.nodes[inner]!
    if (each.tag !== 'a') continue
    const text = textOf(index, inner, 60)
    const path = (each.element.getAttribute('href') ?? '').replace(/^https?:\/\/[^/]+/, '').replace(/[?#].*$/, '')
    if (text === '' || text.length > 45 || path === '') return []
    steps.push({ text, path })
    length += text.length
    inner = each.end - 1
    if (steps.length > 8) return []
  }
  return textLengthOf(index, at) - length > 60 ? [] : steps
}

function linksOfLine(place: Labelled, firstRun: number, lastRun: number): number {
  const { index } = place.evidence
  const links = new Set<number>()
  for (let i = firstRun; i < lastRun; i += 1) {
    for (let up = index.runs[i]!.node, step = 0; up > 0 && step < 3; up = index.nodes[up]!.parent, step += 1)
      if (index.nodes[up]!.tag === 'a') links.add(up)
  }
  return links.size
}
