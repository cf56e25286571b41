/** Dated rates, bounds as censored values, marks, wants, and that both languages say the same codes. */
import { readFileSync } from 'node:fs'
import { Decimal } from 'decimal.js'
import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { loadKnowledge } from '../../../src/cli/load-packs.ts'
import { parseClaims } from '../../../src/domain/claim/parse-claims.ts'
import { allInCost } from '../../../src/domain/pricing/all-in-cost.ts'
import {
  breakEvenFor,
  type CostPreset,
  ceilingOf,
  ceilingSensitivity,
  returnDates,
  suggestRange,
  termsOf,
} from '../../../src/domain/pricing/ceiling.ts'
import { redistribute } from '../../../src/domain/pricing/censor.ts'
import { expectedWorth } from '../../../src/domain/pricing/expected-worth.ts'
import type { Knowledge } from '../../../src/domain/pricing/match-sales.ts'
import { createRateTable, parseRatesCsv } from '../../../src/domain/pricing/rates.ts'
import { cardKey, createMarkReader } from '../../../src/domain/pricing/sale-marks.ts'
import { salesFromRows } from '../../../src/domain/pricing/sales-from-rows.ts'
import { valueClaim } from '../../../src/domain/pricing/value-claim.ts'
import { createWantReader, type Want } from '../../../src/domain/pricing/want.ts'
import { ENGLISH } from '../../../src/domain/pricing/words.ts'
import type { Sale } from '../../../src/domain/valuation.ts'

const CARD = '1958 Aurunda Tidal League #12 Odo Marrable'
let knowledge: Knowledge
beforeAll(async () => {
  knowledge = await loadKnowledge([{ name: 'Kestrel Vault Examiners', abbreviations: ['KVX'], accepted: true }])
})
const claimOf = (title: string) => parseClaims({ title, specifics: {}, description: null }, knowledge)[0]!
const sale = (id: string, amount: string, more: Partial<Sale> = {}): Sale => ({
  id,
  date: '2026-05-04',
  title: `${CARD} KVX 6`,
  price: { amount, currency: 'EUR' },
  venue: 'Quayside Lots',
  seller: `seller ${id}`,
  url: null,
  ...more,
})

it('says in the interface what the core says, word for word', () => {
  const ui = JSON.parse(readFileSync('assets/_locales/en/ui/prices.json', 'utf8')) as Record<string, string>
  expect(Object.fromEntries(Object.keys(ENGLISH).map((key) => [key, ui[key]]))).toEqual(ENGLISH)
})

