/**
 * Invented states for looking at: listings of the fictional market, typed as the panel and the desk get them.
 * Long because one listing is told whole, from page to inspection, so that its parts agree.
 */
import type { Claim } from '../../src/domain/claim.ts'
import type { Grader, RiskyIssue } from '../../src/domain/grader-book.ts'
import type { Concern, Inspection } from '../../src/domain/inspection.ts'
import type { Listing, Provenance } from '../../src/domain/listing.ts'
import type { PhotoFacts } from '../../src/domain/photo-facts.ts'
import { said } from '../../src/domain/pricing/words.ts'
import type { MatchedPoint, Sale, Valuation } from '../../src/domain/valuation.ts'
import type { ListingState, PanelPhoto } from '../../src/ui/panel/panel-state.ts'

export const NOW = '2026-11-25T16:20:00Z'

const provenance = (from: Provenance['from'], confidence: number, quote: string, where = '#main'): Provenance => ({
  from,
  confidence,
  where,
  quote,
})

export const encapsulatedListing: Listing = {
  kind: 'listing',
  url: 'https://quayside-lots.example/item/31-14',
  title: '1931-32 Pellwick & Sons Skerryball Stars #14 Odo Marrable ZWY 8 NM-MT – read description',
  price: { amount: '610.00', currency: 'EUR' },
  priceKind: 'current-bid',
  estimate: null,
  shipping: { amount: '12.50', currency: 'EUR' },
  premiumPercent: 18,
  saleFormat: 'auction',
  endsAt: '2026-11-27T19:04:00Z',
  sold: false,
  soldAt: null,
  seller: { name: 'saltmere_attic', url: null, feedbackCount: 41, feedbackPercent: 97.6, memberSince: 'March 2026' },
  condition: 'Graded',
  specifics: { Grade: '8', Year: '1931', 'Professional grader': 'ZWY' },
  description:
    'From an old collection. I am not an expert, sold as is, no returns. Payment by bank transfer saves you the fees. Please read description before bidding.',
  returns: 'refused',
  returnsDays: null,
  minimumIncrement: { amount: '10.00', currency: 'EUR' },
  bids: 9,
  reserve: 'not-met',
  bestOffer: false,
  payments: ['bank transfer'],
  location: 'Port Ennish',
  itemNumber: '31-14',
  categories: ['Cards', 'Skerryball'],
  language: 'en',
  photos: [1, 2, 3, 4].map((n) => ({ url: `https://photos.quayside-lots.example/31-14-${n}.jpg`, alt: null })),
  disagreements: [{ field: 'price', shown: '€610.00', data: '490.00', source: 'json-ld' }],
  partlyRead: false,
  provenance: {
    title: provenance('page', 0.95, '1931-32 Pellwick & Sons Skerryball Stars #14 Odo Marrable ZWY 8 NM-MT'),
    price: provenance('page', 0.9, 'Current bid: €610.00'),
    shipping: provenance('page', 0.7, '+ €12.50 shipping'),
    seller: provenance('json-ld', 0.8, 'saltmere_attic'),
    endsAt: {
      ...provenance('page', 0.6, 'Ends Friday, 20:04'),
      note: 'The time zone is taken from the page’s language.',
    },
    saleFormat: provenance('page', 0.9, 'Place bid'),
    condition: provenance('microdata', 0.8, 'Graded'),
    description: provenance('page', 0.8, 'From an old collection.'),
    returns: provenance('page', 0.9, 'no returns'),
    premiumPercent: provenance('page', 0.7, 'Buyer’s premium 18 %'),
  },
}

const quote = (text: string, field = 'title') => ({ quote: text, field, start: 0, end: text.length })

export const encapsulatedClaim: Claim = {
  year: '1931-32',
  cardNumber: '14',
  subject: 'Odo Marrable',
  set: 'Pellwick & Sons Skerryball Stars',
  variation: null,
  serial: null,
  encapsulation: 'encapsulated',
  grader: 'ZWY',
  grade: '8',
  qualifier: null,
  certificate: null,
  certificateHidden: false,
  holderKind: 'screw-down',
  reprint: 'no',
  multiple: false,
  autograph: null,
  relic: null,
  rookie: null,
  object: 'card',
  quotes: {
    year: quote('1931-32'),
    cardNumber: quote('#14'),
    subject: quote('Odo Marrable'),
    set: quote('Pellwick & Sons Skerryball Stars'),
    grader: quote('ZWY'),
    grade: quote('8 NM-MT'),
    encapsulation: quote('ZWY 8'),
  },
}

const concern = (
  partial: Partial<Concern> & Pick<Concern, 'rule' | 'title' | 'strength' | 'why' | 'settles'>,
): Concern => ({
  evidence: [],
  request: [],
  group: partial.rule,
  weight: { likelihoodRatio: 4, basis: 'assumed', count: 0 },
  settledBy: null,
  ...partial,
})

