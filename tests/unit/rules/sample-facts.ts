/** A plain, clean offer of each kind, to be changed in one place a test. Invented names only. */
import type { Facts } from '../../../src/domain/facts.ts'
import type { Book } from '../../../src/domain/grader-book.ts'
import type { Listing } from '../../../src/domain/listing.ts'
import { emptyPhotoFacts, type PhotoFacts } from '../../../src/domain/photo-facts.ts'
import type { Valuation } from '../../../src/domain/valuation.ts'

export const BOOK: Book = {
  graders: [
    {
      name: 'Kestrel Vault Examiners',
      abbreviations: ['KVX'],
      certificateDigits: [8],
      halfGrades: true,
      qualifiers: { OC: 'off-centre', ST: 'stain' },
      accepted: true,
    },
    { name: 'Old Lantern Quorum', abbreviations: ['OLQ'], certificateDigits: [10], halfGrades: false, accepted: true },
  ],
  riskyIssues: [],
  limits: { highValue: { amount: '500', currency: 'EUR' } },
  settled: {},
}

export function photo(name: string, alt: string | null = null): Listing['photos'][number] {
  return { url: `https://photos.quayside-lots.example/${name}.jpg`, alt }
}

export const LISTING: Listing = {
  kind: 'listing',
  url: 'https://quayside-lots.example/lot/1',
  title: '1958 Tidal League #34 Tamsin Quillfeather, ungraded',
  price: { amount: '85.00', currency: 'EUR' },
  priceKind: 'fixed',
  estimate: null,
  shipping: { amount: '4.50', currency: 'EUR' },
  premiumPercent: null,
  saleFormat: 'fixed',
  endsAt: null,
  sold: false,
  soldAt: null,
  seller: {
    name: 'tarn_and_tide',
    url: 'https://quayside-lots.example/seller/tarn_and_tide',
    feedbackCount: 812,
    feedbackPercent: 99.6,
    memberSince: '2014-03-01',
  },
  condition: 'Used, very good',
  specifics: { Series: 'Tidal League', Year: '1958', 'Card number': '34' },
  description:
    'Tamsin Quillfeather, number 34 of the 1958 Tidal League. Bought by me at the Saltmere fair in 2015. Light wear at two corners, one faint crease on the back. Photos show the very card. Sent tracked between boards.',
  returns: 'accepted',
  returnsDays: 30,
  minimumIncrement: null,
  bids: null,
  reserve: null,
  bestOffer: false,
  payments: ['Card', 'Marketplace account'],
  location: 'Saltmere',
  itemNumber: '1',
  categories: ['Cards', 'Skerryball'],
  language: 'en',
  photos: [photo('front', 'Front'), photo('back', 'Back'), photo('corners', 'The four corners')],
  disagreements: [],
  partlyRead: false,
  provenance: {},
}

export const ENCAPSULATED: Listing = {
  ...LISTING,
  title: '1931-32 Skerryball Stars #17 Odo Marrable KVX 5 EX certificate 40312036',
  price: { amount: '1250.00', currency: 'EUR' },
  condition: 'Graded',
  specifics: { Year: '1931-32', 'Card number': '17', Grader: 'KVX', Grade: '5', 'Certificate number': '40312036' },
  description: 'Odo Marrable, encapsulated by KVX as EX 5. The holder has no cracks.',
  photos: [
    photo('holder-front', 'Holder, front'),
    photo('holder-back', 'Holder, back'),
    photo('label', 'Label with the number'),
  ],
}

export const FACTS: Facts = {
  listing: LISTING,
  photos: [],
  valuation: null,
  traces: [],
  messageLanguage: 'en',
  messageMaxLength: null,
  now: '2026-11-20T12:00:00Z',
}

/** A photo that was looked at and has no fault. */
export function examined(file: string, changes: Partial<PhotoFacts> = {}): PhotoFacts {
  return {
    ...emptyPhotoFacts(file),
    examined: true,
    bytes: 400_000,
    mediaType: 'image/jpeg',
    width: 2400,
    height: 3200,
    blurPx: 0.8,
    jpegQuality: 90,
    ...changes,
  }
}

export function valuation(centre: string, ask: string, changes: Partial<Valuation> = {}): Valuation {
  return {
    n: 6,
    level: 'same-card-raw',
    currency: 'EUR',
    centre,
    interval: null,
    trend: null,
    excluded: [],
    thin: false,
    ask: { amount: ask, position: 0.5, ratioToCentre: Number(ask) / Number(centre) },
    steps: [],
    ...changes,
  }
}
