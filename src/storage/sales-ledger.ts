/**
 * The ledger of sales: adding, listing, finding a claim's candidates, folding together what is one sale, taking a file back whole. Every
 * change of a sale and of what finds it is one transaction. Must not decide what a sale says.
 * Long because all its changes share that transaction: taken apart, a sale could be written without what finds it.
 */
import { unwrap } from 'idb'
import type { Claim } from '../domain/claim.ts'
import { askOf, NAME_MARK, NUMBER_STATED, searchWords, YEAR_STATED } from '../domain/pricing/index-words.ts'
import { cardWords, wordsOf } from '../domain/pricing/same-card.ts'
import { DAYS_APART, isSameSale, sameSaleKey } from '../domain/pricing/same-sale.ts'
import type { Sale } from '../domain/valuation.ts'
import { announce, watchRecords } from './changes.ts'
import type { Database, SaleImportRecord, SaleRecord, SaleSegmentRecord, SaleWordRecord } from './database.ts'
import { namedFault } from './faults.ts'
import type { Stamps } from './records.ts'
import {
  appendToIndex,
  dayNumber,
  flagged,
  GONE_DAY,
  idBits,
  idOfBits,
  intersect,
  type LedgerTransaction,
  readMany,
  readPlaces,
  readPlacesFrom,
  SEGMENT_SIZE,
  type Span,
  sumOf,
  visibleDay,
} from './sales-index.ts'

/** A claim's sales beyond this many newest add nothing but time. Ours. */
export const MOST_CANDIDATES = 5_000
/** Sales of other cards of a set: the ladder of grades needs some of each grade, not all. Ours. */
const MOST_MATES = 150
/** Records kept at hand for the next look at the same card. */
const MOST_CACHED = 20_000
/** From so many on, it pays to leave out titles that state another number. */
const NARROW_FROM = 50

export interface Added {
  readonly added: number
  /** In the ledger already. */
  readonly known: number
  /** Found to be a sale that another source had told already, and folded into it. */
  readonly merged: number
}

export interface Candidates {
  readonly sales: readonly Sale[]
  /** For weighing words by rarity: sales at hand, and in how many of them a word stands. */
  readonly frequencies: () => { readonly sales: number; readonly count: (word: string) => number }
  /** Sales whose words fit; of very many only the newest are among `sales`. */
  readonly fitting: number
  /** Sales in the ledger. */
  readonly total: number
}

export interface ImportJob {
  readonly name: string
  /** Sum of the file's content. */
  readonly file: string
  readonly signal: AbortSignal
}

const LEDGER_STORES = ['sales', 'saleSegments', 'saleWords', 'saleImports'] as const

