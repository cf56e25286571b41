/** Sales from CSV: what is read, and every kind of damage reported by its line. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseSalesCsv } from '../../../src/domain/pricing/parse-sales-csv.ts'

const HEADER = 'date,title,price,currency,venue,seller,url'
const GOOD = '2024-05-01,"Lantern Hawker, Insects of the Fen",12.50,EUR,Quayside Lots,heron,https://quayside.example/1'
const read = (...lines: string[]) => parseSalesCsv([HEADER, ...lines].join('\n'))

describe('parseSalesCsv', () => {
  it('reads a sale', () => {
    const { sales, faults } = read(GOOD)
    expect(faults).toEqual([])
    expect(sales).toEqual([
      {
        id: expect.stringMatching(/^sale-[0-9a-f]{16}$/),
        date: '2024-05-01',
        title: 'Lantern Hawker, Insects of the Fen',
        price: { amount: '12.50', currency: 'EUR' },
        venue: 'Quayside Lots',
        seller: 'heron',
        url: 'https://quayside.example/1',
      },
    ])
  })

  it.each([
    ['semicolons and decimal commas', 'date;title;price;currency\n2024-05-01;A;1.234,50;EUR', '1234.50'],
    ['tabs', 'date\ttitle\tprice\n2024-05-01\tA\t12', '12'],
    ['columns in another order and other letters', 'Price,Date,TITLE\n12.50,2024-05-01,A', '12.50'],
    ['a byte order mark and Windows line ends', `\ufeff${HEADER}\r\n2024-05-01,A,12.50,EUR,,,\r\n`, '12.50'],
    ['grouped thousands', 'date,title,price\n2024-05-01,A,"1,234,567.80"', '1234567.80'],
    ['grouping by blanks', 'date;title;price\n2024-05-01;A;12 345,60', '12345.60'],
    ['three digits in dinars', 'date,title,price,currency\n2024-05-01,A,1.234,KWD', '1.234'],
    ['a time behind the date', 'date,title,price\n2024-05-01T10:00:00Z,A,5', '5'],
  ])('reads %s', (_, text, amount) => {
    const { sales, faults } = parseSalesCsv(text)
    expect(faults).toEqual([])
    expect(sales.map(({ price }) => price.amount)).toEqual([amount])
  })

  it.each<[string, string, RegExp]>([
    ['a day that there is not', '2024-02-30,A,5,EUR,,,', /no day 2024-02-30/],
    ['day and month in doubt', '01/02/2024,A,5,EUR,,,', /YYYY-MM-DD/],
    ['no date', ',A,5,EUR,,,', /date is empty/],
    ['no title', '2024-05-01,,5,EUR,,,', /title is empty/],
    ['no price', '2024-05-01,A,,EUR,,,', /price is empty/],
    ['a price of zero', '2024-05-01,A,0.00,EUR,,,', /zero/],
    ['a negative price', '2024-05-01,A,-5,EUR,,,', /negative/],
    ['a price in words', '2024-05-01,A,five,EUR,,,', /no amount/],
    ['a price that can be read two ways', '2024-05-01,A,1.234,EUR,,,', /two ways/],
    ['a currency that is none', '2024-05-01,A,5,XQZ,,,', /ISO 4217/],
    ['an unquoted comma', '2024-05-01,Hawker, rare,5,EUR,Q,h,https://x.example', /more cells/],
    ['dots for thousands without sense', '2024-05-01,A,1.23.4,EUR,,,', /no amount/],
  ])('reports %s by its line and keeps the rest', (_, line, fault) => {
    const { sales, faults } = read(GOOD, line, GOOD.replace('01', '02'))
    expect(sales).toHaveLength(2)
    expect(faults).toEqual([{ line: 3, fault: expect.stringMatching(fault) }])
  })

  it('counts lines through quoted line ends', () => {
    const { faults } = read('2024-05-01,"two\nlines",5,EUR,,,', '', 'x,A,5,EUR,,,')
    expect(faults).toEqual([{ line: 5, fault: expect.stringMatching(/YYYY/) }])
  })

  it('reports a repeated sale', () => {
    expect(read(GOOD, GOOD).faults).toEqual([{ line: 3, fault: 'repeats line 2' }])
  })

  it.each([
    ['an empty file', ''],
    ['a header alone in other words', 'when,what,how much\n1,2,3'],
    ['no CSV at all', '<html></html>'],
  ])('says what the header lacks in %s', (_, text) => {
    const { sales, faults } = parseSalesCsv(text)
    expect(sales).toEqual([])
    expect(faults).toEqual([{ line: 1, fault: expect.stringMatching(/header lacks/) }])
  })

  it('gives one sale the same id in every file', () => {
    expect(read(GOOD).sales[0]!.id).toBe(parseSalesCsv(`${HEADER}\n2024-01-01,B,5,EUR,,,\n${GOOD}`).sales[1]!.id)
  })

  it('never throws', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        parseSalesCsv(text)
        parseSalesCsv(`${HEADER}\n${text}`)
      }),
    )
  })
})
