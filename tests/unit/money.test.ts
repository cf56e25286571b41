/**
 * Amounts out of text, held against 526 price strings of real shops (`../shared/refs/prices.json`, from scrapinghub/price-parser,
 * BSD-3-Clause), against every CLDR locale through `Intl.NumberFormat`, and beside two general-purpose libraries.
 */
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { resolve } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findAmounts, isSameMoney, parseAllMoney, parseMoney } from '../../src/domain/parse-money.ts'

const REFS = resolve(import.meta.dirname, '../../../shared/refs/prices.json')
const present = existsSync(REFS)
if (!present) console.log('left out: the published price strings (../shared/refs is not here)')

interface Case {
  currency_raw: string | null
  price_raw: string | null
  currency: string | null
  amount: string | null
  decimal_separator?: '.' | ',' | '€'
}

/**
 * The stored mark → the ISO 4217 codes that a careful reader may take it for. `null`: the mark is open or no money of ISO 4217
 * (the toman is ten rial, the bitcoin has no code). Where several countries share a mark, the commonest or none is right.
 */
const MEANING: Readonly<Record<string, readonly (string | null)[]>> = {
  $: ['USD'],
  US$: ['USD'],
  A$: ['AUD'],
  AU$: ['AUD'],
  AUD: ['AUD'],
  C$: ['CAD'],
  MX$: ['MXN'],
  NT$: ['TWD'],
  J$: ['JMD'],
  TT$: ['TTD'],
  MOP$: ['MOP'],
  R$: ['BRL'],
  SGD: ['SGD'],
  '€': ['EUR'],
  EUR: ['EUR'],
  euro: ['EUR'],
  '£': ['GBP'],
  GBP: ['GBP'],
  '₤': ['GBP', 'ITL'],
  CHF: ['CHF'],
  '₣': ['CHF', 'FRF', null],
  zł: ['PLN'],
  PLN: ['PLN'],
  Kč: ['CZK'],
  Ft: ['HUF'],
  HUF: ['HUF'],
  'руб.': ['RUB'],
  руб: ['RUB'],
  Р: ['RUB'],
  'р.': ['RUB'],
  '₽': ['RUB'],
  'грн.': ['UAH'],
  грн: ['UAH'],
  '₴': ['UAH'],
  'лв.': ['BGN'],
  лв: ['BGN'],
  RON: ['RON'],
  LEI: ['RON'],
  Lei: ['RON'],
  lei: ['RON'],
  kr: ['SEK', 'NOK', 'DKK', null],
  DKK: ['DKK'],
  TL: ['TRY'],
  '₺': ['TRY'],
  '₪': ['ILS'],
  Rp: ['IDR'],
  '₫': ['VND'],
  '฿': ['THB'],
  원: ['KRW'],
  Rs: ['INR', 'PKR', null],
  '₹': ['INR'],
  र: ['INR'],
  AED: ['AED'],
  KD: ['KWD'],
  ريال: ['SAR', 'IRR', 'QAR', 'YER', 'OMR'],
  ریال: ['IRR'],
  '﷼': ['IRR', 'SAR'],
  جنيه: ['EGP'],
  تومان: [null, 'IRR'],
  PTE: ['PTE'],
  Br: ['BYN', 'ETB', null],
  '؋': ['AFN'],
  '֏': ['AMD'],
  '₼': ['AZN'],
  'Nu.': ['BTN'],
  FBu: ['BIF'],
  '៛': ['KHR'],
  FCFA: ['XAF', 'XOF'],
  kn: ['HRK'],
  '₱': ['PHP'],
  Fdj: ['DJF'],
  Nfk: ['ERN'],
  '₭': ['LAK'],
  RM: ['MYR'],
  UM: ['MRU', 'MRO'],
  '₮': ['MNT'],
  'B/.': ['PAB'],
  TSh: ['TZS'],
  VT: ['VUV'],
  ZK: ['ZMW'],
  '₿': [null],
  FG: ['GNF'],
}