export function createLedger(database: Database, stamps: Stamps, signal?: AbortSignal) {
  let segments: Promise<readonly SaleSegmentRecord[]> | null = null
  const cached = new Map<string, SaleRecord>()

  function forget(): void {
    segments = null
    cached.clear()
  }
  if (signal !== undefined) {
    watchRecords(({ store }) => {
      if (store === 'sales') forget()
    }, signal)
  }
  function changed(id: string | null): void {
    forget()
    announce({ store: 'sales', id })
  }

  async function readSegments(): Promise<readonly SaleSegmentRecord[]> {
    segments ??= (async () => {
      const present = await database.getAll('saleSegments')
      if (present.length > 0 || (await database.getKey('sales', IDBKeyRange.lowerBound(''))) === undefined)
        return present
      await alone('touchstone-ledger', rebuild)
      return database.getAll('saleSegments')
    })()
    try {
      const all = await segments
      // Nothing yet: whatever is written next, by whomever, is looked for again.
      if (all.length === 0) segments = null
      return all
    } catch (error) {
      segments = null
      throw error
    }
  }

  /** From the sales themselves: after an older version, and after a backup was restored. */
  async function rebuild(): Promise<void> {
    if ((await database.count('saleSegments')) > 0) return
    let after: string | null = null
    for (;;) {
      const range: IDBKeyRange | null = after === null ? null : IDBKeyRange.lowerBound(after, true)
      const some: SaleRecord[] = await database.getAll('sales', range, SEGMENT_SIZE)
      if (some.length === 0) return
      after = (some.at(-1) as SaleRecord).id
      await write((transaction) =>
        appendToIndex(
          transaction,
          some.filter(({ id }) => idBits(id) !== null),
          visibleDay,
        ),
      )
    }
  }

  async function write<T>(work: (transaction: LedgerTransaction) => Promise<T>): Promise<T> {
    const transaction = database.transaction([...LEDGER_STORES], 'readwrite') as LedgerTransaction
    try {
      const result = await work(transaction)
      await transaction.done
      return result
    } catch (error) {
      try {
        transaction.abort()
      } catch {
        // Already finished or already aborted.
      }
      await transaction.done.catch(() => {})
      throw namedFault(error)
    }
  }

  async function fetch(ids: readonly string[]): Promise<SaleRecord[]> {
    const missing = ids.filter((id) => !cached.has(id))
    if (cached.size + missing.length > MOST_CACHED) cached.clear()
    const wanted = cached.size === 0 ? ids : missing
    for (const record of await readMany(database, wanted)) cached.set(record.id, record)
    return ids.flatMap((id) => cached.get(id) ?? [])
  }

  /** Ids at places, the newest first, those that are gone left out. */
  function newest(
    all: readonly SaleSegmentRecord[],
    places: ReadonlyMap<number, Uint16Array>,
    most: number,
  ): { ids: string[] } {
    const found: { bits: bigint; day: number }[] = []
    for (const { segment, ids, days } of all) {
      for (const place of places.get(segment) ?? []) {
        const day = days[place] as number
        if (day !== GONE_DAY) found.push({ bits: ids[place] as bigint, day })
      }
    }
    if (found.length > most) found.sort((a, b) => b.day - a.day)
    return { ids: found.slice(0, most).map(({ bits }) => idOfBits(bits)) }
  }

  async function readFlags(words: readonly string[]): Promise<ReadonlyMap<number, Uint8Array>[]> {
    const lists = await Promise.all(words.map((word) => readPlaces(database, word)))
    return lists.map((rows) => flagged(rows))
  }

  const sizeOf = (rows: readonly SaleWordRecord[]) => rows.reduce((sum, { places }) => sum + places.length, 0)

  async function findCandidates(claim: Claim, title: string | null, most = MOST_CANDIDATES): Promise<Candidates> {
    const asked = askOf(claim, title)
    const all = await readSegments()
    const total = all.reduce((sum, { count }) => sum + count, 0)
    if (asked === null || total === 0)
      return { sales: [], frequencies: () => ({ sales: total, count: () => 0 }), fitting: 0, total }
    const [every, some] = await Promise.all([
      Promise.all(asked.every.map((word) => readPlaces(database, word))),
      Promise.all(asked.some.map((word) => readPlaces(database, word))),
    ])
    const counts = new Map(asked.some.map((word, i) => [word, sizeOf(some[i] as SaleWordRecord[])]))
    const frequencies = () => ({
      sales: total,
      count: (word: string) => counts.get(word.replace(/^0+(?=\d)/, '')) ?? 0,
    })
    let places = intersect(every)
    if (asked.some.length > 0) {
      // Only titles that hold two of the telling words, or the only one, can match.
      const words = cardWords(claim, title, frequencies).most
      const telling = words.map(({ word }) => some[asked.some.indexOf(word)] ?? [])
      const needed = Math.min(2, telling.length)
      const flags = telling.map((rows) => flagged(rows))
      places = keep(places, (segment, place) => {
        let found = 0
        for (const here of flags) if (here.get(segment)?.[place] === 1 && ++found >= needed) return true
        return false
      })
    } else if (sizeIn(places) > NARROW_FROM) {
      if (asked.number.length > 0) places = narrow(places, await readFlags([NUMBER_STATED, ...asked.number]), 'all')
      if (asked.years.length > 0) places = narrow(places, await readFlags([YEAR_STATED, ...asked.years]), 'any')
    }
    return { sales: await fetch(newest(all, places, most).ids), frequencies, fitting: sizeIn(places), total }
  }

  /** Lately sold cards of the claim's set. */
  async function findMates(claim: Claim): Promise<readonly Sale[]> {
    const words = wordsOf(claim.set)
    if (words.length === 0) return []
    const places = intersect(
      await Promise.all(words.map((word) => readPlaces(database, word.replace(/^0+(?=\d)/, '')))),
    )
    return fetch(newest(await readSegments(), places, MOST_MATES).ids)
  }

  /** Every place in the ledger's order, the newest first; of a search those where each word begins a word. */
  async function list(query = ''): Promise<Uint32Array> {
    const all = await readSegments()
    const words = searchWords(query)
    const found =
      words.length === 0
        ? null
        : await Promise.all(
            words.map(async (word) =>
              flagged(await readPlacesFrom(database, word), await readPlacesFrom(database, NAME_MARK + word)),
            ),
          )
    const total = all.reduce((sum, { count }) => sum + count, 0)
    // Day and place in one number that sorts natively: places stay below 2^25 (33 million sales), days below 2^24.
    const keys = new Float64Array(total)
    let used = 0
    for (const { segment, count, days } of all) {
      const flags = found?.map((each) => each.get(segment))
      if (flags?.some((each) => each === undefined)) continue
      for (let place = 0; place < count; place++) {
        const day = days[place] as number
        if (day === GONE_DAY || flags?.some((each) => each?.[place] !== 1)) continue
        keys[used++] = day * 2 ** 25 + segment * SEGMENT_SIZE + place
      }
    }
    const sorted = keys.subarray(0, used).sort()
    const order = new Uint32Array(used)
    for (let i = 0; i < used; i++) {
      const key = sorted[used - 1 - i] as number
      order[i] = key - Math.floor(key / 2 ** 25) * 2 ** 25
    }
    return order
  }

  async function read(places: readonly number[]): Promise<SaleRecord[]> {
    const all = await readSegments()
    return fetch(
      places.flatMap((at) => {
        const bits = all[Math.floor(at / SEGMENT_SIZE)]?.ids[at % SEGMENT_SIZE]
        return bits === undefined ? [] : [idOfBits(bits)]
      }),
    )
  }

  /** Of new sales, those that another source had told already, by the record that they belong to. */
  async function findSame(fresh: readonly Sale[]): Promise<Map<string, string>> {
    const bySum = new Map<number, Sale[]>()
    for (const sale of fresh) {
      const sum = sumOf(sameSaleKey(sale))
      bySum.set(sum, [...(bySum.get(sum) ?? []), sale])
    }
    const pairs: { sale: Sale; id: string }[] = []
    for (const { ids, days, sums, count } of await readSegments()) {
      for (let place = 0; place < count; place++) {
        const near = bySum.get(sums[place] as number)
        if (near === undefined || days[place] === GONE_DAY) continue
        for (const sale of near) {
          if (Math.abs(dayNumber(sale.date) - (days[place] as number)) > DAYS_APART) continue
          pairs.push({ sale, id: idOfBits(ids[place] as bigint) })
        }
      }
    }
    const records = new Map(
      (await readMany(database, [...new Set(pairs.map(({ id }) => id))])).map((record) => [record.id, record]),
    )
    const same = new Map<string, string>()
    for (const { sale, id } of pairs) {
      const record = records.get(id)
      if (record !== undefined && !same.has(sale.id) && isSameSale(sale, record)) same.set(sale.id, id)
    }
    return same
  }

  function recordOf(sale: Sale, now: string, mergedInto: string | null): SaleRecord {
    const merged = mergedInto === null ? {} : { mergedInto }
    return { ...sale, ...merged, revision: 1, createdAt: now, updatedAt: now, deletedAt: null }
  }

  /** Puts sales that are not there yet and folds the known ones in. `dayOf` says under which day each is listed. */
  async function put(
    transaction: LedgerTransaction,
    sales: readonly Sale[],
    same: ReadonlyMap<string, string>,
    dayOf: (sale: SaleRecord) => number,
  ): Promise<Span[]> {
    const now = stamps.now()
    const store = unwrap(transaction.objectStore('sales')) as unknown as IDBObjectStore
    const records = sales.map((sale) => recordOf(sale, now, same.get(sale.id) ?? null))
    for (const record of records) store.put(record)
    for (const [other, into] of same) {
      const kept = await transaction.objectStore('sales').get(into)
      if (kept !== undefined)
        store.put({ ...kept, merged: [...(kept.merged ?? []), other], revision: kept.revision + 1, updatedAt: now })
    }
    return appendToIndex(transaction, records, dayOf)
  }

  /** Adds some sales, all or none. What was deleted before is back. */
  async function add(drafts: readonly Sale[]): Promise<Added> {
    const unique = [...new Map(drafts.map((sale) => [sale.id, sale])).values()]
    await readSegments()
    const present = new Map(
      (
        await readMany(
          database,
          unique.map(({ id }) => id),
        )
      ).map((record) => [record.id, record]),
    )
    const back = unique.filter(({ id }) => present.get(id)?.deletedAt != null)
    const fresh = unique.filter(({ id }) => !present.has(id))
    const same = await findSame(fresh)
    await write(async (transaction) => {
      await put(transaction, fresh, same, visibleDay)
    })
    changed(null)
    for (const { id } of back) await restore(id)
    return {
      added: fresh.length - same.size + back.length,
      known: drafts.length - fresh.length - back.length,
      merged: same.size,
    }
  }

  /**
   * A file's sales, batch by batch; nothing of it is seen before all of it is in, and a cancelled or failed one is taken back.
   * @param batches each of at most `SEGMENT_SIZE` sales.
   */
  async function importSales(
    batches: AsyncIterable<readonly Sale[]>,
    { name, file, signal: cancel }: ImportJob,
  ): Promise<Added & { readonly id: string }> {
    const id = stamps.newId()
    return alone('touchstone-import', async () => {
      const known = await sortedIds((day) => day !== GONE_DAY)
      const folded = await sortedIds((day) => day === GONE_DAY)
      let job: SaleImportRecord = { id, name, file, at: stamps.now(), state: 'running', added: 0, spans: [] }
      await database.put('saleImports', job)
      const days: Int32Array[] = []
      const totals = { added: 0, known: 0, merged: 0 }
      const seen = new Set<string>()
      try {
        for await (const batch of batches) {
          cancel.throwIfAborted()
          const unknown = batch.filter((sale) => !seen.has(sale.id) && !isKnown(known, sale.id))
          // Folded into another record before: known, though not listed by itself.
          const gone = unknown.filter((sale) => isKnown(folded, sale.id)).map(({ id: each }) => each)
          const kept = new Set(
            (await readMany(database, gone)).filter(({ deletedAt }) => deletedAt === null).map((record) => record.id),
          )
          const fresh = unknown.filter((sale) => !kept.has(sale.id))
          for (const sale of fresh) seen.add(sale.id)
          const same = await findSame(fresh)
          const spans = await write(async (transaction) => {
            const written = await put(transaction, fresh, same, () => GONE_DAY)
            job = { ...job, added: job.added + fresh.length, spans: [...job.spans, ...written] }
            await transaction.objectStore('saleImports').put(job)
            return written
          })
          let from = 0
          for (const [, , count] of spans) {
            const part = fresh.slice(from, from + count)
            days.push(Int32Array.from(part, (sale) => (same.has(sale.id) ? GONE_DAY : dayNumber(sale.date))))
            from += count
          }
          totals.added += fresh.length - same.size
          totals.merged += same.size
          totals.known += batch.length - fresh.length
        }
        cancel.throwIfAborted()
        await write(async (transaction) => {
          await setDays(transaction, job.spans, (span) => days[span] as Int32Array)
          await transaction.objectStore('saleImports').put({ ...job, state: 'done' })
        })
      } catch (error) {
        await undo(job)
        changed(null)
        throw error
      }
      changed(null)
      return { id, ...totals }
    })
  }

  async function setDays(
    transaction: LedgerTransaction,
    spans: readonly Span[],
    daysOf: (span: number, segment: SaleSegmentRecord) => Int32Array,
  ): Promise<void> {
    const store = transaction.objectStore('saleSegments')
    for (let i = 0; i < spans.length; i++) {
      const [number, from] = spans[i] as Span
      const segment = await store.get(number)
      if (segment === undefined) continue
      segment.days.set(daysOf(i, segment), from)
      await store.put(segment)
    }
  }

  async function sortedIds(wanted: (day: number) => boolean): Promise<BigUint64Array> {
    const all = await readSegments()
    const ids = new BigUint64Array(all.reduce((sum, { count }) => sum + count, 0))
    let at = 0
    for (const { ids: here, days } of all) {
      for (let place = 0; place < here.length; place++)
        if (wanted(days[place] as number)) ids[at++] = here[place] as bigint
    }
    return ids.subarray(0, at).sort()
  }

  /** Takes a file's sales out of the ledger, as if it had never been added. */
  async function undo(job: SaleImportRecord): Promise<void> {
    for (const span of job.spans) {
      await write(async (transaction) => {
        const [number, from, count] = span
        const segment = await transaction.objectStore('saleSegments').get(number)
        if (segment === undefined) return
        const store = unwrap(transaction.objectStore('sales')) as unknown as IDBObjectStore
        for (let place = from; place < from + count; place++) {
          store.delete(idOfBits(segment.ids[place] as bigint))
          segment.ids[place] = 0n
          segment.days[place] = GONE_DAY
        }
        await transaction.objectStore('saleSegments').put(segment)
      })
    }
    await database.put('saleImports', { ...job, spans: [], state: 'taken-back' })
  }

  async function takeBack(id: string): Promise<void> {
    const job = await database.get('saleImports', id)
    if (job !== undefined) await undo(job)
    changed(null)
  }

  /** Files that were not finished when their window closed. */
  async function recover(): Promise<number> {
    const open = (await database.getAll('saleImports')).filter(({ state }) => state === 'running')
    if (open.length === 0) return 0
    return alone('touchstone-import', async () => {
      const still = (await database.getAll('saleImports')).filter(({ state }) => state === 'running')
      for (const job of still) await undo(job)
      if (still.length > 0) changed(null)
      return still.length
    })
  }

  /** Changes one record and under which day it is listed. */
  async function change(id: string, next: (current: SaleRecord) => SaleRecord): Promise<SaleRecord> {
    await readSegments()
    const record = await write((transaction) => changeIn(transaction, id, next))
    changed(id)
    return record
  }

  async function changeIn(
    transaction: LedgerTransaction,
    id: string,
    next: (current: SaleRecord) => SaleRecord,
  ): Promise<SaleRecord> {
    const store = transaction.objectStore('sales')
    const current = await store.get(id)
    if (current === undefined) throw new Error(`sales has no record ${id}`)
    const record = { ...next(current), id, revision: current.revision + 1, updatedAt: stamps.now() }
    await store.put(record)
    const bits = idBits(id)
    if (bits === null) return record
    let cursor = await transaction.objectStore('saleSegments').openCursor(null, 'prev')
    for (; cursor; cursor = await cursor.continue()) {
      const place = cursor.value.ids.lastIndexOf(bits)
      if (place < 0) continue
      cursor.value.days[place] = visibleDay(record)
      await cursor.update(cursor.value)
      break
    }
    return record
  }

  function restore(id: string): Promise<SaleRecord> {
    return change(id, (current) => ({ ...current, deletedAt: null }))
  }

  return {
    add,
    importSales,
    takeBack,
    recover,
    findCandidates,
    findMates,
    list,
    read,
    restore,
    /** Whether a sale is in the ledger, for many ids at once. */
    async createKnown(): Promise<(id: string) => boolean> {
      const ids = await sortedIds((day) => day !== GONE_DAY)
      return (id) => isKnown(ids, id)
    },
    async get(id: string): Promise<SaleRecord | null> {
      return (await database.get('sales', id)) ?? null
    },
    async getMany(ids: readonly string[]): Promise<SaleRecord[]> {
      return fetch(ids)
    },
    async count(): Promise<number> {
      return (await readSegments()).reduce(
        (sum, { days }) => days.reduce((here, day) => (day === GONE_DAY ? here : here + 1), sum),
        0,
      )
    },
    remove: (id: string) => change(id, (current) => ({ ...current, deletedAt: stamps.now() })),
    async listImports(): Promise<SaleImportRecord[]> {
      return (await database.getAll('saleImports')).sort((a, b) => b.at.localeCompare(a.at))
    },
    async findImport(file: string): Promise<SaleImportRecord | null> {
      return (await database.getAllFromIndex('saleImports', 'file', file)).find(({ state }) => state === 'done') ?? null
    },
    /** Two records that were folded together are two sales again, and stay so. */
    async part(kept: string, other: string): Promise<void> {
      await readSegments()
      await write(async (transaction) => {
        await changeIn(transaction, kept, (sale) => ({
          ...sale,
          merged: (sale.merged ?? []).filter((id) => id !== other),
          keptApart: [...(sale.keptApart ?? []), other],
        }))
        await changeIn(transaction, other, (sale) => ({
          ...sale,
          mergedInto: null,
          keptApart: [...(sale.keptApart ?? []), kept],
        }))
      })
      changed(null)
    },
    /** The other way round: a person says that two are one. */
    async join(kept: string, other: string): Promise<void> {
      await readSegments()
      await write(async (transaction) => {
        const without = (ids: readonly string[] | undefined, id: string) => (ids ?? []).filter((each) => each !== id)
        await changeIn(transaction, kept, (sale) => ({
          ...sale,
          merged: [...(sale.merged ?? []), other],
          keptApart: without(sale.keptApart, other),
        }))
        await changeIn(transaction, other, (sale) => ({
          ...sale,
          mergedInto: kept,
          keptApart: without(sale.keptApart, kept),
        }))
      })
      changed(null)
    },
  }
}

