/** The time, as every record carries it. The only place that asks for it. */

/** ISO 8601 in UTC, to the millisecond. */
export function now(): string {
  return new Date().toISOString()
}