describe.runIf(present)('published price strings', () => {
  const cases: Case[] = present ? JSON.parse(readFileSync(REFS, 'utf8')) : []
  const sameAmount = (wanted: string | null, got: number | null): boolean =>
    wanted === null ? got === null : got !== null && Number(wanted) === got
  const ours = (each: Case): number | null => {
    const parsed =
      each.price_raw === null ? null : parseMoney(each.price_raw, { decimalSeparator: each.decimal_separator ?? null })
    return parsed ? Number(parsed.money.amount) : null
  }

  it('reads at least 99.5 % of the amounts', () => {
    const right = cases.filter((each) => sameAmount(each.amount, ours(each))).length
    const load = createRequire(import.meta.url)
    const other = load('parse-money') as { default: (text: string) => { amount?: number } | undefined }
    const third = load('parsecurrency') as (text: string) => { value: number } | null
    const attempt = (read: (text: string) => number | null | undefined): number =>
      cases.filter((each) => {
        try {
          return sameAmount(each.amount, each.price_raw === null ? null : (read(each.price_raw) ?? null))
        } catch {
          return false
        }
      }).length
    const percent = (count: number): string =>
      `${count}/${cases.length} = ${((100 * count) / cases.length).toFixed(1)} %`
    console.log(
      `amounts right: ours ${percent(right)}, parse-money ${percent(attempt((text) => other.default(text)?.amount))}, parsecurrency ${percent(attempt((text) => third(text)?.value))}`,
    )
    expect(right / cases.length).toBeGreaterThanOrEqual(0.995)
  })

  it('reads at least 95 % of the currencies', () => {
    // A bare number takes the hint's currency, where the hint is a mark at all.
    const stated = cases.filter((each) => each.currency !== null && each.price_raw !== null && each.amount !== null)
    const missing = new Set(stated.map((each) => each.currency!).filter((mark) => MEANING[mark] === undefined))
    expect([...missing]).toEqual([])
    const wrong = stated.filter((each) => {
      const hint = each.currency_raw
        ? (parseAllMoney(`1 ${each.currency_raw}`)[0]?.money.currency ??
          parseAllMoney(each.currency_raw)[0]?.money.currency)
        : null
      const parsed = parseMoney(each.price_raw!, {
        decimalSeparator: each.decimal_separator ?? null,
        currencyHint: hint ?? null,
      })
      return !MEANING[each.currency!]!.includes(parsed?.money.currency ?? null)
    })
    console.log(
      `currencies right: ${stated.length - wrong.length}/${stated.length}; not: ${wrong.map((each) => `${each.price_raw} (${each.currency})`).join(' · ')}`,
    )
    expect(1 - wrong.length / stated.length).toBeGreaterThanOrEqual(0.95)
  })
})

describe('every CLDR locale', () => {
  it('reads back at least 99 % of what Intl.NumberFormat writes', () => {
    // One tag a language and the regions that are known to write numbers otherwise; the list of languages is ISO 639-1.
    const languages =
      'af ak am ar as az be bg bm bn bo br bs ca ce cs cv cy da de dz ee el en eo es et eu fa ff fi fo fr fy ga gd gl gu gv ha he hi hr hu hy ia id ig ii is it ja jv ka ki kk kl km kn ko ks ku kw ky lb lg ln lo lt lu lv mg mi mk ml mn mr ms mt my nb nd ne nl nn no om or os pa pl ps pt qu rm rn ro ru rw sa sc sd se sg si sk sl sn so sq sr su sv sw ta te tg th ti tk to tr tt ug uk ur uz vi wo xh yi yo zh zu'.split(
        ' ',
      )
    const regions = [
      '',
      '-CH',
      '-AT',
      '-IN',
      '-ZA',
      '-US',
      '-GB',
      '-MX',
      '-BR',
      '-PT',
      '-CA',
      '-DZ',
      '-MA',
      '-EG',
      '-SA',
      '-LI',
      '-LU',
      '-BE',
      '-CR',
      '-DO',
    ]
    const tags = [...new Set(languages.flatMap((language) => regions.map((region) => `${language}${region}`)))].filter(
      (tag) => Intl.NumberFormat.supportedLocalesOf(tag).length > 0,
    )
    const amounts = [0.5, 7, 12.9, 99, 345, 1299, 1299.5, 12345.67, 129900, 1234567.89]
    let tried = 0
    const failed: string[] = []
    for (const tag of tags) {
      for (const currency of ['EUR', 'USD', 'GBP']) {
        const format = new Intl.NumberFormat(tag, { style: 'currency', currency })
        for (const amount of amounts) {
          const written = format.format(amount)
          tried += 1
          const read = parseMoney(written, { locale: tag, currencyHint: currency })
          if (!read || Number(read.money.amount) !== amount) failed.push(`${tag}: ${written} → ${read?.money.amount}`)
        }
      }
    }
    console.log(
      `CLDR round trip: ${tried - failed.length}/${tried} over ${tags.length} locales; not: ${failed.slice(0, 6).join(' · ')}`,
    )
    expect(tags.length).toBeGreaterThan(300)
    expect(1 - failed.length / tried).toBeGreaterThanOrEqual(0.99)
  })
})

