/** A ledger of any size, made of invented cards: many sales of few cards and few of many, as in a real market. Seeded. */
import { saleId } from '../../../src/domain/pricing/sale-id.ts'
import type { Sale } from '../../../src/domain/valuation.ts'

const FIRST =
  'Odo Tamsin Ivo Hesper Barnaby Wilhelmina Corvin Aldous Brannoc Cressida Dunstan Elspeth Fenwick Gudrun Hadley Isolde'
const LAST =
  'Marrable Quillfeather Brackwater Lunn Oxt Strake Thaxley Penhallow Wrackley Sandlock Tidewell Gorsefield Marlowby Kelpton'
const SETS = [
  'Pellwick Skerryball Stars',
  'Aurunda Tidal League',
  'Harbour Ships of the Cold Coast',
  'Insects of the Fen',
  'Drosselhuber Gezeitenliga',
]
const YEARS = ['1931-32', '1958', '1931', '1954', '1949', '1961']
const SELLERS = 400

function createRandom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

/** @param cards how many different cards; left out, one for every hundred sales. */
export function createMarket(count: number, seed: number, cards = Math.max(20, Math.round(count / 100))): Sale[] {
  const random = createRandom(seed)
  const pick = <T>(items: readonly T[]) => items[Math.floor(random() * items.length)] as T
  const [first, last] = [FIRST.split(' '), LAST.split(' ')]
  const known = Array.from({ length: cards }, () => ({
    words: `${pick(SETS)}`,
    year: pick(YEARS),
    number: 1 + Math.floor(random() * 240),
    subject: `${pick(first)} ${pick(last)}`,
    level: Math.exp(3 + 3 * random()),
  }))
  return Array.from({ length: count }, (_, i) => {
    // Some cards sell far oftener than others.
    const card = known[Math.floor(cards * random() ** 2)] as (typeof known)[number]
    const graded = random() < 0.6
    const grade = 2 + Math.floor(random() * 8)
    const condition = graded ? `${random() < 0.8 ? 'KVX' : 'ZWY'} ${grade}` : pick(['raw VG', 'ungraded', 'raw'])
    const number = random() < 0.9 ? (random() < 0.8 ? `#${card.number}` : `No. ${card.number}`) : ''
    const title = [card.year, card.words, number, card.subject, condition].filter(Boolean).join(' ')
    const amount = (
      card.level *
      (graded ? 1.35 ** (grade - 4) : 0.8) *
      Math.exp(0.3 * (random() + random() - 1))
    ).toFixed(2)
    const date = new Date(Date.UTC(2026, 10, 19) - Math.floor(random() * 1500) * 86_400_000).toISOString().slice(0, 10)
    const sale = {
      date,
      title,
      price: { amount, currency: 'EUR' },
      venue: pick(['Quayside Lots', 'Möwenmarkt', 'Lamplight Gavel Rooms']),
      seller: `seller ${Math.floor(random() * SELLERS)}`,
      url: `https://www.quayside-lots.example/lot/${40_000_000 + i}`,
    }
    return { id: saleId([date, title, amount, 'EUR', sale.venue, sale.seller, sale.url]), ...sale }
  })
}