const evidence = (text: string, field: string | null = 'description') => ({
  quote: text,
  field,
  start: field === null ? null : 0,
  end: field === null ? null : text.length,
})

export const concerns: readonly Concern[] = [
  concern({
    rule: 'unknown-grader',
    title: 'Grader not in your book',
    strength: 'strong',
    evidence: [evidence('ZWY 8 NM-MT', 'title')],
    why: 'A holder is worth what its maker’s examination is worth. Until you know this one, the card counts as raw.',
    request: ['holder-front', 'label'],
    settles: 'You enter the grader, or the card is examined by one that you accept.',
  }),
  concern({
    rule: 'price-far-below-sales',
    title: 'Far below comparable sales',
    strength: 'strong',
    evidence: [evidence('Asked 610.00 EUR, which is 54 % of the centre of 14 sales.', null)],
    why: 'A price far below the usual one is how bait looks; it is also how a bargain looks.',
    settles: 'A reason that you can check, such as damage that the photos show.',
    weight: { likelihoodRatio: 6, basis: 'learned', count: 23 },
  }),
  concern({
    rule: 'screw-down-holder',
    title: 'Screw-down holder',
    strength: 'medium',
    evidence: [evidence('comes in a screw-down case')],
    why: 'Edges, thickness and surface cannot be examined in it, and its pressure can alter a card.',
    request: ['out-of-holder', 'edges', 'raking-light'],
    settles: 'Photos of the card out of the holder.',
  }),
  concern({
    rule: 'hedged-authenticity',
    title: 'Genuineness is hedged',
    strength: 'medium',
    evidence: [evidence('I am not an expert'), evidence('sold as is')],
    why: 'Such words move the risk to the buyer, whoever wrote them and why.',
    settles: 'A written promise of genuineness, with a refund if it fails.',
  }),
  concern({
    rule: 'no-returns',
    title: 'No returns',
    strength: 'weak',
    evidence: [evidence('no returns')],
    why: 'There is no way out if the card is not as described.',
    settles: 'A written right of return for a stated number of days.',
    settledBy: 'Seller agreed to 14 days in writing.',
  }),
]

export const valuation: Valuation = {
  n: 14,
  level: 'same-card-same-grade',
  currency: 'EUR',
  centre: '1120.00',
  interval: { low: '840.00', high: '1490.00', level: 0.9, method: 't-in-logs' },
  trend: null,
  excluded: [],
  thin: false,
  ask: { amount: '610.00', position: 0, ratioToCentre: 0.545 },
  steps: [
    '14 sales of the same card in the same grade within 24 months.',
    'Median of the logarithms of the prices.',
    'No trend is supported by so few sales.',
  ],
  said: [
    said('step.same-grade', { count: 14, grade: '7', grader: 'KVX' }),
    said('step.age', { years: 2 }),
    said('step.pairs'),
    said('step.t-in-logs', { levelShare: 0.9 }),
  ],
  points: Array.from({ length: 46 }, (_, i): MatchedPoint => {
    const grade = ['5', '6', '7', '8', null][i % 5]!
    const level = { '5': 560, '6': 790, '7': 1120, '8': 1760 }[grade ?? ''] ?? 320
    const left = i === 22 || i === 31
    return {
      sale: `p${i}`,
      date: new Date(Date.UTC(2026, 10, 12) - i * 19 * 86_400_000).toISOString().slice(0, 10),
      title: `1931-32 Skerryball Stars #14 Odo Marrable ${grade === null ? 'raw' : `KVX ${grade}`}`,
      amount: (level * Math.exp(0.16 * Math.sin(i * 12.9898) + (left ? 0.7 : 0))).toFixed(2),
      grade,
      grader: grade === null ? null : 'KVX',
      venue: 'Quayside Lots',
      seller: `seller ${i % 9}`,
      url: null,
      level: grade === null ? 'same-card-raw' : grade === '7' ? 'same-card-same-grade' : 'same-card-other-grade',
      counted: grade === '7' && !left,
      bound: i === 12,
      why: left
        ? said('why.outlier')
        : grade === null
          ? said('why.raw')
          : said('why.other-grade', { grade, grader: 'KVX' }),
    }
  }),
}

const MESSAGE = `Hello,

I am interested in the 1931-32 Skerryball Stars no. 14. Before I bid, could you please send these photos?

1. The label, close and straight on, so that its text can be read.
2. The back of the holder, whole outline in the frame.
3. The card out of the holder, front and back, since a screw-down holder hides the edges.
4. Light from the side, from two directions, to show the surface.

Thank you very much.`

