/**
 * What a page is: one listing, a list of them, or neither. Named evidence for each side, weighed; every piece can be shown.
 * An article about cards, a help page, a forum thread, a basket and a category without offers are neither.
 * Long because each named piece of evidence is a few lines, and all of them are weighed against each other here.
 */
import { PLAIN } from './decide-price.ts'
import { foldWords, type Headline, overlap } from './find-headline.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { REGION, textLengthOf } from './index-document.ts'
import { countIn, type PageEvidence } from './page-evidence.ts'
import type { Pair } from './read-pairs.ts'
import { lineOfNode, type PriceCandidate } from './score-price.ts'
import type { RecordSelection } from './select-record.ts'
import { hasType } from './structured/graph.ts'

export interface KindDecision {
  readonly kind: 'listing' | 'results' | 'none'
  readonly listing: number
  readonly results: number
  readonly reasons: readonly string[]
  /** Groups that are the results, where the page is a list. */
  readonly resultGroups: readonly RecordGroup[]
}

const ARTICLE =
  /^(?:Article|NewsArticle|BlogPosting|Blog|TechArticle|Report|DiscussionForumPosting|QAPage|FAQPage|HowTo|JobPosting|Recipe|Course|AboutPage|ContactPage|MedicalWebPage)$/
const LIST = /^(?:ItemList|CollectionPage|SearchResultsPage|OfferCatalog)$/
const COUNT_LINE =
  /(?:^|[\s(])(\d[\d.,\s]*)\+?\s*(?:results?|items?|listings?|lots?|products?|matches|ads?|ergebnisse?|treffer|artikel|angebote?|anzeigen|lose|produkte?|résultats?|annonces?|articles?|objets?|produits?|resultados?|anuncios?|artículos?|productos?|lotes?|risultat[oi]|annunci|oggetti|prodotti|lotti|resultaten|resultaat|advertenties|kavels|producten|wynik(?:i|ów)?|ofert(?:y)?|ogłosze(?:ń|nia)|przedmiot(?:y|ów)|resultados?|anúncios?|artigos?|produtos?|件)(?![\p{L}])/iu
const PAGING =
  /^(?:next|next page|previous|weiter|nächste(?: seite)?|vor|zurück|suivant(?:e)?|précédent|siguiente|anterior|successiva?|avanti|precedente|volgende|vorige|następna|poprzednia|próxim[ao]|seguinte|次へ|前へ|›|»|→|>|load more|show more|mehr anzeigen|mehr laden)$/iu

const SEARCH_WORD = /\bsearch\b|\bsuche\b|recherche|búsqueda|ricerca|zoek|szukaj|pesquisa|検索/iu
const SEARCH_PATH =
  /[?&](?:q|query|search|keywords?|s|suche|term)=|\/(?:search|suche|recherche|buscar|cerca|zoeken|szukaj|results?|browse|category|kategorie|sold|catalog(?:ue)?)(?:[/?.-]|$)/
const BASKET_WORD =
  /\bcart\b|basket|warenkorb|panier|carrito|carrello|winkelwagen|winkelmand|koszyk|carrinho|cesta|checkout|kasse|カート|買い物かご/i
const ACCOUNT_PATH =
  /\/(?:orders?|checkout|account|inbox|messages?|nachrichten|bestellung(?:en)?|pedidos?|commandes?|ordini|zamowieni[ae]|my-?[a-z]+|konto|thank[-_]?you|confirmation)(?:[/?.-]|$)/
const HELP_PATH = /\/(?:help|faq|support|hilfe|aide|ayuda|aiuto|pomoc|ajuda|fees|terms|agb|about|guides?)(?:[/?.-]|$)/
const ITEM_PATH =
  /\/(?:itm|items?|lots?|listings?|products?|produkt|produit|producto|prodotto|produto|article|articulo|artikel|annonces?|anzeigen?|ads?|offers?|offre|oferta|angebot|auction|auktion|los|kavel|p|dp|detail|view|thing|objekt|objet|oggetto|annuncio|anuncio|ogloszenie|advert|a|i|o|l|v|m)[/.-][^?#]*\d|[?&](?:id|item|itemid|ref|nr|no|lot|sku|p|pid|product|productid|artikel)=[\w-]*\d/
const THANKS = /\b(?:thank you|vielen dank|merci|gracias|grazie|bedankt|dziękujemy|obrigad[oa])\b/iu
/** Points from which a side is believed; ours, checked on the fixtures. */
const LISTING_NEEDS = 4.5
const RESULTS_NEEDS = 3

/** What ties an amount to the thing offered, besides its words. */
const PLACED = new Set<string>([
  'near-headline',
  'just-above-headline',
  'same-block-as-headline',
  'near-action',
  'marks-price',
  'itemprop-price',
  'agrees-with-data',
  'agrees-with-meta',
  'label-current-bid',
  'label-price',
  'label-buy-now',
  'label-asking',
  'label-starting-bid',
])

export interface KindParts {
  readonly headline: Headline | null
  readonly groups: readonly RecordGroup[]
  readonly selection: RecordSelection
  readonly prices: readonly PriceCandidate[]
  /** Every amount's candidate, those of records too. */
  readonly all: readonly PriceCandidate[]
  readonly pairs: readonly Pair[]
  readonly actions: ReturnType<typeof findActions>
  readonly photos: number
}

export function findActions(
  evidence: PageEvidence,
  groups: readonly RecordGroup[],
): { buy: number[]; bid: number[]; contact: number[]; rowActions: number } {
  const { index, lexicon } = evidence
  const found = { buy: [] as number[], bid: [] as number[], contact: [] as number[], rowActions: 0 }
  for (const node of index.nodes) {
    if (node.hidden) continue
    const isInput = node.tag === 'input' && /^(?:submit|button|image)$/i.test(node.element.getAttribute('type') ?? '')
    const looksLikeButton =
      node.tag === 'button' ||
      node.tag === 'a' ||
      isInput ||
      node.element.getAttribute('role') === 'button' ||
      (node.tag === 'label' && /btn|button/.test(node.marks)) ||
      (node.tag !== 'form' &&
        node.lastRun - node.firstRun === 1 &&
        /(?:^|[\s_-])(?:btn|button|cta)(?:$|[\s_-])/.test(node.marks))
    if (!looksLikeButton) continue
    let text: string
    if (isInput) text = node.element.getAttribute('value') ?? node.element.getAttribute('alt') ?? ''
    else {
      if (node.lastRun - node.firstRun > 3) continue
      text = ''
      for (let i = node.firstRun; i < node.lastRun; i += 1) text += ` ${index.runs[i]!.text}`
      text = text.trim() || (node.element.getAttribute('aria-label') ?? node.element.getAttribute('title') ?? '')
    }
    if (text === '' || text.length > 60) continue
    const concepts = lexicon.find(text)
    const letters = text.replace(/[^\p{L}]/gu, '').length
    const hit = concepts.find(
      (each) =>
        (each.concept === 'buy-action' ||
          each.concept === 'bid-action' ||
          each.concept === 'contact-action' ||
          each.concept === 'best-offer') &&
        text.slice(each.start, each.end).replace(/[^\p{L}]/gu, '').length >= letters * 0.6,
    )
    if (!hit) continue
    if (node.region & REGION.chrome && hit.concept !== 'bid-action') continue
    const group = groupAt(index, groups, node.at)
    if (group && group.group.rows.length >= 3) {
      found.rowActions += 1
      continue
    }
    if (hit.concept === 'bid-action') found.bid.push(node.at)
    else if (hit.concept === 'contact-action' || hit.concept === 'best-offer') found.contact.push(node.at)
    else found.buy.push(node.at)
  }
  return found
}

export function decideKind(evidence: PageEvidence, place: KindParts): KindDecision {
  const { index, lexicon, metadata } = evidence
  const { headline, groups, selection, prices, pairs, actions } = place
  const reasons: string[] = []
  let listing = 0
  let results = 0
  const say = (side: 'listing' | 'results', points: number, reason: string): void => {
    if (side === 'listing') listing += points
    else results += points
    reasons.push(`${side} ${points > 0 ? '+' : ''}${points} ${reason}`)
  }
  const none = (reason: string): KindDecision => ({
    kind: 'none',
    listing,
    results,
    reasons: [...reasons, `none: ${reason}`],
    resultGroups: [],
  })

  const headlineText = headline?.text ?? ''
  const headlineLine = headline ? lineOfNode(evidence, headline.node) : 0
  const holding = headline ? groupAt(index, groups, headline.node) : null
  const headlineInGroup = holding !== null && holding.group.rows.length >= 3
  const announced =
    headline !== null && lexicon.find(headlineText.slice(0, 200)).some(({ concept }) => concept === 'for-sale')
  const sought =
    headline !== null && lexicon.find(headlineText.slice(0, 200)).some(({ concept }) => concept === 'wanted')
  // Posts of a thread look like records; where the heading offers something, the first of them is the offer.
  const mainPrice = prices.find(
    (candidate) =>
      !candidate.features.includes('in-group') && (announced || !candidate.features.includes('in-small-group')),
  )
  const placed = mainPrice?.features.some((feature) => PLACED.has(feature)) ?? false
  const plain = mainPrice?.features.some((feature) => PLAIN.has(feature)) ?? false
  const goodPrice = mainPrice !== undefined && mainPrice.score >= (placed && plain ? 3.5 : placed ? 6 : 5)
  const types = evidence.graphs.flatMap((graph) => graph.items)
  const path = (evidence.url ?? '').replace(/^https?:\/\/[^/?#]+/, '').toLowerCase()
  const lines = readLines(evidence, groups)

  // For one thing offered.
  const record = selection.main
  const stated = record !== null && (record.price !== null || record.lowPrice !== null)
  if (record && stated) say('listing', 3, 'the data states an offer with a price')
  else if (record?.offer) say('listing', 2, 'the data states an offer')
  else if (record) say('listing', 1.5, 'the data states a product')
  const type = metadata.names.get('og:type')?.toLowerCase() ?? ''
  if (/product|offer|listing|item(?!list)|auction|lot/.test(type)) say('listing', 2, 'og:type names goods')
  if (metadata.names.has('product:price:amount') || metadata.names.has('og:price:amount'))
    say('listing', 2, 'the head names a price')
  if (goodPrice) say('listing', mainPrice.score >= 8 ? 3.5 : mainPrice.score >= 6 ? 3 : 2, 'a price by the heading')
  if (headline && metadata.title && overlap(headlineText, metadata.title) > 0.8 && foldWords(headlineText).length >= 3)
    say('listing', 0.5, 'the heading is the title')
  if (ITEM_PATH.test(path)) say('listing', 1, 'address of one thing')
  const own = actions.buy.length + actions.bid.length
  if (own >= 1 && own <= 6) say('listing', actions.bid.length > 0 ? 2.5 : 2, 'can be bought or bid on')
  if (actions.contact.length >= 1 && actions.contact.length <= 6) say('listing', 1.5, 'the seller can be asked')
  if (place.photos >= 1 && place.photos <= 40 && headline && !headlineInGroup)
    say('listing', place.photos >= 2 ? 1 : 0.5, 'has pictures of its own')
  if (
    index.nodes.some(
      (node) => node.tag === 'textarea' && !node.hidden && !(node.region & (REGION.chrome | REGION.dialog)),
    )
  )
    say('listing', 0.5, 'a form to write in')
  const specifics = pairs.filter((pair) => pair.form !== 'heading' && !groupAt(index, groups, pair.labelNode))
  if (specifics.length >= 3) say('listing', 1, 'has item specifics')
  const labelled = conceptsBeside(evidence, groups, specifics, headlineLine)
  if (labelled.size > 0) say('listing', Math.min(3.5, labelled.size * 0.5), `labels ${[...labelled].join(', ')}`)
  const withoutPrice = labelled.has('give-away') || labelled.has('on-request')
  if (withoutPrice) say('listing', 1.5, 'given away, or price on request')
  if (announced && !sought) say('listing', 2, 'the heading offers something for sale')
  if (sought && !announced) say('listing', -3, 'the heading looks for something')
  if (
    !stated &&
    own === 0 &&
    actions.contact.length === 0 &&
    !announced &&
    !/product|offer/.test(type) &&
    ![...labelled].some((concept) => OFFER_LABELS.has(concept)) &&
    !mainPrice?.features.some(
      (feature) => feature.startsWith('label-') || feature === 'marks-price' || feature === 'itemprop-price',
    )
  )
    say('listing', -2, 'nothing says that it is for sale')
  else if (
    !stated &&
    !goodPrice &&
    own === 0 &&
    !withoutPrice &&
    !announced &&
    ![...labelled].some((concept) => OFFER_LABELS.has(concept))
  )
    say('listing', -2, 'can be asked about, but nothing speaks of a sale')
  const counts =
    headline !== null &&
    headlineText.length < 80 &&
    (COUNT_LINE.test(headlineText) ||
      lexicon.find(headlineText).some((hit) => hit.concept === 'results' && hit.end - hit.start > 5))
  if (counts) say('listing', -3, 'the heading counts results')

  // For a list.
  const eligible = groups.filter((group) => {
    const { region } = index.nodes[group.container]!
    return (
      group.priced >= 0.4 &&
      !(region & (REGION.related | REGION.chrome | REGION.dialog | REGION.aside)) &&
      !isRelatedGroup(evidence, group, headline)
    )
  })
  const resultGroups = chooseResultGroups(index, eligible).map((group) => withSisters(evidence, group))
  let rows = resultGroups.reduce((sum, group) => sum + group.rows.length, 0)
  if (rows === 0 && counts && headline && mainPrice) {
    const single = singleRecord(evidence, headline, mainPrice)
    if (single) {
      resultGroups.push(single)
      rows = 1
      say('results', 2, 'one record under a heading that counts results')
    }
  }
  if (rows >= 2) {
    say('results', rows >= 20 ? 3 : rows >= 8 ? 2.5 : rows >= 4 ? 1.5 : 1, `${rows} priced records`)
    const clean = cleanShare(evidence, resultGroups, place.all) >= 0.5
    if (!clean) say('results', -2.5, 'amounts in sentences, not prices')
    if (headlineInGroup) say('results', 1.5, 'the heading is one of the records')
    if (!goodPrice && clean) say('results', 1.5, 'no price outside the records')
    if (lines.paging) say('results', 0.7, 'has further pages')
  }
  const titleText = `${headlineText} · ${metadata.title ?? ''}`
  if (
    lexicon.has(headlineText, 'results') ||
    lexicon.has((metadata.title ?? '').slice(0, 200), 'results') ||
    SEARCH_WORD.test(titleText)
  )
    say('results', 1.5, 'heading speaks of results')
  if (lines.count && rows >= 1) say('results', 1.5, 'counts its results')
  if (lines.sort && rows >= 1) say('results', 1, 'can be sorted')
  if (types.some((item) => hasType(item, LIST) && !hasType(item, /BreadcrumbList/)))
    say('results', rows >= 2 ? 1.5 : 0.5, 'the data states a list')
  if (!record && selection.others >= 2) say('results', 1.5, 'the data states several goods')
  if (SEARCH_PATH.test(path)) say('results', 1, 'address of a search')
  if (actions.rowActions >= 3 && rows >= 3) say('results', 1, 'each record can be bought or bid on')

  // Against both.
  const against = (listingPoints: number, resultsPoints: number, reason: string): void => {
    say('listing', listingPoints, reason)
    say('results', resultsPoints, reason)
  }
  const article = types.some((item) => hasType(item, ARTICLE)) || /^(?:article|blog)$/.test(type)
  if (article && !stated) against(-3.5, -2.5, 'the data states an article')
  if (lines.basket >= 2 && BASKET_WORD.test(`${titleText} ${path}`)) return none('a basket')
  if (lines.basket >= 4 && own === 0) against(-3, -3, 'words of a basket')
  const account = headlineText.length < 80 && (lexicon.has(headlineText, 'account-page') || THANKS.test(headlineText))
  if (account) against(-5, -3, 'a page of an account')
  if (ACCOUNT_PATH.test(path)) against(-3, -3, 'address of an account')
  if (HELP_PATH.test(path)) against(-4, -2, 'address of a help page')
  if (evidence.url && /^\/?(?:[?#].*)?$/.test(path) && !/[?&]\w+=/.test(path)) against(-2, -1.5, 'front page of a site')
  if (lines.noResults && listing < LISTING_NEEDS) return none('a search without results')
  if (lines.questions >= 6) say('listing', -1.5, 'a list of questions')
  const prose = proseShare(evidence)
  if (prose.posts >= 4) say('listing', -2, 'several posts of prose')
  if (prose.length > 2500 && own === 0 && !record && actions.contact.length === 0) say('listing', -2, 'mostly prose')
  if (
    headlineLine > 0 &&
    rows === 0 &&
    own === 0 &&
    actions.contact.length === 0 &&
    !record &&
    !goodPrice &&
    !withoutPrice
  )
    say('listing', -1, 'nothing is offered')

  const outcome = { listing, results, reasons, resultGroups }
  if (listing >= LISTING_NEEDS && listing >= results) return { kind: 'listing', ...outcome }
  if (results >= RESULTS_NEEDS && rows >= 1) return { kind: 'results', ...outcome }
  if (listing >= LISTING_NEEDS) return { kind: 'listing', ...outcome }
  return none('too little speaks for either')
}

/** What single lines say, gathered in one pass. */
function readLines(
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
function singleRecord(evidence: PageEvidence, headline: Headline, price: PriceCandidate): RecordGroup | null {
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

/** Share of records with an amount that stands as a price: alone, labelled, or on the title's own line; not "from", not in a sentence. */
function cleanShare(evidence: PageEvidence, groups: readonly RecordGroup[], all: readonly PriceCandidate[]): number {
  const clean = new Set<number>()
  let rows = 0
  for (const group of groups) rows += group.rows.length
  for (const candidate of all) {
    const { features, role, source } = candidate
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
    const at = groupAt(evidence.index, groups, source.node)
    if (at) clean.add(at.row)
  }
  return rows === 0 ? 1 : clean.size / rows
}

/** The amount ends a line that also holds a link: "Grey Petrel, creased … £20". */
function isLast(evidence: PageEvidence, candidate: PriceCandidate): boolean {
  const { source } = candidate
  const line = evidence.index.lines[source.line]!
  if (source.end === 0 || line.text.slice(source.end).replace(/[^\p{L}]/gu, '').length > 0) return false
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

/** Labels that only something for sale, or sold, carries. */
const OFFER_LABELS = new Set<string>([
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
function conceptsBeside(
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

const OTHERS =
  /^(?:more|other|further|another|weitere|andere|mehr|autres?|plus d|d'autres|otr[oa]s|más|altr[iea]|andere|meer|inne|pozostałe|outr[oa]s|mais|fler|andra|その他|ほかの|他の)\s/iu

/** A heading of the "similar items" kind right above a group, or inside its container's first lines. */
export function isRelatedGroup(evidence: PageEvidence, group: RecordGroup, headline: Headline | null): boolean {
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

/** Long paragraphs of the page, and how many separate blocks hold them. */
function proseShare(evidence: PageEvidence): { length: number; posts: number } {
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
