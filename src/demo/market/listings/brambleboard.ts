/** Ads of Brambleboard: classified ads in euros, "ono" and "VB", pages that fill by script. Invented throughout. */
import { CARDS, LABELS } from '../cards.ts'
import type { DemoListing, DemoSeller } from '../listing-data.ts'
import { photoSet, RAW_VIEWS, sealed } from '../photo-set.ts'

const SELLERS = {
  maud: {
    name: 'Maud from Lower Wyrd',
    feedbackCount: 41,
    feedbackPercent: 100,
    memberSince: '2018',
    location: 'Lower Wyrd',
  },
  quick: { name: 'Jory T.', feedbackCount: 0, feedbackPercent: 0, memberSince: '2026', location: 'Grindle Bay' },
  perrin: { name: 'Perrin', feedbackCount: 12, feedbackPercent: 100, memberSince: '2021', location: 'Saltmere' },
  hauke: { name: 'Hauke', feedbackCount: 58, feedbackPercent: 100, memberSince: '2017', location: 'Kolmesiel' },
} as const satisfies Record<string, DemoSeller>

const BASE = {
  market: 'brambleboard',
  language: 'en',
  format: 'classified',
  priceKind: 'asking',
  bids: null,
  increment: null,
  bestOffer: true,
  estimate: null,
  premiumPercent: null,
  reserve: null,
  endsInHours: null,
  soldDaysAgo: null,
  specifics: [],
  returns: null,
  payments: [],
  categories: ['Hobby & collecting', 'Cards'],
} as const

export const BRAMBLEBOARD_LISTINGS: readonly DemoListing[] = [
  {
    ...BASE,
    id: 'b01',
    path: '/ad/lantern-hawker-insects-of-the-fen-58201',
    title: 'Insects of the Fen 1958 no. 23 Lantern Hawker',
    price: '12.00',
    shipping: '3.00',
    seller: SELLERS.maud,
    condition: 'Used, good',
    description: [
      'Card no. 23 Lantern Hawker from the Insects of the Fen by Aurunda, 1958. Raw, from my own childhood album, no glue on it.',
      'Collect in Lower Wyrd and look at it in the kitchen, or I post it with the Brambleboard safe-deal button.',
    ],
    itemNumber: '58201',
    photos: photoSet({
      id: 'b01',
      card: CARDS.hawkerAd,
      views: RAW_VIEWS,
      background: 'linen',
      seed: 51,
      shot: { tilt: 1.1 },
    }),
  },
  {
    ...BASE,
    id: 'b02',
    path: '/ad/old-skerryball-card-odo-marrable-58344',
    title: 'Old skerryball card 1931-32 Odo Marrable #17 quick sale',
    price: '300.00',
    shipping: null,
    seller: SELLERS.quick,
    condition: 'Used',
    description: [
      'Odo Marrable from the 1931-32 Skerryball Stars by Pellwick, ungraded. Selling for a friend, no idea if it is real, I don’t know anything about cards.',
      'Must go today, I have three people asking. First to pay gets it.',
      'Payment by gift card or friends transfer only, not with the safe-deal button. No returns.',
    ],
    itemNumber: '58344',
    photos: photoSet({
      id: 'b02',
      card: CARDS.marrableClassified,
      views: ['front'],
      background: 'kraft',
      seed: 52,
      shot: { longSide: 360, jpegQuality: 45, tilt: 2, blurPx: 1.2 },
      each: { 0: { alt: 'front of card' } },
    }),
  },
  {
    ...BASE,
    id: 'b03',
    path: '/ad/tamsin-quillfeather-kvx-9-58290',
    title: 'Tamsin Quillfeather 1958 Tidal League #41 KVX 9',
    price: '650.00',
    shipping: '10.00',
    seller: SELLERS.perrin,
    condition: 'Like new',
    description: [
      '1958 Aurunda Tidal League #41 Tamsin Quillfeather, graded KVX 9 MINT. Bought at the Saltmere fair two years ago.',
      'Safe-deal button or meet at the ferry. You can send it back within 14 days if it is not as described.',
    ],
    itemNumber: '58290',
    photos: photoSet({
      id: 'b03',
      card: CARDS.quillfeatherKvx9,
      holder: sealed({ ...LABELS.quillfeatherKvx9, covered: true }),
      views: ['holder-front', 'holder-front'],
      background: 'walnut',
      seed: 53,
      each: {
        0: { alt: 'holder front' },
        1: { alt: 'holder front, other light', background: 'felt-green', tilt: 1.5 },
      },
    }),
  },
  {
    ...BASE,
    id: 'b04',
    language: 'de',
    path: '/ad/skerryball-asse-7-barnaby-oxt-58312',
    title: 'Skerryball-Asse 1954 Nr. 7 Barnaby Oxt, Drosselhuber',
    price: '35.00',
    shipping: '3.50',
    seller: SELLERS.hauke,
    condition: 'Gebraucht, gut',
    description: [
      'Barnaby Oxt, Nr. 7 der Skerryball-Asse 1954 von Drosselhuber Kaugummi. Nicht bewertet, Ecken leicht rund.',
      'Abholung in Kolmesiel oder Versand mit dem Sicher-kaufen-Knopf. Rückgabe innerhalb von 14 Tagen möglich.',
    ],
    itemNumber: '58312',
    photos: photoSet({
      id: 'b04',
      card: CARDS.oxtAsse,
      views: RAW_VIEWS,
      background: 'oak',
      words: 'de',
      seed: 54,
      shot: { tilt: 1, note: ['25.11.2026', 'Priel 54'] },
    }),
  },
]