export const inspection: Inspection = {
  stance: 'wait',
  stanceReason: 'Two strong concerns are open: the grader is not in your book, and the price is far below sales.',
  listing: encapsulatedListing,
  claim: encapsulatedClaim,
  claims: [encapsulatedClaim],
  concerns,
  views: [
    {
      view: 'holder-front',
      status: 'shown',
      photo: encapsulatedListing.photos[0]!.url,
      reason: 'whole outline, sharp',
    },
    { view: 'holder-back', status: 'missing', photo: null, reason: 'no photo shows it' },
    {
      view: 'label',
      status: 'not-readable',
      photo: encapsulatedListing.photos[1]!.url,
      reason: 'the label is 180 px wide; 240 are needed',
    },
    { view: 'holder-edges', status: 'missing', photo: null, reason: 'no photo shows them' },
    { view: 'holder-code', status: 'cannot-tell', photo: null, reason: 'too small to be sure' },
    { view: 'raking-light', status: 'missing', photo: null, reason: 'no photo shows it' },
    { view: 'out-of-holder', status: 'missing', photo: null, reason: 'a screw-down holder hides the edges' },
  ],
  request: { text: MESSAGE, language: 'en', views: ['label', 'holder-back', 'out-of-holder', 'raking-light'] },
  valuation,
  trace: [],
}

/** A drawn stand-in for a photo: a card, or a card in its holder. */
export function drawnPhoto(kind: 'holder' | 'card' | 'label' | 'back'): string {
  const card =
    kind === 'back'
      ? '<rect x="70" y="110" width="160" height="224" fill="#cbb892"/><path d="M90 140h120M90 160h120M90 180h90M90 220h120M90 240h70" stroke="#5d5238" stroke-width="5"/>'
      : '<rect x="70" y="110" width="160" height="224" fill="#e9dfc6"/><rect x="82" y="122" width="136" height="172" fill="#557a82"/><circle cx="150" cy="188" r="34" fill="#d9b48a"/><path d="M100 294c6-52 94-52 100 0z" fill="#8a3f2f"/><path d="M96 314h108" stroke="#3a3324" stroke-width="9"/>'
  const holder =
    kind === 'holder' || kind === 'label'
      ? '<rect x="46" y="30" width="208" height="332" rx="12" fill="none" stroke="#fff" stroke-opacity=".75" stroke-width="6"/><rect x="60" y="44" width="180" height="50" fill="#f4f1e6"/><path d="M70 60h110M70 78h80" stroke="#333" stroke-width="6"/>'
      : ''
  const box = kind === 'label' ? '40 30 220 80' : '0 0 300 400'
  return `data:image/svg+xml,${encodeURIComponent(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box}"><rect width="300" height="400" fill="#6b675e"/>${card}${holder}</svg>`)}`
}

export const facts = (file: string, partial: Partial<PhotoFacts> = {}): PhotoFacts => ({
  file,
  examined: true,
  sha256: '9f2c4a7be01d5583a6f4',
  bytes: 431_220,
  mediaType: 'image/jpeg',
  width: 1200,
  height: 1600,
  pdq: null,
  pdqQuality: null,
  view: 'holder-front',
  viewEvidence: [],
  card: null,
  holder: null,
  pxPerMm: 11.2,
  blurPx: 0.8,
  jpegQuality: 82,
  label: null,
  barcodes: [],
  holderKind: null,
  problems: [],
  ...partial,
})

export const photos: readonly PanelPhoto[] = encapsulatedListing.photos.map(({ url, alt }, index) => ({
  url,
  alt,
  thumbnail: drawnPhoto((['holder', 'label', 'card', 'back'] as const)[index]!),
  facts: [
    facts(url),
    facts(url, {
      view: 'label',
      width: 640,
      height: 480,
      pxPerMm: null,
      label: { lines: ['ZWY', 'NM-MT 8'], grader: 'ZWY', grade: '8', certificate: null, confidence: 0.8 },
      problems: [{ problem: 'blurred', detail: '' }],
    }),
    facts(url, { view: 'cannot-tell', problems: [{ problem: 'glare', detail: '' }] }),
    facts(url, { view: 'back' }),
  ][index]!,
  assigned: index === 3 ? 'back' : null,
}))

export const graders: readonly Grader[] = [
  {
    name: 'Kestrel Vault Examiners',
    abbreviations: ['KVX'],
    certificateDigits: [8],
    lookUp: 'https://kvx.example/record/{certificate}',
    accepted: true,
  },
  {
    name: 'Old Lantern Quorum',
    abbreviations: ['OLQ', 'Lantern Quorum'],
    certificateDigits: [7, 8],
    accepted: true,
    conditions: 'only holders made after 1998',
  },
  { name: 'Zephyr Wythe', abbreviations: ['ZWY'], accepted: false, notes: 'Met once at the Grindle Bay show.' },
]

export const riskyIssues: readonly RiskyIssue[] = [
  {
    id: 'r1',
    name: 'Skerryball Stars 1931 no. 14',
    words: ['Skerryball Stars', '1931', 'Marrable'],
    worthIfGenuine: { amount: '1100', currency: 'EUR' },
    copies: ['re-screened, grey back', 'ink-jet on thin stock'],
    exemplar: null,
    askFor: 'a very close photo of the name line',
  },
  {
    id: 'r2',
    name: 'Harbour Ships, Nordlys Maiden',
    words: ['Harbour Ships', 'Nordlys Maiden'],
    worthIfGenuine: null,
    copies: [],
    exemplar: null,
    askFor: null,
  },
]

export const sales: readonly Sale[] = Array.from({ length: 14 }, (_, index) => ({
  id: `s${index}`,
  date: `2026-${String(1 + (index % 11)).padStart(2, '0')}-${String(3 + index).padStart(2, '0')}`,
  title: `1931 Skerryball Stars #14 Odo Marrable KVX ${7 + (index % 2)}`,
  price: { amount: (820 + 53 * index).toFixed(2), currency: 'EUR' },
  venue: index % 3 === 0 ? 'Lamplight Gavel Rooms' : 'Quayside Lots',
  seller: index % 2 === 0 ? 'heron_cards' : null,
  url: null,
}))

