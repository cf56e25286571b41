/** Compares a reading with a fixture's expectation, field by field, as `tests/fixtures/README.md` says. */
import type { Listing, PageReading, ResultRow } from '../../src/domain/listing.ts'
import type { Money } from '../../src/domain/money.ts'

export interface ExpectedMoney {
  readonly amount: string
  readonly currency: string | null
}

export interface Outcome {
  readonly field: string
  /** `right`, `wrong` (a value, but not this one), `missing` (no value where one is stated), `invented` (a value where none is). */
  readonly result: 'right' | 'wrong' | 'missing' | 'invented'
  readonly wanted: unknown
  readonly got: unknown
  readonly source: string
}

const MONEY = new Set(['price', 'shipping', 'minimumIncrement'])
const TIMES = new Set(['endsAt', 'soldAt'])

const collapse = (text: unknown): string =>
  String(text)
    .replace(/[\s\u00a0]+/g, ' ')
    .trim()

export function isMoneyEqual(a: ExpectedMoney | null, b: Money | null): boolean {
  if (a === null || b === null) return a === b
  return Number(a.amount) === Number(b.amount) && a.currency === b.currency
}

function isTimeEqual(wanted: string, got: string, tolerance: number): boolean {
  if (/^\d{4}-\d{2}-\d{2}$/.test(wanted) || /^\d{4}-\d{2}-\d{2}$/.test(got))
    return wanted.slice(0, 10) === got.slice(0, 10)
  return Math.abs(Date.parse(wanted) - Date.parse(got)) <= tolerance
}

/** Relative times may differ by their smallest unit; a day is the largest that pages use. Absolute ones differ by nothing. */
const TIME_TOLERANCE = 3_600_000

export function compareField(field: string, wanted: unknown, got: unknown): boolean {
  if (wanted === null) return got === null || got === undefined
  if (got === null || got === undefined) return false
  if (MONEY.has(field)) return isMoneyEqual(wanted as ExpectedMoney, got as Money)
  if (TIMES.has(field)) return isTimeEqual(String(wanted), String(got), TIME_TOLERANCE)
  if (field === 'estimate') {
    const a = wanted as { low: ExpectedMoney; high: ExpectedMoney }
    const b = got as { low: Money; high: Money }
    return isMoneyEqual(a.low, b.low) && isMoneyEqual(a.high, b.high)
  }
  if (field === 'seller') {
    return Object.entries(wanted as Record<string, unknown>).every(([key, value]) => {
      const found = (got as Record<string, unknown>)[key]
      if (value === null) return found === null
      return typeof value === 'string' ? collapse(found) === collapse(value) : found === value
    })
  }
  if (field === 'photos') {
    const urls = (got as { url: string }[]).map((photo) => photo.url)
    const wantedUrls = (wanted as (string | { url: string })[]).map((photo) =>
      typeof photo === 'string' ? photo : photo.url,
    )
    return JSON.stringify(urls) === JSON.stringify(wantedUrls)
  }
  if (field === 'specifics') {
    const found = new Map(
      Object.entries(got as Record<string, string>).map(([key, value]) => [collapse(key), collapse(value)]),
    )
    return Object.entries(wanted as Record<string, string>).every(
      ([key, value]) => found.get(collapse(key)) === collapse(value),
    )
  }
  if (field === 'payments') {
    const fold = (list: unknown): string =>
      [...(list as string[])]
        .map((each) => collapse(each).toLowerCase())
        .sort()
        .join('|')
    return fold(wanted) === fold(got)
  }
  if (field === 'categories')
    return JSON.stringify((wanted as string[]).map(collapse)) === JSON.stringify((got as string[]).map(collapse))
  if (field === 'language')
    return String(wanted).split(/[-_]/)[0]!.toLowerCase() === String(got).split(/[-_]/)[0]!.toLowerCase()
  if (typeof wanted === 'string') return collapse(wanted) === collapse(got)
  return wanted === got
}

export function compareListing(expected: Record<string, unknown>, reading: PageReading): Outcome[] {
  const outcomes: Outcome[] = []
  if (reading.kind !== expected.kind) {
    outcomes.push({ field: 'kind', result: 'wrong', wanted: expected.kind, got: reading.kind, source: '-' })
    if (reading.kind !== 'listing') {
      for (const [field, wanted] of Object.entries(expected)) {
        if (field !== 'kind' && wanted !== null)
          outcomes.push({ field, result: 'missing', wanted, got: null, source: '-' })
      }
      return outcomes
    }
  } else outcomes.push({ field: 'kind', result: 'right', wanted: expected.kind, got: reading.kind, source: '-' })
  const listing = reading as Listing
  for (const [field, wanted] of Object.entries(expected)) {
    if (field === 'kind') continue
    const got = listing[field as keyof Listing] as unknown
    const source = listing.provenance[field]?.from ?? '-'
    const empty = got === null || got === undefined || (Array.isArray(got) && got.length === 0)
    const wantsNothing = wanted === null || (Array.isArray(wanted) && wanted.length === 0)
    if (compareField(field, wanted, got)) outcomes.push({ field, result: 'right', wanted, got, source })
    else outcomes.push({ field, result: wantsNothing ? 'invented' : empty ? 'missing' : 'wrong', wanted, got, source })
  }
  return outcomes
}

export interface RowsOutcome {
  readonly wanted: number
  readonly found: number
  /** Wanted rows that were found (by address, else by title). */
  readonly matched: number
  readonly fields: readonly Outcome[]
}

export function compareRows(expected: readonly Record<string, unknown>[], rows: readonly ResultRow[]): RowsOutcome {
  const fields: Outcome[] = []
  const left = [...rows]
  let matched = 0
  for (const wanted of expected) {
    const at = left.findIndex((row) =>
      typeof wanted.url === 'string' ? row.url === wanted.url : collapse(row.title) === collapse(wanted.title),
    )
    const row = at >= 0 ? left[at]! : null
    if (row) {
      matched += 1
      left.splice(at, 1)
    }
    for (const [field, value] of Object.entries(wanted)) {
      if (field === 'url') continue
      const got = row ? (row as unknown as Record<string, unknown>)[field] : null
      const fits =
        row !== null &&
        (field === 'seller'
          ? value === null
            ? got === null
            : collapse(got) === collapse(value)
          : compareField(field, value, got))
      fields.push({
        field: `row.${field}`,
        result: fits ? 'right' : value === null ? 'invented' : got === null || got === undefined ? 'missing' : 'wrong',
        wanted: value,
        got,
        source: 'page',
      })
    }
  }
  return { wanted: expected.length, found: rows.length, matched, fields }
}
