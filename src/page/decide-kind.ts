/**
 * What a page is: one listing, a list of them, or neither. Named evidence for each side, weighed; every piece can be shown.
 * An article about cards, a help page, a forum thread, a basket and a category without offers are neither.
 */
import { PLAIN } from './decide-price.ts'
import type { Actions } from './find-actions.ts'
import { foldWords, type Headline, overlap } from './find-headline.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { REGION } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'
import { COUNT_LINE, conceptsBeside, OFFER_LABELS, proseShare, readLines } from './page-signs.ts'
import type { Pair } from './read-pairs.ts'
import { cleanShare, findResultGroups, singleRecord } from './result-groups.ts'
import { lineOfNode, type ScoredPrices } from './score-price.ts'
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
  readonly prices: ScoredPrices
  readonly pairs: readonly Pair[]
  readonly actions: Actions
  readonly photos: number
}

export function decideKind(evidence: PageEvidence, place: KindParts): KindDecision {
  const { index, lexicon, metadata } = evidence
  const { headline, groups, selection, pairs, actions } = place
  const prices = place.prices.ranked
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
    say('listing', -1, 'nothing says that it is for sale')
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
  const resultGroups = findResultGroups(evidence, groups, headline)
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
    const clean = cleanShare(evidence, resultGroups, place.prices) >= 0.5
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
