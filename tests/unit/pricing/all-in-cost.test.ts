/** Costs and ceilings: worked by hand, and the inversion held to the smallest coin for currencies with 0, 2 and 3 digits. */
import { Decimal } from 'decimal.js'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  allInCost,
  costLines,
  type Increment,
  largestBid,
  type Terms,
} from '../../../src/domain/pricing/all-in-cost.ts'
import { breakEven, expectedCeiling } from '../../../src/domain/pricing/expected-worth.ts'

const PLAIN: Terms = {
  currency: 'EUR',
  premium: { tiers: [{ upTo: null, percent: '0' }], minimum: '0' },
  shipping: '0',
  insurancePercent: '0',
  tax: { percent: '0', base: 'hammer' },
  dutyPercent: '0',
  paymentPercent: '0',
  afterwards: '0',
}

describe('allInCost', () => {
  it('adds nothing where nothing is charged', () => {
    expect(allInCost(new Decimal('610'), PLAIN).toFixed(2)).toBe('610.00')
  })

  it('charges a premium by tiers and at least its minimum', () => {
    const terms = {
      ...PLAIN,
      premium: {
        tiers: [
          { upTo: '1000', percent: '25' },
          { upTo: null, percent: '20' },
        ],
        minimum: '15',
      },
    }
    // By hand: 1,000 × 25 % + 500 × 20 % = 350; 40 × 25 % = 10, under the minimum.
    expect(allInCost(new Decimal('1500'), terms).toFixed(2)).toBe('1850.00')
    expect(allInCost(new Decimal('40'), terms).toFixed(2)).toBe('55.00')
  })

  it.each([
    // By hand, from hammer 200, premium 40, shipping 12, insurance 2.40, duty 5 % of 254.40 = 12.72.
    ['hammer', '42.00'],
    ['premium', '8.40'],
    ['hammer-and-premium', '50.40'],
    ['everything', '56.10'],
  ] as const)('taxes %s', (base, tax) => {
    const terms: Terms = {
      ...PLAIN,
      premium: { tiers: [{ upTo: null, percent: '20' }], minimum: '0' },
      shipping: '12',
      insurancePercent: '1',
      dutyPercent: '5',
      tax: { percent: '21', base },
    }
    const lines = Object.fromEntries(
      costLines(new Decimal('200'), terms).map(({ line, amount }) => [line, amount.toFixed(2)]),
    )
    expect(lines).toMatchObject({ premium: '40.00', insurance: '2.40', duty: '12.72', tax })
  })

  it('rounds each line to the currency’s coin', () => {
    const terms = (currency: string): Terms => ({ ...PLAIN, currency, tax: { percent: '19', base: 'hammer' } })
    expect(allInCost(new Decimal('0.13'), terms('EUR')).toString()).toBe('0.15')
    expect(allInCost(new Decimal('13'), terms('JPY')).toString()).toBe('15')
    expect(allInCost(new Decimal('0.013'), terms('KWD')).toString()).toBe('0.015')
  })
})