describe('rates', () => {
  // The form of eurofxref-hist.csv as the European Central Bank publishes it; the figures are made up.
  const FILE = 'Date,USD,JPY,GBP,KWD,\n2026-05-05,1.2500,160.00,0.8000,N/A,\n2026-05-04,1.2000,150.00,0.8000,0.3600,\n'
  const table = createRateTable(parseRatesCsv(FILE).rows)

  it('reads the published form, gaps and the closing comma', () => {
    expect(parseRatesCsv(FILE)).toEqual({
      faults: [],
      rows: [
        { day: '2026-05-05', perEuro: { USD: '1.2500', JPY: '160.00', GBP: '0.8000' } },
        { day: '2026-05-04', perEuro: { USD: '1.2000', JPY: '150.00', GBP: '0.8000', KWD: '0.3600' } },
      ],
    })
    expect(parseRatesCsv('Date, USD, \n20 November 2026, 1.1, ').rows).toEqual([
      { day: '2026-11-20', perEuro: { USD: '1.1' } },
    ])
  })

  it.each([
    ['no header', 'USD,1.2'],
    ['a day that there is not', 'Date,USD\n2026-02-30,1.2'],
    ['a rate of zero', 'Date,USD\n2026-02-03,0'],
    ['words', 'Date,USD\n2026-02-03,about one'],
    ['a day twice', 'Date,USD\n2026-02-03,1.2\n2026-02-03,1.3'],
  ])('tells the fault of %s', (_, text) => {
    expect(parseRatesCsv(text).faults).toHaveLength(1)
  })

  it.each([
    ['to euro', '120.00', 'USD', 'EUR', '2026-05-04', '100.00'],
    ['from euro', '100.00', 'EUR', 'JPY', '2026-05-04', '15000'],
    ['across', '120.00', 'USD', 'GBP', '2026-05-04', '80.00'],
    ['three decimals', '100.00', 'EUR', 'KWD', '2026-05-06', '36.000'],
    ['the last day before', '125.00', 'USD', 'EUR', '2026-05-10', '100.00'],
  ])('converts %s', (_, amount, from, to, on, wanted) => {
    expect(table.convert({ amount, currency: from }, to, on)?.money).toEqual({ amount: wanted, currency: to })
  })

  it('converts nothing without a rate near the day', () => {
    expect(table.convert({ amount: '1', currency: 'USD' }, 'EUR', '2026-05-03')).toBeNull()
    expect(table.convert({ amount: '1', currency: 'USD' }, 'EUR', '2026-06-01')).toBeNull()
    expect(table.convert({ amount: '1', currency: 'SEK' }, 'EUR', '2026-05-04')).toBeNull()
    expect(table.convert({ amount: '1', currency: null }, 'EUR', '2026-05-04')).toBeNull()
  })

  it('brings sales of other currencies into a valuation, and says so', () => {
    const sales = [
      ...['100', '104', '98', '102'].map((amount, i) => sale(`e${i}`, amount)),
      sale('d', '120.00', { price: { amount: '120.00', currency: 'USD' } }),
    ]
    const options = { on: '2026-05-06', ask: { amount: '90', currency: 'EUR' }, knowledge, title: `${CARD} KVX 6` }
    expect(valueClaim(claimOf(`${CARD} KVX 6`), sales, { ...options, rates: table })).toMatchObject({
      n: 5,
      converted: 1,
      currency: 'EUR',
    })
    const without = valueClaim(claimOf(`${CARD} KVX 6`), sales, options)
    expect(without).toMatchObject({ n: 4, converted: 0 })
    expect(without.steps.join(' ')).toMatch(/no rate is at hand/)
  })
})

describe('bounds', () => {
  it('hands weight on as the Kaplan–Meier estimator does', () => {
    // Remission times of the 6-MP group in Freireich et al. (1963), the textbook example (Kleinbaum & Klein, Survival Analysis, ch. 2),
    // mirrored: censored on the right there, on the left here. Survival after 6, 7, 10, 13, 16, 22, 23 weeks as printed there (figures from memory).
    const times: [number, boolean][] = [
      [6, false],
      [6, false],
      [6, false],
      [6, true],
      [7, false],
      [9, true],
      [10, false],
      [10, true],
      [11, true],
      [13, false],
      [16, false],
      [17, true],
      [19, true],
      [20, true],
      [22, false],
      [23, false],
      [25, true],
      [32, true],
      [32, true],
      [34, true],
      [35, true],
    ]
    const weights = redistribute(times.map(([time, bound]) => ({ value: -time, weight: 1, bound })))
    const survival = (after: number) =>
      1 - times.reduce((sum, [time], i) => sum + (time <= after ? weights[i]! : 0), 0) / times.length
    const printed: [number, number][] = [
      [6, 0.8571],
      [7, 0.8067],
      [10, 0.7529],
      [13, 0.6902],
      [16, 0.6275],
      [22, 0.5378],
      [23, 0.4482],
    ]
    for (const [after, share] of printed) expect(survival(after), String(after)).toBeCloseTo(share, 4)
  })

  it('pull the centre down and are no part of n', () => {
    const exact = ['100', '110', '95', '105', '120', '98', '101'].map((amount, i) => sale(`e${i}`, amount))
    const bounds = ['118', '112', '119'].map((amount, i) => sale(`b${i}`, amount, { bestOffer: true }))
    const value = (sales: readonly Sale[]) =>
      valueClaim(claimOf(`${CARD} KVX 6`), sales, { on: '2026-05-06', ask: null, knowledge, title: `${CARD} KVX 6` })
    const [without, withBounds] = [value(exact), value([...exact, ...bounds])]
    expect(withBounds).toMatchObject({ n: 7, bounds: 3 })
    expect(Number(withBounds.centre)).toBeLessThan(Number(without.centre))
    expect(withBounds.steps.join(' ')).toMatch(/no published price/)
    expect(value(bounds)).toMatchObject({ n: 0, bounds: 3, centre: null })
  })
})

