/** Anybody's CSV: what is clear is taken, what is open is asked, and thirty kinds of damage are told by their line. */
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { guessColumns } from '../../../src/domain/pricing/csv-columns.ts'
import { type CsvPlan, createCsvReader, createCsvSurvey } from '../../../src/domain/pricing/sales-csv.ts'
import { inEnglish } from '../../../src/domain/pricing/words.ts'

const rowsOf = (text: string) => Papa.parse(text, { delimitersToGuess: [',', ';', '\t', '|'] }).data as string[][]

function survey(text: string) {
  const found = createCsvSurvey()
  for (const row of rowsOf(text)) found.add(row)
  return found.result()
}

function read(text: string, more: Partial<CsvPlan> = {}) {
  const [header = [], ...rows] = rowsOf(text)
  const plan = {
    columns: guessColumns(header),
    width: header.length,
    decimal: null,
    dateOrder: null,
    currency: null,
    venue: null,
    today: '2026-11-20',
    ...more,
  }
  const next = createCsvReader(plan, header)
  return rows
    .flatMap((row) => next(row) ?? [])
    .map((row) => ('sale' in row ? row.sale : `${row.line}: ${inEnglish(row.fault)}`))
}

describe('the survey', () => {
  it.each([
    ['Date,Title,Price', { date: 0, title: 1, price: 2 }],
    ['Artikelbezeichnung;Verkaufspreis;Verkauft am;Währung', { title: 0, price: 1, date: 2, currency: 3 }],
    ['Lot title|Hammer price|Sale date|Auction house', { title: 0, price: 1, date: 2, venue: 3 }],
    ['a,b,c', {}],
  ])('knows columns by their names: %s', (header, columns) => {
    expect(guessColumns(rowsOf(header)[0]!)).toEqual(columns)
  })

  it.each([
    ['no row decides', ['03/04/2026', '05/06/2026'], 'open'],
    ['one row has a day beyond 12', ['03/04/2026', '25/06/2026'], 'day-first'],
    ['one row has a day beyond 12 in second place', ['03/04/2026', '06/25/2026'], 'month-first'],
    ['all are ISO', ['2026-03-04'], null],
    ['day and month are equal', ['05/05/2026'], null],
  ])('asks for the order of day and month only where %s', (_, dates, order) => {
    expect(survey(`date,title,price\n${dates.map((date) => `${date},A,5`).join('\n')}`).dateOrder).toBe(order)
  })

  it.each([
    ['no row decides', ['1.234', '5.678'], 'open'],
    ['one row has cents behind a comma', ['1.234', '12,50'], ','],
    ['one row groups and has cents', ['1.234', '1,234.50'], '.'],
    ['no row has a mark', ['12', '13'], null],
  ])('asks for the decimal mark only where %s', (_, prices, decimal) => {
    expect(survey(`date;title;price\n${prices.map((price) => `2026-01-01;A;${price}`).join('\n')}`).decimal).toBe(
      decimal,
    )
  })
})

