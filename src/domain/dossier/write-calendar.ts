/**
 * Deadlines as an iCalendar file (RFC 5545), written by a library. Times are in UTC, so that no zone table has to travel along.
 * Must not name a person: what stands in a calendar is often shared.
 */
import ICAL from 'ical.js'
import type { Deadline } from '../dossier.ts'

export interface CalendarEntry {
  readonly deadline: Deadline
  /** One line: what is due, and of which dossier. */
  readonly summary: string
  readonly description: string
  readonly url: string | null
}

export interface CalendarOptions {
  /** ISO 8601 in UTC. */
  readonly now: string
  /** Minutes before the deadline at which the calendar reminds; none where empty. */
  readonly alarms: readonly number[]
}

/** RFC 5545, 3.7.3: a globally unique name of what wrote the file. */
const PRODUCT = '-//Touchstone//Deadlines//EN'

export function writeCalendar(entries: readonly CalendarEntry[], { now, alarms }: CalendarOptions): string {
  const calendar = new ICAL.Component('vcalendar')
  calendar.updatePropertyWithValue('version', '2.0')
  calendar.updatePropertyWithValue('prodid', PRODUCT)
  for (const { deadline, summary, description, url } of entries) {
    const event = new ICAL.Component('vevent')
    event.updatePropertyWithValue('uid', `${deadline.id}@touchstone`)
    event.updatePropertyWithValue('dtstamp', toUtc(now))
    // A point in time: without an end the event takes none (RFC 5545, 3.6.1).
    event.updatePropertyWithValue('dtstart', toUtc(deadline.at))
    event.updatePropertyWithValue('summary', summary)
    if (description !== '') event.updatePropertyWithValue('description', description)
    if (url !== null) event.updatePropertyWithValue('url', url)
    event.updatePropertyWithValue('transp', 'TRANSPARENT')
    for (const minutes of alarms) {
      const alarm = new ICAL.Component('valarm')
      alarm.updatePropertyWithValue('action', 'DISPLAY')
      alarm.updatePropertyWithValue('description', summary)
      alarm.updatePropertyWithValue('trigger', ICAL.Duration.fromSeconds(-60 * minutes))
      event.addSubcomponent(alarm)
    }
    calendar.addSubcomponent(event)
  }
  return `${calendar.toString()}\r\n`
}

/** RFC 5545 knows no fractions of a second. */
function toUtc(iso: string): ICAL.Time {
  return ICAL.Time.fromString(new Date(iso).toISOString().replace(/\.\d+Z$/, 'Z'), undefined as never)
}
