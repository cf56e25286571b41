/** What single lines and labels of a page say about its kind: counts, paging, baskets, questions, prose, labels of one thing. */
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { REGION, textLengthOf } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'
import type { Pair } from './read-pairs.ts'

export const COUNT_LINE =
  /(?:^|[\s(])(\d[\d.,\s]*)\+?\s*(?:results?|items?|listings?|lots?|products?|matches|ads?|ergebnisse?|treffer|artikel|angebote?|anzeigen|lose|produkte?|résultats?|annonces?|articles?|objets?|produits?|resultados?|anuncios?|artículos?|productos?|lotes?|risultat[oi]|annunci|oggetti|prodotti|lotti|resultaten|resultaat|advertenties|kavels|producten|wynik(?:i|ów)?|ofert(?:y)?|ogłosze(?:ń|nia)|przedmiot(?:y|ów)|resultados?|anúncios?|artigos?|produtos?|件)(?![\p{L}])/iu

const PAGING =
  /^(?:next|next page|previous|weiter|nächste(?: seite)?|vor|zurück|suivant(?:e)?|précédent|siguiente|anterior|successiva?|avanti|precedente|volgende|vorige|następna|poprzednia|próxim[ao]|seguinte|次へ|前へ|›|»|→|>|load more|show more|mehr anzeigen|mehr laden)$/iu

/** What single lines say, gathered in one pass. */
export function readLines(
  evidence: PageEvidence,
  groups: readonly RecordGroup[],
): { count: boolean; paging: boolean; sort: boolean; basket: number; noResults: boolean; questions: number } {
  const { index, lexicon } = evidence
  const found = { count: false, paging: false, sort: false, basket: 0, noResults: false, questions: 0 }
  for (const line of index.lines) {
    if (line.hidden || line.text.length > 80) continue
    const { text } = line
    const { region } = index.nodes[line.node]!
    if (text.length > 12 && /[?？]$/.test(text)) found.questions += 1
    if (
      !found.count &&
      text.length < 60 &&
      !(region & REGION.chrome) &&
      COUNT_LINE.test(text) &&
      !groupAt(index, groups, line.node)
    )
      found.count = true
    if (!found.paging && text.length < 20 && PAGING.test(text.trim())) found.paging = true
    for (const hit of lexicon.find(text)) {
      if (hit.concept === 'results' && /sort|filter|trier|orden|ordina|並|絞/i.test(text)) found.sort = true
      else if (hit.concept === 'no-results' && hit.start <= 30 && !groupAt(index, groups, line.node))
        found.noResults = true
      else if (hit.concept === 'basket' && !(region & (REGION.chrome | REGION.dialog))) found.basket += 1
    }
  }
  return found
}

/** Labels that only something for sale, or sold, carries. */
export const OFFER_LABELS = new Set<string>([
  'seller',
  'shipping',
  'ends',
  'ended',
  'bids',
  'returns',
  'estimate',
  'sold',
  'starting-bid',
  'current-bid',
  'buy-now',
  'payment',
  'reserve',
  'reserve-met',
  'reserve-not-met',
  'no-reserve',
  'give-away',
  'on-request',
  'asking',
  'premium',
  'price',
])

const ITEM_LABELS = new Set<string>([
  'condition',
  'seller',
  'item-number',
  'shipping',
  'ends',
  'ended',
  'bids',
  'returns',
  'estimate',
  'location',
  'sold',
  'starting-bid',
  'current-bid',
  'buy-now',
  'payment',
  'reserve',
  'reserve-met',
  'reserve-not-met',
  'no-reserve',
  'give-away',
  'on-request',
  'asking',
  'increment',
  'premium',
  'description',
  'price',
])

/** Labels that only a page about one thing carries outside records, near its heading. */
export function conceptsBeside(
  evidence: PageEvidence,
  groups: readonly RecordGroup[],
  specifics: readonly Pair[],
  headlineLine: number,
): Set<string> {
  const { index, lexicon } = evidence
  const found = new Set<string>()
  for (const pair of specifics) {
    if (index.nodes[pair.labelNode]!.region & (REGION.chrome | REGION.related)) continue
    for (const concept of lexicon.conceptsOf(pair.label)) if (ITEM_LABELS.has(concept)) found.add(concept)
  }
  for (let at = Math.max(0, headlineLine - 6); at < Math.min(index.lines.length, headlineLine + 45); at += 1) {
    const line = index.lines[at]!
    if (
      line.hidden ||
      line.text.length > 90 ||
      index.nodes[line.node]!.region & (REGION.chrome | REGION.related) ||
      groupAt(index, groups, line.node)
    )
      continue
    for (const hit of lexicon.find(line.text)) {
      // The label leads its line, or a figure stands before it ("0 bids").
      if (
        ITEM_LABELS.has(hit.concept) &&
        (hit.start <= 2 || (hit.concept === 'bids' && /^\W*\d+\s*$/.test(line.text.slice(0, hit.start))))
      )
        found.add(hit.concept)
    }
  }
  return found
}

/** Long paragraphs of the page, and how many separate blocks hold them. */
export function proseShare(evidence: PageEvidence): { length: number; posts: number } {
  const { index } = evidence
  let length = 0
  const holders = new Set<number>()
  for (const line of index.lines) {
    if (line.hidden || line.text.length < 180) continue
    length += line.text.length
    const holder = index.nodes[index.nodes[line.node]!.parent]
    if (holder && textLengthOf(index, holder.at) > 150) holders.add(holder.at)
  }
  return { length, posts: holders.size >= 6 ? holders.size : 0 }
}