export const listingState: ListingState = {
  phase: 'listing',
  inspection,
  photos,
  photoAccess: 'allowed',
  photoHosts: ['photos.quayside-lots.example'],
  photoProgress: null,
  messageBox: { maxLength: 1000 },
  messageMostViews: null,
  messageTone: 'plain',
  kept: null,
  update: 'none',
  graders,
  unknownGrader: 'ZWY',
  pageLanguage: 'en',
}

const rawClaim: Claim = {
  ...encapsulatedClaim,
  year: '1958',
  cardNumber: '31',
  subject: 'Lantern Hawker',
  set: 'Aurunda Confectionery Insects of the Fen',
  encapsulation: 'raw',
  grader: null,
  grade: null,
  holderKind: 'toploader',
  quotes: { year: quote('1958'), subject: quote('Lantern Hawker'), encapsulation: quote('raw', 'description') },
}

/** A clean raw listing, kept, with every view shown. */
export const cleanState: ListingState = {
  ...listingState,
  unknownGrader: null,
  inspection: {
    ...inspection,
    stance: 'nothing-open',
    stanceReason: 'Every view that was needed is shown, and no rule raised a concern.',
    listing: {
      ...encapsulatedListing,
      title: 'Insects of the Fen 1958, no. 31 Lantern Hawker, very clean',
      price: { amount: '14.00', currency: 'EUR' },
      priceKind: 'fixed',
      saleFormat: 'fixed',
      endsAt: null,
      premiumPercent: null,
      bids: null,
      reserve: null,
      bestOffer: true,
      shipping: { amount: '0', currency: 'EUR' },
      returns: 'accepted',
      returnsDays: 30,
      disagreements: [],
    },
    claim: rawClaim,
    claims: [rawClaim],
    concerns: [],
    views: [
      { view: 'front', status: 'shown', photo: encapsulatedListing.photos[2]!.url, reason: 'square-on, whole outline' },
      { view: 'back', status: 'shown', photo: encapsulatedListing.photos[3]!.url, reason: 'square-on, whole outline' },
      { view: 'corners', status: 'shown', photo: null, reason: 'all four are sharp' },
    ],
    request: { text: '', language: 'en', views: [] },
    valuation: null,
  },
  kept: { dossierId: 'd1', at: '2026-11-24T09:12:00Z', notes: 'For the album, if it stays under 15.', differs: false },
}

/** Nothing allowed yet, hidden characters in the title, no price, a very large page. */
export const unseenState: ListingState = {
  ...listingState,
  unknownGrader: null,
  photoAccess: 'unseen',
  messageBox: { maxLength: 400 },
  update: 'changed',
  photos: photos.map((photo) => ({ ...photo, thumbnail: null, facts: null, assigned: null })),
  inspection: {
    ...inspection,
    stance: 'ask',
    stanceReason: 'Questions are open: the photos were not looked at, and the back is not mentioned.',
    listing: {
      ...encapsulatedListing,
      title: 'Tamsin Quillfeather 1958 rep\u200Brint\u202E ?elbaulav <b>rare</b>',
      price: null,
      priceKind: null,
      partlyRead: true,
      disagreements: [],
    },
    concerns: concerns.slice(2, 4),
    views: inspection.views.map((finding) => ({
      ...finding,
      status: 'cannot-tell',
      photo: null,
      reason: 'photos not looked at',
    })),
    valuation: { ...valuation, n: 3, thin: true, interval: { ...valuation.interval!, level: null, method: 'range' } },
  },
}
