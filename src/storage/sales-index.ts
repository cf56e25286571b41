/**
 * How one claim's sales are found among 500,000: segments of sales in the order in which they came, and for each word and segment the
 * places where it stands. Derived from the `sales` store and rebuilt from it. Must not judge a sale.
 */
import { type IDBPTransaction, unwrap } from 'idb'
import { indexWords } from '../domain/pricing/index-words.ts'
import { sameSaleKey } from '../domain/pricing/same-sale.ts'
import type { Database, SaleRecord, SaleSegmentRecord, SaleWordRecord, TouchstoneSchema } from './database.ts'

/** Sales a segment: places fit sixteen bits, and a segment's words fit the memory of any machine. */
export const SEGMENT_SIZE = 16_384
/** The day of a sale that does not count by itself. */
export const GONE_DAY = -0x80000000

export type LedgerTransaction = IDBPTransaction<
  TouchstoneSchema,
  ('sales' | 'saleSegments' | 'saleWords' | 'saleImports')[],
  'readwrite'
>
export type Span = readonly [segment: number, from: number, count: number]

const ID = /^sale-([0-9a-f]{16})$/

/** The id's hex digits as a number; `null` where the id is not made of a sale's content. */
export function idBits(id: string): bigint | null {
  const hex = ID.exec(id)?.[1]
  return hex === undefined ? null : BigInt(`0x${hex}`)
}

export function idOfBits(bits: bigint): string {
  return `sale-${bits.toString(16).padStart(16, '0')}`
}

/** FNV-1a, 32 bits (draft-eastlake-fnv). */
export function sumOf(text: string): number {
  let sum = 0x811c9dc5
  for (let i = 0; i < text.length; i++) sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193)
  return sum >>> 0
}

export function dayNumber(date: string): number {
  return Math.round(Date.parse(`${date.slice(0, 10)}T00:00:00Z`) / 86_400_000)
}

export function visibleDay({ date, deletedAt, mergedInto }: SaleRecord): number {
  return deletedAt === null && mergedInto == null ? dayNumber(date) : GONE_DAY
}

function grown(segment: SaleSegmentRecord, count: number): SaleSegmentRecord {
  const ids = new BigUint64Array(count)
  const days = new Int32Array(count)
  const sums = new Uint32Array(count)
  ids.set(segment.ids)
  days.set(segment.days)
  sums.set(segment.sums)
  return { segment: segment.segment, count, ids, days, sums }
}

function emptySegment(segment: number): SaleSegmentRecord {
  return { segment, count: 0, ids: new BigUint64Array(), days: new Int32Array(), sums: new Uint32Array() }
}

/**
 * Gives sales their places and writes what finds them; the sales themselves are written by the caller, in the same transaction.
 * @param dayOf the day under which each is listed, or `GONE_DAY`.
 */
export async function appendToIndex(
  transaction: LedgerTransaction,
  sales: readonly SaleRecord[],
  dayOf: (sale: SaleRecord) => number,
): Promise<Span[]> {
  const segments = transaction.objectStore('saleSegments')
  const words = unwrap(transaction.objectStore('saleWords')) as unknown as IDBObjectStore
  const last = await segments.openCursor(null, 'prev')
  let current = last?.value ?? emptySegment(0)
  const spans: Span[] = []
  for (let from = 0; from < sales.length; ) {
    if (current.count >= SEGMENT_SIZE) current = emptySegment(current.segment + 1)
    const part = sales.slice(from, from + SEGMENT_SIZE - current.count)
    const start = current.count
    const next = grown(current, start + part.length)
    const places = new Map<string, number[]>()
    part.forEach((sale, i) => {
      const place = start + i
      next.ids[place] = idBits(sale.id) ?? 0n
      next.days[place] = dayOf(sale)
      next.sums[place] = sumOf(sameSaleKey(sale))
      for (const word of indexWords(sale)) {
        const known = places.get(word)
        if (known === undefined) places.set(word, [place])
        else known.push(place)
      }
    })
    if (start === 0) {
      for (const [word, added] of places) words.put({ word, segment: next.segment, places: Uint16Array.from(added) })
    } else await appendPlaces(words, next.segment, places)
    await segments.put(next)
    spans.push([next.segment, start, part.length])
    current = next
    from += part.length
  }
  return spans
}

function appendPlaces(words: IDBObjectStore, segment: number, places: Map<string, number[]>): Promise<void> {
  return new Promise((resolve, reject) => {
    let left = places.size
    if (left === 0) resolve()
    for (const [word, added] of places) {
      const request = words.get([word, segment])
      request.onerror = () => reject(request.error)
      request.onsuccess = () => {
        const before = (request.result as SaleWordRecord | undefined)?.places ?? new Uint16Array()
        const all = new Uint16Array(before.length + added.length)
        all.set(before)
        all.set(added, before.length)
        words.put({ word, segment, places: all })
        if (--left === 0) resolve()
      }
    }
  })
}

/** Where a word stands. */
export async function readPlaces(database: Database, word: string): Promise<SaleWordRecord[]> {
  return database.getAll('saleWords', IDBKeyRange.bound([word, 0], [word, Number.MAX_SAFE_INTEGER]))
}

/** Where any word with this beginning stands. */
export async function readPlacesFrom(database: Database, beginning: string): Promise<SaleWordRecord[]> {
  return database.getAll('saleWords', IDBKeyRange.bound([beginning], [`${beginning}\uffff`, Number.MAX_SAFE_INTEGER]))
}

export function flagged(...lists: readonly (readonly SaleWordRecord[])[]): Map<number, Uint8Array> {
  const flags = new Map<number, Uint8Array>()
  for (const list of lists) {
    for (const { segment, places } of list) {
      let here = flags.get(segment)
      if (here === undefined) {
        here = new Uint8Array(SEGMENT_SIZE)
        flags.set(segment, here)
      }
      for (const place of places) here[place] = 1
    }
  }
  return flags
}

/** The rarest list first, so that each further one has fewer left to look at. */
export function intersect(lists: readonly (readonly SaleWordRecord[])[]): Map<number, Uint16Array> {
  const size = (list: readonly SaleWordRecord[]) => list.reduce((sum, { places }) => sum + places.length, 0)
  const [first = [], ...others] = [...lists].sort((a, b) => size(a) - size(b))
  const left = new Map(first.map(({ segment, places }) => [segment, places]))
  for (const list of others) {
    const flags = new Map(
      list.filter(({ segment }) => left.has(segment)).map((row) => [row.segment, flagged([row]).get(row.segment)]),
    )
    for (const [segment, places] of left) {
      const here = flags.get(segment)
      const kept = here === undefined ? new Uint16Array() : places.filter((place) => here[place] === 1)
      if (kept.length === 0) left.delete(segment)
      else left.set(segment, kept)
    }
  }
  return left
}

/** Many records by key in one transaction, in the order of the keys; those that are not there are left out. */
export function readMany(database: Database, ids: readonly string[]): Promise<SaleRecord[]> {
  if (ids.length === 0) return Promise.resolve([])
  return new Promise((resolve, reject) => {
    const store = unwrap(database).transaction('sales', 'readonly').objectStore('sales')
    const records = new Array<SaleRecord | undefined>(ids.length)
    let left = ids.length
    ids.forEach((id, i) => {
      const request = store.get(id)
      request.onerror = () => reject(request.error)
      request.onsuccess = () => {
        records[i] = request.result as SaleRecord | undefined
        if (--left === 0) resolve(records.filter((record) => record !== undefined))
      }
    })
  })
}
