/** Further rows of results pages: listings without a page of their own, and finished sales as rows. */
import type { CardDesign, CardSpec, HolderSpec, Shot } from '../drawing/shot.ts'
import { LABELS } from './cards.ts'
import type { DemoRow } from './listing-data.ts'
import { card, sealed } from './photo-set.ts'
import { SALES, type SaleRow } from './sales.ts'

function rowShot(drawn: CardSpec, seed: number, held: HolderSpec | null): Shot {
  const backgrounds = ['oak', 'felt-grey', 'linen', 'slate', 'walnut', 'felt-green', 'kraft', 'scanner'] as const
  return {
    view: held ? 'holder-front' : 'front',
    card: drawn,
    holder: held,
    background: backgrounds[seed % backgrounds.length]!,
    seed,
    longSide: 560,
    blurPx: 0.5,
    jpegQuality: 84,
    tilt: 0.8,
    note: [],
  }
}

function row(
  design: CardDesign,
  number: string,
  subject: string,
  title: string,
  more: Pick<DemoRow, 'price' | 'format' | 'seller'> & Partial<DemoRow>,
): DemoRow {
  const seed = [...title].reduce((sum, letter) => (sum * 33 + letter.codePointAt(0)!) % 9973, 5)
  const itemNumber = String(40_713_000 + seed)
  return {
    title,
    bids: more.format === 'auction' ? (seed % 11) + 1 : null,
    shipping: '2.90',
    endsInHours: more.format === 'auction' ? 8 + (seed % 120) : null,
    soldDaysAgo: null,
    itemNumber,
    photo: {
      file: `row-${itemNumber}.jpg`,
      shot: rowShot(card(design, number, subject, { seed, wear: 0.1 + (seed % 6) / 10 }), seed, null),
    },
    ...more,
  }
}

export const FURTHER_ROWS: readonly DemoRow[] = [
  row('skerryball-stars', '5', 'Hesper Lunn', '1931-32 Pellwick Skerryball Stars #5 Hesper Lunn', {
    price: '118.00',
    format: 'fixed',
    seller: 'ledgerhouse',
  }),
  row('skerryball-stars', '41', 'Wilhelmina Strake', '1931-32 Skerryball Stars #41 Wilhelmina Strake rookie', {
    price: '76.00',
    format: 'auction',
    seller: 'tarn_and_tide',
  }),
  row('tidal-league', '12', 'Odo Marrable', '1958 Aurunda Tidal League #12 Odo Marrable manager card', {
    price: '52.00',
    format: 'fixed',
    seller: 'gullhouse-cards',
  }),
  row('tidal-league', '77', 'Corvin Thaxley', '1958 Tidal League #77 C. Thaxley (the elder) EX', {
    price: '19.00',
    format: 'auction',
    seller: 'keelson_collect',
  }),
  row('harbour-ships', '18', 'Sable Tern', '1931 Pellwick Harbour Ships #18 Sable Tern', {
    price: '27.50',
    format: 'fixed',
    seller: 'fenmother',
  }),
  row('harbour-ships', '33', 'Brodden Light', '1931 Harbour Ships #33 Brodden Light, corner crease', {
    price: '11.00',
    format: 'auction',
    seller: 'ledgerhouse',
  }),
  row('fen-insects', '2', 'Sedge Skimmer', 'Insects of the Fen 1958 #2 Sedge Skimmer', {
    price: '9.00',
    format: 'fixed',
    seller: 'fenmother',
  }),
  row('fen-insects', '44', 'Peat Longhorn', 'Insects of the Fen 1958 #44 Peat Longhorn NM', {
    price: '16.00',
    format: 'fixed',
    seller: 'fenmother',
  }),
  row('fen-insects', '9', 'Fen Insects', 'Insects of the Fen 1958 lot of 12 cards, no doubles', {
    price: '48.00',
    format: 'auction',
    seller: 'gullhouse-cards',
  }),
  row('skerryball-asse', '16', 'Tamsin Quillfeather', '1954 Drosselhuber Skerryball-Asse #16 Tamsin Quillfeather', {
    price: '33.00',
    format: 'fixed',
    seller: 'tarn_and_tide',
  }),
  row('tidal-prime', 'TP-9', 'Corvin Thaxley', '2021 Vennling Tidal Prime pick your card', {
    price: '1.50',
    format: 'fixed',
    seller: 'keelson_collect',
  }),
]

const GRADE_LABELS = {
  '4': LABELS.marrableKvx4,
  '5': LABELS.marrableKvx5,
  '6': LABELS.marrableKvx6,
} as const

function soldRow(sale: SaleRow, place: number): DemoRow {
  const itemNumber = sale.url.slice(sale.url.lastIndexOf('/') + 1)
  const drawn = card('skerryball-stars', '17', 'Odo Marrable', { seed: 7000 + place, wear: 0.2 + (place % 5) / 8 })
  const grade = /\b(KVX|OLQ) (\d)/.exec(sale.title)
  const held = grade
    ? sealed({
        ...(GRADE_LABELS[grade[2] as keyof typeof GRADE_LABELS] ?? { ...LABELS.marrableKvx6, grade: grade[2]! }),
        grader: grade[1] as 'KVX' | 'OLQ',
        certificate: grade[1] === 'KVX' ? String(20_301_000 + place * 417) : String(3_160_100_000 + place * 6151),
      })
    : null
  return {
    title: sale.title,
    price: sale.price,
    format: place % 3 === 0 ? 'fixed' : 'auction',
    bids: place % 3 === 0 ? null : 5 + ((place * 7) % 23),
    shipping: place % 4 === 0 ? '0' : '12.00',
    seller: sale.seller,
    endsInHours: null,
    soldDaysAgo: sale.daysAgo,
    itemNumber,
    photo: { file: `row-${itemNumber}.jpg`, shot: rowShot(drawn, 700 + place, held) },
  }
}

/** What Quayside Lots shows as sold for "odo marrable 17": the same sales that the CSV holds, newest first. */
export const SOLD_ROWS: readonly DemoRow[] = SALES.filter(
  (sale) => sale.venue === 'Quayside Lots' && sale.title.includes('Marrable'),
).map(soldRow)