describe('marks', () => {
  const market = ['100', '104', '98', '102', '99', '101'].map((amount, i) => sale(`s${i}`, amount))
  const value = (marks: Parameters<typeof createMarkReader>[0]) => {
    const claim = claimOf(`${CARD} KVX 6`)
    return valueClaim(claim, market, {
      on: '2026-05-06',
      ask: null,
      knowledge,
      title: `${CARD} KVX 6`,
      notCounted: createMarkReader(marks, cardKey(claim)),
    })
  }
  it('leave a sale out with the reason, and it stays among the points', () => {
    const valuation = value([{ kind: 'sale', sale: 's2', reason: 'bundle' }])
    expect(valuation.n).toBe(5)
    expect(valuation.points).toHaveLength(6)
    expect(valuation.points?.find(({ sale: id }) => id === 's2')).toMatchObject({
      counted: false,
      why: { code: 'why.sale-not-counted' },
    })
  })
  it('of a venue leave all of its sales out, which is said', () => {
    expect(value([{ kind: 'venue', name: 'quayside lots', reason: 'not trusted' }])).toMatchObject({
      n: 0,
      onlyNotCounted: true,
    })
  })
  it('of another card hold for that card alone', () => {
    expect(value([{ kind: 'another-card', sale: 's1', card: cardKey(claimOf(`${CARD} KVX 8`)) }]).n).toBe(5)
    expect(
      value([
        { kind: 'another-card', sale: 's1', card: cardKey(claimOf('1958 Insects of the Fen #23 Lantern Hawker')) },
      ]).n,
    ).toBe(6)
  })
})

it.each<[string, Partial<Want>, string, string | null, string | null]>([
  ['within', {}, `${CARD} KVX 6`, '90', 'within'],
  ['above the most', {}, `${CARD} KVX 6`, '110', 'above'],
  ['without a price', {}, `${CARD} KVX 6`, null, 'open'],
  ['below the grades', { gradeFrom: 7 }, `${CARD} KVX 6`, '90', null],
  ['raw where graded is wanted', { condition: 'graded' }, `${CARD} raw`, '90', null],
  ['another number', {}, '1958 Aurunda Tidal League #13 Odo Marrable KVX 6', '90', null],
])('a want and an offer: %s', (_, more, title, price, wanted) => {
  const want = {
    id: 'w',
    words: CARD,
    condition: 'any' as const,
    gradeFrom: null,
    gradeTo: null,
    most: { amount: '100', currency: 'EUR' },
    note: '',
    ...more,
  }
  const fits = createWantReader([want], knowledge, null, '2026-05-06')
  expect(fits(claimOf(title), title, price === null ? null : { amount: price, currency: 'EUR' })?.price ?? null).toBe(
    wanted,
  )
})

