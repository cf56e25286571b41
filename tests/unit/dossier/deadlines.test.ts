import ical from 'ical'
import { describe, expect, it } from 'vitest'
import { arrivalSteps, tallyArrival } from '../../../src/domain/dossier/arrival.ts'
import { daysAfter, OFFERED_PERIODS, offerDeadline, toInstant } from '../../../src/domain/dossier/deadlines.ts'
import { writeCalendar } from '../../../src/domain/dossier/write-calendar.ts'

describe('a time stated in a zone', () => {
  // Berlin leaves summer time on 2026-10-25 at 03:00; UTC+2 before, UTC+1 after (IANA time zone database).
  it.each([
    ['2026-10-24T12:00', 'Europe/Berlin', '2026-10-24T10:00:00.000Z'],
    ['2026-10-26T12:00', 'Europe/Berlin', '2026-10-26T11:00:00.000Z'],
    ['2026-11-25', 'Asia/Tokyo', '2026-11-25T14:59:59.000Z'],
    ['2026-07-01T09:30:15', 'America/St_Johns', '2026-07-01T12:00:15.000Z'],
  ])('%s in %s is %s', (local, zone, at) => expect(toInstant(local, zone)).toBe(at))

  it.each([
    ['2026-02-30', 'UTC'],
    ['2026-02-20T25:00', 'UTC'],
    ['tomorrow', 'UTC'],
    ['2026-02-20', 'Nowhere/Land'],
  ])('%s in %s is no time', (local, zone) => expect(toInstant(local, zone)).toBeNull())

  it('counts whole days in the zone, over a change of the clocks', () => {
    expect(daysAfter('2026-10-20T22:30:00Z', 14, 'Europe/Berlin')).toBe('2026-11-04T22:59:59.000Z')
  })
})

describe('the usual periods', () => {
  it('each name a source, and none is set without a day to count from', () => {
    for (const period of OFFERED_PERIODS) expect(period.source).not.toBe('')
    const days = { today: '2026-11-25T10:00:00.000Z', decided: null, arrived: '2026-11-20T10:00:00.000Z' }
    const offered = OFFERED_PERIODS.map((period) => offerDeadline(period, days, 'Europe/Berlin', period.id))
    expect(offered.find((one) => one?.id === 'return-14-days-eu')).toMatchObject({
      at: '2026-12-04T22:59:59.000Z',
      from: 'offered',
    })
    expect(OFFERED_PERIODS.filter((period, index) => period.from === 'decided' && offered[index] !== null)).toEqual([])
  })
})

describe('the calendar file', () => {
  const entry = {
    deadline: {
      id: 'd1',
      kind: 'return',
      at: '2026-12-04T22:59:59.000Z',
      zone: 'Europe/Berlin',
      from: 'offered',
      note: '',
    },
    summary:
      'Return: Grey Petrel; „Möwe“, no. 12 – a title that is much longer than the seventy-five octets a line may have',
    description: 'First line\nsecond, with a comma; and \\ a backslash',
    url: 'https://quayside.example/lot/7?a=1,2',
  } as const

  it('is read back by an independent reader', () => {
    const text = writeCalendar([entry], { now: '2026-11-25T19:00:00.000Z', alarms: [1440] })
    const read = Object.values(ical.parseICS(text)).find((component) => component.type === 'VEVENT')
    expect(read).toMatchObject({
      uid: 'd1@touchstone',
      summary: entry.summary,
      description: entry.description,
      url: entry.url,
    })
    expect(new Date(read?.start ?? 0).toISOString()).toBe(entry.deadline.at)
  })

  it('keeps to the form: CRLF, lines of at most 75 octets, the required properties', () => {
    const text = writeCalendar([entry], { now: '2026-11-25T19:00:00.000Z', alarms: [1440] })
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
    for (const line of [
      'VERSION:2.0',
      'DTSTAMP:20261125T190000Z',
      'DTSTART:20261204T225959Z',
      'TRIGGER:-P1D',
      'END:VCALENDAR',
    ])
      expect(text).toContain(`\r\n${line}\r\n`)
  })
})

describe('the arrival check', () => {
  it('goes through what the piece has', () => {
    const raw = arrivalSteps('raw').map(({ id }) => id)
    expect(raw).toContain('thickness')
    expect(raw).not.toContain('holder-sound')
    expect(arrivalSteps('encapsulated').map(({ id }) => id)).not.toContain('thickness')
  })
  it('counts what was done by its latest finding', () => {
    const finding = (step: string, found: 'as-listed' | 'differs' | 'not-done') => ({
      step,
      finding: found,
      note: '',
      measured: null,
      photos: [],
    })
    const tally = tallyArrival(arrivalSteps('raw'), [
      finding('width', 'as-listed'),
      finding('width', 'differs'),
      finding('height', 'not-done'),
    ])
    expect(tally).toMatchObject({ done: 1, differs: ['width'] })
  })
})
