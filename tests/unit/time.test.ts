/** Points in time and spans out of text. Names of months are held against CLDR through `Intl.DateTimeFormat`. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { offsetMinutes, parseDuration, parseTime } from '../../src/domain/parse-time.ts'

const now = '2026-11-18T12:00:00Z'

describe('dates', () => {
  it('knows every month of the nine languages as CLDR writes it, long and short', () => {
    const unread: string[] = []
    for (const locale of ['en-GB', 'de', 'fr', 'es', 'it', 'nl', 'pl', 'pt', 'ja']) {
      for (const month of ['long', 'short'] as const) {
        const format = new Intl.DateTimeFormat(locale, { day: 'numeric', month, year: 'numeric', timeZone: 'UTC' })
        for (let index = 0; index < 12; index += 1) {
          const written = format.format(Date.UTC(2026, index, 17))
          const read = parseTime(written, { now, locale })
          if (read?.iso !== new Date(Date.UTC(2026, index, 17)).toISOString().slice(0, 10))
            unread.push(`${locale} ${written} → ${read?.iso}`)
        }
      }
    }
    expect(unread).toEqual([])
  })

  it.each([
    ['Sold 12 Nov 2026', 'en', 'past', '2026-11-12'],
    ['Mi. 18. Nov. 21:30 Uhr', 'de', 'future', '2026-11-18T20:30:00Z'],
    ['18 de noviembre de 2026 a las 21:00 (CET)', 'es', 'future', '2026-11-18T20:00:00Z'],
    ['Nov 18, 2026 8:00 PM PST', 'en-US', 'future', '2026-11-19T04:00:00Z'],
    ['18/11/2026 20:00', 'en-GB', 'future', '2026-11-18T20:00:00Z'],
    ['11/18/2026', 'en-US', 'past', '2026-11-18'],
    ['2026年11月18日 20時00分', 'ja', 'future', '2026-11-18T11:00:00Z'],
    ['2026-11-18T20:00:00+01:00', null, 'future', '2026-11-18T19:00:00Z'],
    ['1795032000', null, 'future', '2026-11-18T20:00:00Z'],
    ['morgen um 20:00', 'de', 'future', '2026-11-19T19:00:00Z'],
    ['hier à 14:20', 'fr', 'past', '2026-11-17T13:20:00Z'],
    ['ends in 2d 4h', 'en', 'future', '2026-11-20T16:00:00Z'],
    ['noch 3 Tage 5 Std. 12 Min.', 'de', 'future', '2026-11-21T17:12:00Z'],
    ['残り2日4時間', 'ja', 'future', '2026-11-20T16:00:00Z'],
    ['il y a 3 jours', 'fr', 'past', '2026-11-15'],
    ['3. Jan. 20:00 Uhr', 'de', 'future', '2027-01-03T19:00:00Z'],
  ] as const)('%s (%s)', (text, locale, direction, iso) => {
    expect(parseTime(text, { now, locale, direction })?.iso).toBe(iso)
  })

  it('says which zone it assumed, and assumes none that is named', () => {
    expect(parseTime('18.11.2026 20:00', { now, locale: 'de' })?.assumedZone).toBe('Europe/Berlin')
    expect(parseTime('18 Nov 2026 20:00 GMT', { now, locale: 'en' })?.assumedZone).toBeNull()
    expect(parseTime('18 Nov 2026 20:00', { now, locale: 'en' })?.assumedZone).toBe('UTC')
  })

  it('takes seasons, card numbers and measures for no dates', () => {
    for (const text of ['Card 12 of 50', '1931-32', 'No. 14', '63,5 × 88,9 mm', '30 g'])
      expect(parseTime(text, { now, locale: 'en' })).toBeNull()
  })

  it('keeps summer time (Berlin: +60 in January, +120 in July)', () => {
    expect(offsetMinutes('Europe/Berlin', Date.UTC(2026, 0, 15))).toBe(60)
    expect(offsetMinutes('Europe/Berlin', Date.UTC(2026, 6, 15))).toBe(120)
  })
})

describe('any text', () => {
  it('never throws, and gives valid ISO 8601', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'grapheme' }), fc.stringMatching(/^[0-9a-zA-Z:./, -]{0,50}$/)), (text) => {
        const time = parseTime(text, { now, locale: 'de' })
        if (time) expect(Number.isNaN(Date.parse(time.iso))).toBe(false)
        const span = parseDuration(text)
        if (span) expect(span.ms).toBeGreaterThanOrEqual(0)
      }),
    )
  })

  it('reads a written date back from any day', () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date('2020-01-01'), max: new Date('2035-12-31'), noInvalidDate: true }),
        fc.constantFrom('en-GB', 'de', 'fr', 'es', 'it', 'nl', 'pl', 'pt', 'ja'),
        (date, locale) => {
          const written = new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' }).format(date)
          expect(parseTime(written, { now, locale })?.iso).toBe(date.toISOString().slice(0, 10))
        },
      ),
    )
  })
})