it('takes sold rows only, and says of every other why not', () => {
  const row = {
    title: `${CARD} KVX 6`,
    url: 'https://q.example/1',
    price: { amount: '5', currency: 'EUR' },
    sold: true,
    soldAt: '2026-05-01',
    photo: null,
    seller: 'heron',
  }
  const rows = [
    row,
    { ...row, sold: false },
    { ...row, sold: null, soldAt: null },
    { ...row, price: null },
    { ...row, soldAt: null },
    { ...row, soldAt: '2027-01-01' },
    { ...row, title: `Lot of 5 cards ${CARD}` },
    row,
  ]
  const { sales, skipped } = salesFromRows(rows, {
    pageUrl: 'https://www.q.example/sold',
    today: '2026-05-06',
    knowledge,
    isKnown: () => false,
  })
  expect(sales).toEqual([expect.objectContaining({ venue: 'q.example', date: '2026-05-01', source: 'results-page' })])
  expect(skipped.map(({ why }) => why.code)).toEqual([
    'skip.unsold',
    'skip.open',
    'skip.no-price',
    'skip.no-date',
    'skip.future',
    'skip.lot',
    'skip.known',
  ])
})

describe('the ceiling', () => {
  const preset = (currency: string, more: Partial<CostPreset> = {}): CostPreset => ({
    name: 'c',
    terms: {
      currency,
      premium: {
        tiers: [
          { upTo: '1000', percent: '25' },
          { upTo: null, percent: '20' },
        ],
        minimum: '0',
      },
      shipping: '12',
      insurancePercent: '1',
      tax: { percent: '19', base: 'everything' },
      dutyPercent: '3.7',
      paymentPercent: '1.5',
    },
    grading: { fee: '40', shipping: '12' },
    marginPercent: '10',
    increments: [{ from: '0', step: currency === 'JPY' ? '1' : currency === 'KWD' ? '0.001' : '0.01' }],
    ratesOf: '2026-01-01',
    ...more,
  })

  it.each(['JPY', 'EUR', 'KWD'])(
    'is the largest bid whose cost stays within the limit, to the smallest coin of %s',
    (currency) => {
      const coin = new Decimal(currency === 'JPY' ? 1 : currency === 'KWD' ? '0.001' : '0.01')
      fc.assert(
        fc.property(fc.integer({ min: 100, max: 5_000_000 }), (worth) => {
          const { bid, limit, allIn } = ceilingOf(String(worth), preset(currency))
          if (bid === null) return
          expect(allIn!.lessThanOrEqualTo(limit)).toBe(true)
          expect(allInCost(bid.plus(coin), termsOf(preset(currency))).greaterThan(limit)).toBe(true)
        }),
        { numRuns: 60 },
      )
    },
  )

  it('moves with the probability, and breaks even where it says', () => {
    const outcomes = [
      { name: 'genuine', probability: '0.55', net: '1000' },
      { name: 'altered', probability: '0.25', net: '350' },
      { name: 'worthless', probability: '0.2', net: '0' },
    ]
    expect(expectedWorth(outcomes).toFixed(2)).toBe('637.50')
    const curve = ceilingSensitivity(outcomes, preset('EUR'))
    expect(curve.every(({ bid }, i) => i === 0 || bid >= curve[i - 1]!.bid)).toBe(true)
    const at = breakEvenFor('300', outcomes, preset('EUR'))!
    expect(at.greaterThan(0) && at.lessThan(1)).toBe(true)
    expect(breakEvenFor('5000', outcomes, preset('EUR'))).toBeNull()
  })

  it('suggests a range from assumed weights that contains its middle', () => {
    // Odds of 3 to 1 divided by 10: 0.3 to 1, which is 0.3 / 1.3.
    const range = suggestRange(0.75, { log10: 1, sensitivity: { halved: 0.5, doubled: 2 } })!
    expect(range.middle).toBeCloseTo(0.3 / 1.3, 12)
    expect(range.low).toBeLessThan(range.middle)
    expect(range.high).toBeGreaterThan(range.middle)
    expect(suggestRange(1, { log10: 1, sensitivity: { halved: 0.5, doubled: 2 } })).toBeNull()
  })

  it('warns when grading outlasts the return window', () => {
    expect(returnDates('2026-11-20', { shipping: 5, returns: 14, grading: 45 })).toEqual({
      arrives: '2026-11-25',
      returnEnds: '2026-12-09',
      gradedBack: '2027-01-09',
      tooLateBy: 31,
    })
  })
})
