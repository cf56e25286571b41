import { describe, expect, it } from 'vitest'
import { factsDiffer, findGrader, yearSpan } from '../../../src/domain/rules/compare-facts.ts'
import { askedPrice, estimateWorth, findRiskyIssue, moneyRatio } from '../../../src/domain/rules/estimate-worth.ts'
import { BOOK, LISTING, valuation } from './sample-facts.ts'

const eur = (amount: string) => ({ amount, currency: 'EUR' })
const ISSUE = {
  id: 'i',
  name: 'Stars 17',
  words: ['Märrable', '1931'],
  worthIfGenuine: eur('1000'),
  copies: [],
  exemplar: null,
  askFor: null,
}

describe('worth if genuine', () => {
  it('goes by sales before the asking price, even where that is higher', () => {
    expect(estimateWorth(LISTING, valuation('300', '900'), null, BOOK)).toMatchObject({ basis: 'sales', toLimit: 0.6 })
  })
  it('takes the larger of sales and the list', () => {
    expect(estimateWorth(LISTING, valuation('300', '85'), ISSUE, BOOK)).toMatchObject({
      basis: 'risky-issue',
      toLimit: 2,
    })
    expect(estimateWorth(LISTING, valuation('1500', '85'), ISSUE, BOOK)).toMatchObject({ basis: 'sales', toLimit: 3 })
  })
  it('falls back to the asking price, and of an auction to its estimate', () => {
    const lot = {
      ...LISTING,
      price: eur('10'),
      priceKind: 'starting-bid' as const,
      estimate: { low: eur('600'), high: eur('900') },
    }
    expect(askedPrice(lot)).toEqual(eur('600'))
    expect(estimateWorth(lot, null, null, BOOK)).toMatchObject({
      basis: 'asking-price',
      toLimit: 1.2,
      priceToWorth: null,
    })
  })
  it('is unknown without any amount', () => {
    expect(estimateWorth({ ...LISTING, price: null }, null, null, BOOK)).toBeNull()
  })
  it('leaves sales of similar cards out', () => {
    expect(estimateWorth(LISTING, valuation('900', '85', { level: 'similar' }), null, BOOK)?.basis).toBe('asking-price')
  })
})

it('compares currencies near parity as they stand, and no others', () => {
  expect(moneyRatio({ amount: '600', currency: 'USD' }, eur('500'))).toBe(1.2)
  expect(moneyRatio({ amount: '60000', currency: 'JPY' }, eur('500'))).toBeNull()
  expect(moneyRatio({ amount: '600', currency: null }, eur('500'))).toBe(1.2)
  expect(moneyRatio(eur('1'), eur('0'))).toBeNull()
})

it('finds a risky issue by whole words in title and specifics, folded', () => {
  const titled = (title: string) => findRiskyIssue({ ...LISTING, title, specifics: {} }, [ISSUE])?.id ?? null
  expect(titled('1931-32 Skerryball Stars ODO MARRABLE')).toBe('i')
  expect(titled('1931-32 Skerryball Stars Marrables brother')).toBeNull()
  expect(findRiskyIssue({ ...LISTING, title: 'Odo Marrable', specifics: { Year: '1931' } }, [ISSUE])?.id).toBe('i')
})

describe('contradictions', () => {
  const differ = (kind: Parameters<typeof factsDiffer>[0], a: string, b: string) =>
    factsDiffer(kind, a, b, BOOK.graders)
  it.each([
    ['year', '1931', '1931-32', false],
    ['year', '1932', '1931-32', false],
    ['year', '1933', '1931-32', true],
    ['year', '1999-2000', '2000', false],
    ['year', 'c. 1931', '1958', false],
    ['grade', '8', '8.0', false],
    ['grade', '8', '8.5', true],
    ['grade', 'authentic', 'Authentic', false],
    ['grade', 'authentic', '8', true],
    ['card-number', '034', '34', false],
    ['card-number', 'A-12', 'a12', false],
    ['card-number', '34', '43', true],
    ['certificate', '40312036', '4031 2036', false],
    ['grader', 'KVX', 'Kestrel Vault Examiners', false],
    ['grader', 'KVX', 'OLQ', true],
    ['grader', 'ZWY', 'zwy', false],
    ['text', 'Raw', 'raw', false],
  ] as const)('%s %s against %s: %s', (kind, a, b, expected) => {
    expect(differ(kind, a, b)).toBe(expected)
    expect(differ(kind, b, a)).toBe(expected)
  })
  it('reads spans over the turn of a century', () => {
    expect(yearSpan('1999-00')).toEqual([1999, 2000])
    expect(yearSpan('soon')).toBeNull()
  })
  it('finds a grader by name or abbreviation, not by part of one', () => {
    expect(findGrader('k.v.x.', BOOK.graders)?.name).toBe('Kestrel Vault Examiners')
    expect(findGrader('KV', BOOK.graders)).toBeNull()
  })
})