export type Ledger = ReturnType<typeof createLedger>

const sizeIn = (places: ReadonlyMap<number, Uint16Array>) =>
  [...places.values()].reduce((sum, { length }) => sum + length, 0)

/** Leaves out the titles that state something, but nothing of what was asked for. */
function narrow(
  places: ReadonlyMap<number, Uint16Array>,
  [stated, ...asked]: readonly ReadonlyMap<number, Uint8Array>[],
  how: 'all' | 'any',
): Map<number, Uint16Array> {
  return keep(places, (segment, place) => {
    if (stated?.get(segment)?.[place] !== 1) return true
    const has = (flags: ReadonlyMap<number, Uint8Array>) => flags.get(segment)?.[place] === 1
    return how === 'all' ? asked.every(has) : asked.some(has)
  })
}

function keep(
  places: ReadonlyMap<number, Uint16Array>,
  fits: (segment: number, place: number) => boolean,
): Map<number, Uint16Array> {
  return new Map([...places].map(([segment, here]) => [segment, here.filter((place) => fits(segment, place))]))
}

function isKnown(sorted: BigUint64Array, id: string): boolean {
  const bits = idBits(id)
  if (bits === null) return false
  let [low, high] = [0, sorted.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((sorted[middle] as bigint) < bits) low = middle + 1
    else high = middle
  }
  return sorted[low] === bits
}

/** One window at a time, where the browser can say so. */
function alone<T>(name: string, work: () => Promise<T>): Promise<T> {
  const locks = globalThis.navigator?.locks
  return locks === undefined ? work() : (locks.request(name, work) as Promise<T>)
}