describe('rows by a plan', () => {
  it.each<[string, string, Partial<CsvPlan>, object]>([
    ['the order that was told', '03/04/2026,A,5', { dateOrder: 'day-first' }, { date: '2026-04-03' }],
    ['the other order', '03/04/2026,A,5', { dateOrder: 'month-first' }, { date: '2026-03-04' }],
    ['full stops, day first', '3.4.2026,A,5', {}, { date: '2026-04-03' }],
    ['a month in words', '3 April 2026,A,5', {}, { date: '2026-04-03' }],
    [
      'a decimal comma that was told',
      '2026-01-01,A,"1.234"',
      { decimal: ',' },
      { price: { amount: '1234', currency: null } },
    ],
    [
      'a currency sign beside the amount',
      '2026-01-01,A,"€ 12,50"',
      {},
      { price: { amount: '12.50', currency: 'EUR' } },
    ],
    ['a code behind the amount', '2026-01-01,A,12.50 GBP', {}, { price: { amount: '12.50', currency: 'GBP' } }],
    [
      'the currency of the whole file',
      '2026-01-01,A,$12.50',
      { currency: 'CAD' },
      { price: { amount: '12.50', currency: 'CAD' } },
    ],
    ['the venue of the whole file', '2026-01-01,A,5', { venue: 'Quayside Lots' }, { venue: 'Quayside Lots' }],
  ])('takes %s', (_, row, plan, sale) => {
    expect(read(`date,title,price\n${row}`, plan)).toEqual([expect.objectContaining(sale)])
  })

  it('takes what the price includes and whether it is only a bound', () => {
    const [sale] = read('date,title,price,premium included,shipping included,best offer\n2026-01-01,A,5,yes,nein,x')
    expect(sale).toMatchObject({ premiumIncluded: true, shippingIncluded: false, bestOffer: true })
  })

  const HEADER = 'date,title,price,currency,venue,seller,url'
  it.each<[string, string, RegExp, Partial<CsvPlan>?]>([
    ['an empty date', ',A,5,EUR,,,', /date is empty/],
    ['a date in doubt', '01/02/2026,A,5,EUR,,,', /YYYY-MM-DD/],
    ['a month beyond twelve', '01/13/2026,A,5,EUR,,,', /does not fit the order/, { dateOrder: 'day-first' }],
    [
      'a day beyond twelve in the first place',
      '13/01/2026,A,5,EUR,,,',
      /does not fit the order/,
      { dateOrder: 'month-first' },
    ],
    ['the 30th of February', '2026-02-30,A,5,EUR,,,', /no day 2026-02-30/],
    ['the 31st of April', '31.4.2026,A,5,EUR,,,', /no day 2026-04-31/],
    ['month 0', '2026-00-10,A,5,EUR,,,', /no day/],
    ['a leap day in another year', '29.02.2025,A,5,EUR,,,', /no day/],
    ['a year of two digits', '01/02/26,A,5,EUR,,,', /two digits/],
    ['a day to come', '2026-11-21,A,5,EUR,,,', /future/],
    ['a year far to come', '2226-01-01,A,5,EUR,,,', /future/],
    ['words for a date', 'yesterday,A,5,EUR,,,', /YYYY-MM-DD/],
    ['a number for a date', '46023,A,5,EUR,,,', /YYYY-MM-DD/],
    ['an empty title', '2026-01-01,,5,EUR,,,', /title is empty/],
    ['a blank title', '2026-01-01,   ,5,EUR,,,', /title is empty/],
    ['an empty price', '2026-01-01,A,,EUR,,,', /price is empty/],
    ['a price of zero', '2026-01-01,A,0,EUR,,,', /zero/],
    ['a price of no cents', '2026-01-01,A,0.00,EUR,,,', /zero/],
    ['a negative price', '2026-01-01,A,-5,EUR,,,', /negative/],
    ['a price in brackets', '2026-01-01,A,(5.00),EUR,,,', /negative/],
    ['an absurd price', '2026-01-01,A,99999999999,EUR,,,', /absurd/],
    ['a price in words', '2026-01-01,A,five,EUR,,,', /no amount/],
    ['a price on request', '2026-01-01,A,on request,EUR,,,', /no amount/],
    ['a range of prices', '2026-01-01,A,5-10,EUR,,,', /no amount/],
    ['a price in powers', '2026-01-01,A,1e5,EUR,,,', /no amount/],
    ['two decimal marks', '2026-01-01,A,1.23.4,EUR,,,', /no amount/],
    ['a price that can be read two ways', '2026-01-01,A,1.234,EUR,,,', /two ways/],
    ['a point where commas mark cents', '2026-01-01,A,12.50,EUR,,,', /no amount/, { decimal: ',' }],
    ['a currency that is none', '2026-01-01,A,5,XQZ,,,', /ISO 4217/],
    ['a sign against its column', '2026-01-01,A,£5,EUR,,,', /says GBP and its column says EUR/],
    ['an unquoted delimiter', '2026-01-01,A, rare,5,EUR,Q,h,https://x.example', /more cells/],
    ['a formula', '2026-01-01,A,=1+1,EUR,,,', /no amount/],
    ['digits of another script', '2026-01-01,A,٥٠,EUR,,,', /no amount/],
  ])('tells %s by its line and keeps the rest', (_, line, fault, plan) => {
    const good = '2026-01-01,Good,5,EUR,,,'
    const result = read([HEADER, good, line, good.replace('Good', 'Better')].join('\n'), plan)
    expect(result).toEqual([
      expect.objectContaining({ title: 'Good' }),
      expect.stringMatching(fault),
      expect.objectContaining({ title: 'Better' }),
    ])
    expect(result[1]).toMatch(/^3: /)
  })
})
