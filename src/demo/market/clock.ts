/**
 * The market's clock. Ends and sales are stored as distances from "now", so that a demo started on any day has auctions
 * that still run. Tests pass `DEMO_NOW`; the server passes the real time.
 */

/** The fixed now of tests, expectations and drawn dated notes. */
export const DEMO_NOW = '2026-11-25T09:00:00.000Z'

const HOUR = 3_600_000

/** ISO 8601 in UTC, `hours` after (or, negative, before) `now`, on a full minute. */
export function shiftHours(now: string, hours: number): string {
  const at = new Date(now).getTime() + hours * HOUR
  return new Date(Math.floor(at / 60_000) * 60_000).toISOString().replace('.000Z', 'Z')
}

/** ISO 8601 date, `days` before `now`. */
export function dateBefore(now: string, days: number): string {
  return new Date(new Date(now).getTime() - days * 24 * HOUR).toISOString().slice(0, 10)
}
