/** Money, dates and plurals by language. The expected forms are CLDR's, through the ICU of the runtime. */
import { describe, expect, it } from 'vitest'
import { wordingOf } from './screen.tsx'

const en = wordingOf('en')
const de = wordingOf('de')

describe('money', () => {
  it('keeps every digit of a decimal string', () => {
    expect(en.money({ amount: '9007199254740993.25', currency: 'EUR' })).toBe('€9,007,199,254,740,993.25')
  })
  it('follows the language', () => {
    expect(en.money({ amount: '1234.5', currency: 'EUR' })).toBe('€1,234.50')
    expect(de.money({ amount: '1234.5', currency: 'EUR' }).replace(/\u00A0/g, ' ')).toBe('1.234,50 €')
    expect(en.money({ amount: '12800', currency: 'JPY' })).toBe('JP¥12,800')
  })
  it('says when the currency is not stated, and shows a code that is none as it is', () => {
    expect(en.money({ amount: '12', currency: null })).toBe('12 (currency not stated)')
    expect(en.money({ amount: '12', currency: '??' })).toBe('12 ??')
  })
})

describe('time', () => {
  it('writes the local time of an instant, and a date alone as that day everywhere', () => {
    expect(en.dateTime('2026-11-27T19:04:00Z')).toBe('27 Nov 2026, 20:04')
    expect(en.dateTime('2026-11-27')).toBe('27 Nov 2026')
    expect(de.date('2026-11-27')).toBe('27.11.2026')
  })
  it('gives words that are no date back as they are', () => {
    expect(en.date('March 2026 or so')).toBe('March 2026 or so')
  })
  it.each([
    ['2026-11-27T16:20:00Z', 'in 2 days'],
    ['2026-11-25T19:30:00Z', 'in 3 hours'],
    ['2026-11-25T16:21:30Z', 'in 1 minute'],
    ['2026-11-24T16:00:00Z', 'yesterday'],
  ])('says how far off %s is', (iso, words) => expect(en.relative(iso, '2026-11-25T16:20:00Z')).toBe(words))
})

it('counts by the plural rules of the language', () => {
  expect(en.t('results.concerns', { count: 1 })).toBe('1 concern')
  expect(en.t('results.concerns', { count: 2 })).toBe('2 concerns')
  expect(de.t('dossiers.count', { count: 0 })).toBe('0 Vorgänge')
})