describe('largestBid', () => {
  const percent = fc.integer({ min: 0, max: 3000 }).map((x) => (x / 100).toFixed(2))
  /** ISO 4217 exponents 0, 2 and 3. */
  const currency = fc.constantFrom(['JPY', 0] as const, ['EUR', 2] as const, ['KWD', 3] as const)

  it('is affordable, and the next bid is not, to the smallest coin', () => {
    fc.assert(
      fc.property(
        currency,
        fc.array(percent, { minLength: 6, maxLength: 6 }),
        fc.constantFrom('hammer', 'premium', 'hammer-and-premium', 'everything'),
        fc.integer({ min: 1, max: 10_000_000 }),
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 0, max: 50_000 }),
        ([code, digits], rates, base, limitCoins, stepCoins, extraCoins) => {
          const coins = (n: number) => new Decimal(n).dividedBy(new Decimal(10).pow(digits))
          const terms: Terms = {
            currency: code,
            premium: {
              tiers: [
                { upTo: coins(300_000).toString(), percent: rates[0]! },
                { upTo: coins(2_000_000).toString(), percent: rates[1]! },
                { upTo: null, percent: rates[2]! },
              ],
              minimum: coins(extraCoins % 1000).toString(),
            },
            shipping: coins(extraCoins).toString(),
            insurancePercent: rates[3]!,
            tax: { percent: rates[4]!, base: base as Terms['tax']['base'] },
            dutyPercent: '2.5',
            paymentPercent: rates[5]!,
            afterwards: '0',
          }
          const increments: Increment[] = [
            { from: '0', step: coins(stepCoins).toString() },
            { from: coins(stepCoins * 1000).toString(), step: coins(stepCoins * 5).toString() },
          ]
          const limit = coins(limitCoins)
          const bid = largestBid(limit, terms, increments)
          const isOnLadder = (value: Decimal) => {
            const second = value.greaterThanOrEqualTo(increments[1]!.from)
            const { from, step } = increments[second ? 1 : 0]!
            return value.minus(from).modulo(step).isZero()
          }
          const next =
            bid === null
              ? coins(stepCoins)
              : bid.plus(bid.greaterThanOrEqualTo(increments[1]!.from) ? increments[1]!.step : increments[0]!.step)
          if (bid !== null) {
            expect(isOnLadder(bid)).toBe(true)
            expect(allInCost(bid, terms).lessThanOrEqualTo(limit)).toBe(true)
          }
          expect(allInCost(next, terms).greaterThan(limit)).toBe(true)
        },
      ),
      { numRuns: 400 },
    )
  })

  it('costs never fall as bids rise', () => {
    const terms: Terms = {
      ...PLAIN,
      premium: {
        tiers: [
          { upTo: '100', percent: '30' },
          { upTo: null, percent: '5' },
        ],
        minimum: '7',
      },
      tax: { percent: '19', base: 'everything' },
    }
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 50_000 }), fc.integer({ min: 1, max: 500 }), (cents, more) => {
        const cost = (n: number) => allInCost(new Decimal(n).dividedBy(100), terms)
        expect(cost(cents + more).greaterThanOrEqualTo(cost(cents))).toBe(true)
      }),
    )
  })

  it('is nothing where even the first bid is too dear', () => {
    expect(largestBid(new Decimal(10), { ...PLAIN, shipping: '12' }, [{ from: '0', step: '1' }])).toBeNull()
  })
})

describe('a raw card', () => {
  // Worked example of the trade notes, section 5 [calc]: 0.55 × 1000 + 0.25 × 350 + 0.20 × 0 − 75 = 562.50.
  const outcomes = [
    { name: 'genuine', probability: '0.55', net: '1000' },
    { name: 'altered', probability: '0.25', net: '350' },
    { name: 'counterfeit', probability: '0.20', net: '0' },
  ]

  it('is worth its expectation, to the cent', () => {
    expect(expectedCeiling(outcomes, '75', '0').toFixed(2)).toBe('562.50')
    expect(expectedCeiling(outcomes, '75', '100').toFixed(2)).toBe('462.50')
  })

  it('breaks even where the ceiling meets the price', () => {
    expect(breakEven(outcomes, '75', '0', '562.50')!.toNumber()).toBeCloseTo(0.55, 12)
    expect(breakEven(outcomes, '75', '0', '5000')).toBeNull()
  })

  it('refuses probabilities that do not add up to one', () => {
    expect(() => expectedCeiling(outcomes.slice(1), '0', '0')).toThrow(/0\.45/)
    expect(() =>
      expectedCeiling(
        [
          { name: 'a', probability: '1.2', net: '1' },
          { name: 'b', probability: '-0.2', net: '1' },
        ],
        '0',
        '0',
      ),
    ).toThrow()
  })
})