describe('notations', () => {
  it.each([
    ['US $1,299.00', '1299.00', 'USD'],
    ['1.299,00 €', '1299.00', 'EUR'],
    ["CHF 1'299.—", '1299', 'CHF'],
    ['¥12,800', '12800', 'JPY'],
    ['R$ 1.299,90', '1299.90', 'BRL'],
    ['₹1,29,900', '129900', 'INR'],
    ['1 299,00 zł', '1299.00', 'PLN'],
    ['kr 1 299', '1299', 'SEK'],
    ['£5', '5', 'GBP'],
    ['VB 120 €', '120', 'EUR'],
    ['120,- €', '120', 'EUR'],
    ['EUR 1.450,--', '1450', 'EUR'],
    ['1.2k €', '1200', 'EUR'],
    ['12万円', '120000', 'JPY'],
    ['１２，８００円', '12800', 'JPY'],
    ['$1,190.00 AUD', '1190.00', 'AUD'],
  ])('%s', (text, amount, currency) => {
    expect(parseMoney(text)?.money).toEqual({ amount, currency })
  })

  it('marks ranges, signs, assumed marks and marks that are also words', () => {
    expect(findAmounts('$45,000 – $70,000').map((each) => each.range)).toEqual(['low', 'high'])
    expect(findAmounts('from 26 to 50 €').map((each) => each.money)).toEqual([
      { amount: '26', currency: 'EUR' },
      { amount: '50', currency: 'EUR' },
    ])
    expect(findAmounts('−20 €')[0]!.negative).toBe(true)
    expect(findAmounts('$20')[0]!.assumed).toBe(true)
    expect(findAmounts('TOP 100')[0]!.weak).toBe(true)
    expect(findAmounts('5 km')[0]?.mark ?? null).toBeNull()
  })

  it('settles an open mark by hint or country', () => {
    expect(parseMoney('$20', { currencyHint: 'CAD' })?.money.currency).toBe('CAD')
    expect(parseMoney('$20', { locale: 'es-MX' })?.money.currency).toBe('MXN')
    expect(parseMoney('kr 20', { locale: 'nb-NO' })?.money.currency).toBe('NOK')
  })

  it('finds no price where none stands', () => {
    for (const text of ['', 'Sheet Set', '40% OFF', 'MX924', 'call us', '12.11.2026 20:15 Uhr']) {
      expect(findAmounts(text).filter((each) => each.mark !== null)).toEqual([])
    }
    expect(isSameMoney({ amount: '12.5', currency: 'EUR' }, { amount: '12.50', currency: null })).toBe(true)
    expect(isSameMoney({ amount: '12.5', currency: 'EUR' }, { amount: '12.50', currency: 'USD' })).toBe(false)
  })

  it('never throws, and points into the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ unit: 'grapheme' }), fc.stringMatching(/^[$€£¥₹ 0-9.,'a-zA-Z%-]{0,60}$/)),
        (text) => {
          for (const amount of findAmounts(text)) {
            expect(amount.start).toBeGreaterThanOrEqual(0)
            expect(amount.end).toBeLessThanOrEqual(text.length)
            expect(amount.start).toBeLessThan(amount.end)
            expect(amount.money.amount).toMatch(/^\d+(?:\.\d+)?$/)
          }
        },
      ),
    )
  })
})
