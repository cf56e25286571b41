/** What a person types is taken exactly or not at all. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseAmount, parseAmountOf, parseDigits, parseWords } from '../../../src/ui/parts/parse-fields.ts'

describe('parseAmount', () => {
  it.each([
    ['500', '500'],
    [' 12,50 ', '12.50'],
    ['12.5', '12.5'],
    ['0', '0'],
  ])('takes %s', (text, amount) => expect(parseAmount(text)).toBe(amount))

  it.each(['', '1.100', '1,100', '1.234,50', '12 €', '-5', '1e3', '٣', '5,'])('refuses %s rather than guess', (text) =>
    expect(parseAmount(text)).toBeNull(),
  )

  it('gives back every amount with two decimals', () => {
    fc.assert(
      fc.property(fc.nat(999_999_999), fc.nat(99), (whole, cents) => {
        const decimals = String(cents).padStart(2, '0')
        expect(parseAmountOf(`${whole},${decimals}`, 'EUR')).toEqual({
          amount: `${whole}.${decimals}`,
          currency: 'EUR',
        })
      }),
    )
  })
})

it('splits words at commas, semicolons and lines, and drops empty and repeated ones', () => {
  expect(parseWords('KVX, Kestrel;\nKVX ,, ')).toEqual(['KVX', 'Kestrel'])
})

it('takes numbers of digits that can be numbers of digits', () => {
  expect(parseDigits('7 8, 9;0,-1,31,x,8.5')).toEqual([7, 8, 9])
})
