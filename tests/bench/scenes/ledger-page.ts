/** What the bench of the ledger runs inside a page: the product's own storage and core, over a made market. */
import { readCsvFile } from '../../../src/contexts/desk/read-csv-file.ts'
import { PANEL_SALES } from '../../../src/contexts/price-offer.ts'
import { parseClaims } from '../../../src/domain/claim/parse-claims.ts'
import { parseVocabulary } from '../../../src/domain/claim/vocabulary.ts'
import { createCsvReader, createCsvSurvey } from '../../../src/domain/pricing/sales-csv.ts'
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
  const ledger = createLedger(await openDatabase(), stamps)
  const once = async () => {
    const [claim] = parseClaims({ title, specifics: {}, description: null }, knowledge)
    const { sales, frequencies } = await ledger.findCandidates(claim!, title, PANEL_SALES)
    const options = { on: '2026-11-20', ask: { amount: '100.00', currency: 'EUR' }, knowledge, title, frequencies }
    const mates = needsMates(claim!, sales, { ...options, mates: [] }) ? await ledger.findMates(claim!) : []
    return valueClaim(claim!, sales, { ...options, mates })
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
  return { add, list, search, ...(await importCsv(size + 29, 100_000)) }
}

/** A file of that many lines, read as the desk reads it: surveyed, then streamed into the ledger. */
async function importCsv(seed: number, lines: number) {
  const header = 'date,title,price,currency,venue,seller,url'
  const rows = createMarket(lines, seed, 2_000).map(({ date, title, price, venue, seller, url }) =>
    [date, `"${title}"`, price.amount, price.currency, venue, seller, url].join(','),
  )
  const file = new File([[header, ...rows].join('\n')], 'market.csv')
  const ledger = createLedger(await openDatabase(), stamps)
  await ledger.count()
  const working = { signal: never, onProgress() {} }
  let peak = 0
  const look = () => {
    const { memory } = performance as unknown as { memory?: { usedJSHeapSize: number } }
    peak = Math.max(peak, (memory?.usedJSHeapSize ?? 0) / 2 ** 20)
  }
  const started = performance.now()
  const survey = createCsvSurvey()
  for await (const batch of readCsvFile(file, working)) for (const row of batch) survey.add(row)
  const { columns, header: cells, decimal } = survey.result()
  const plan = {
    columns,
    width: cells.length,
    decimal: decimal === 'open' ? null : decimal,
    dateOrder: null,
    currency: null,
    venue: null,
    today: null,
  }
  async function* batches() {
    let read: ReturnType<typeof createCsvReader> | null = null
    let batch: Sale[] = []
    for await (const some of readCsvFile(file, working)) {
      for (const row of some) {
        if (read === null) {
          read = createCsvReader(plan, row)
          continue
        }
        const result = read(row)
        if (result !== null && 'sale' in result) batch.push(result.sale)
        if (batch.length < SEGMENT_SIZE) continue
        look()
        yield batch
        batch = []
      }
    }
    yield batch
  }
  const { added } = await ledger.importSales(batches(), { name: 'market.csv', file: 'sum', signal: never })
  const csv = performance.now() - started
  if (added < lines * 0.99) throw new Error(`only ${added} of ${lines} lines came in`)
  return { csv, peak }
}
