/**
 * Deadlines: stated in a zone, kept in UTC, and the usual periods that are offered, never assumed. Nothing here is legal advice:
 * each offer carries its source, and the screen says "check yours" beside it.
 */
import type { Deadline, DeadlineKind } from '../dossier.ts'
import { offsetMinutes } from '../parse-time.ts'

/** `local` as a date or date and time without zone (`2026-11-25` is the end of that day). `null`: no such date or zone. */
export function toInstant(local: string, zone: string): string | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2})(?::(\d{2}))?)?$/.exec(local)
  if (parts === null || !isZone(zone)) return null
  const [year, month, day, hour, minute, second] = (
    parts[4] === undefined ? [...parts.slice(1, 4), 23, 59, 59] : parts.slice(1)
  ).map((part) => Number(part ?? 0)) as [number, number, number, number, number, number]
  const asUtc = Date.UTC(year, month - 1, day, hour, minute, second)
  if (new Date(asUtc).getUTCDate() !== day || hour > 23 || minute > 59 || second > 59) return null
  return new Date(asUtc - offsetMinutes(zone, asUtc) * 60_000).toISOString()
}

export function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }) !== null
  } catch {
    return false
  }
}

/** The end of the day that lies so many days after `from`, in `zone`: the day itself is not counted. */
export function daysAfter(from: string, days: number, zone: string): string | null {
  if (!isZone(zone)) return null
  const at = Date.parse(from)
  if (Number.isNaN(at)) return null
  const day = new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(at)
  const later = new Date(`${day}T00:00:00Z`)
  later.setUTCDate(later.getUTCDate() + days)
  return toInstant(later.toISOString().slice(0, 10), zone)
}

export interface OfferedPeriod {
  readonly id: string
  readonly kind: DeadlineKind
  readonly days: number
  /** From which day it is usually counted. */
  readonly from: 'today' | 'decided' | 'arrived'
  /** Where the figure comes from; "common practice, no source" where it is only that. */
  readonly source: string
}

/** The sources were named from memory: the screen asks the buyer to check each. */
export const OFFERED_PERIODS: readonly OfferedPeriod[] = [
  { id: 'reply-3-days', kind: 'reply', days: 3, from: 'today', source: 'common practice, no source' },
  { id: 'payment-4-days', kind: 'payment', days: 4, from: 'decided', source: 'common practice, no source' },
  { id: 'arrival-14-days', kind: 'arrival', days: 14, from: 'decided', source: 'common practice, no source' },
  {
    id: 'arrival-30-days',
    kind: 'arrival',
    days: 30,
    from: 'decided',
    source:
      'Directive 2011/83/EU, Article 18(1): a trader delivers to a consumer within 30 days unless agreed otherwise',
  },
  { id: 'inspection-3-days', kind: 'inspection', days: 3, from: 'arrived', source: 'common practice, no source' },
  {
    id: 'return-14-days-eu',
    kind: 'return',
    days: 14,
    from: 'arrived',
    source:
      'Directive 2011/83/EU, Article 9: withdrawal within 14 days of receipt from a trader selling at a distance; not from a private seller, not at public auctions',
  },
  {
    id: 'return-14-days-uk',
    kind: 'return',
    days: 14,
    from: 'arrived',
    source: 'The Consumer Contracts Regulations 2013 (UK), regulation 30: 14 days after receipt from a trader',
  },
  { id: 'return-30-days', kind: 'return', days: 30, from: 'arrived', source: 'common practice, no source' },
  {
    id: 'dispute-60-days',
    kind: 'dispute',
    days: 60,
    from: 'decided',
    source: '15 U.S.C. § 1666(a) (US): billing error notice within 60 days of the card statement',
  },
  {
    id: 'dispute-120-days',
    kind: 'dispute',
    days: 120,
    from: 'decided',
    source: 'common practice, no source: card schemes',
  },
]

/** The day of reference for an offered period, and the deadline that comes of it; `null` where that day is not known yet. */
export function offerDeadline(
  period: OfferedPeriod,
  days: { readonly today: string; readonly decided: string | null; readonly arrived: string | null },
  zone: string,
  id: string,
): Deadline | null {
  const from = days[period.from]
  const at = from === null ? null : daysAfter(from, period.days, zone)
  return at === null ? null : { id, kind: period.kind, at, zone, from: 'offered', note: period.source }
}
