/** What the bench of the ledger runs inside a page: the product's own storage and core, over a made market. */
import { parseClaims } from '../../../src/domain/claim/parse-claims.ts'
import { parseVocabulary } from '../../../src/domain/claim/vocabulary.ts'
import { needsMates, valueClaim } from '../../../src/domain/pricing/value-claim.ts'
import type { Sale } from '../../../src/domain/valuation.ts'
import { openDatabase } from '../../../src/storage/database.ts'
import { SEGMENT_SIZE } from '../../../src/storage/sales-index.ts'
import { createLedger } from '../../../src/storage/sales-ledger.ts'
import { createMarket } from './create-ledger.ts'

const stamps = { now: () => new Date().toISOString(), newId: () => crypto.randomUUID() }
const FILES = import.meta.glob(['../../../rules/vocabulary/*.json', '!../../../rules/**/*.schema.json'], {
  eager: true,
  import: 'default',
})
const knowledge = {
  graders: [{ name: 'Kestrel Vault Examiners', abbreviations: ['KVX'], accepted: true }],
  vocabulary: parseVocabulary(Object.entries(FILES).map(([file, pack]) => ({ file, pack }))).vocabulary,
}
const never = new AbortController().signal

async function* inBatches(sales: readonly Sale[]) {
  for (let from = 0; from < sales.length; from += SEGMENT_SIZE) yield sales.slice(from, from + SEGMENT_SIZE)
}

export async function fill(size: number): Promise<number> {
  const sales = createMarket(size, 1)
  const ledger = createLedger(await openDatabase(), stamps)
  const started = performance.now()
  await ledger.importSales(inBatches(sales), { name: 'market', file: `market ${size}`, signal: never })
  return performance.now() - started
}

const log: string[] = []
export async function valueOne(size: number, card: number) {
  // The titles that a market of this size begins with; made before the clock runs.
  const market = createMarket(500, 1, Math.max(20, Math.round(size / 100)))
  const title = market[(card * 67) % 500]!.title
  // A window that was just opened has read its words already, but never looked for a sale.
  parseClaims(
    { title: '1958 Aurunda Tidal League #41 Tamsin Quillfeather KVX 9', specifics: {}, description: null },
    knowledge,
  )
  const started = performance.now()
  const db = await openDatabase()
  const o = performance.now()
  await db.getAll('saleSegments') /*SEGREAD*/
  log.push(`open ${(o - started).toFixed(0)} seg ${(performance.now() - o).toFixed(0)}`)
  const ledger = createLedger(db, stamps)
  const once = async () => {
    const [claim] = parseClaims({ title, specifics: {}, description: null }, knowledge)
    const at = performance.now()
    const { sales, frequencies } = await ledger.findCandidates(claim!, title)
    const t1 = performance.now()
    const options = { on: '2026-11-20', ask: { amount: '100.00', currency: 'EUR' }, knowledge, title, frequencies }
    const mates = needsMates(claim!, sales, { ...options, mates: [] }) ? await ledger.findMates(claim!) : []
    const t2 = performance.now()
    const r = valueClaim(claim!, sales, { ...options, mates })
    log.push(
      `find ${(t1 - at).toFixed(0)} mates ${(t2 - t1).toFixed(0)} (${mates.length}) value ${(performance.now() - t2).toFixed(0)} of ${sales.length}`,
    )
    return r
  }
  const first = await once()
  const cold = performance.now() - started
  const times: number[] = []
  for (let i = 0; i < 5; i++) {
    const again = performance.now()
    await once()
    times.push(performance.now() - again)
  }
  return {
    log: log.slice(0, 2).join(' '),
    cold,
    warm: times.sort((a, b) => a - b)[2]!,
    matched: first.points?.length ?? 0,
  }
}

export async function measureRest(size: number) {
  const ledger = createLedger(await openDatabase(), stamps)
  await ledger.count()
  const fresh = createMarket(200, size + 17)
  let started = performance.now()
  await ledger.add(fresh)
  const add = performance.now() - started
  started = performance.now()
  await ledger.list()
  const list = performance.now() - started
  started = performance.now()
  await ledger.list('marr quay')
  const search = performance.now() - started
  return { add, list, search, csv: 0, peak: 0 }
}
