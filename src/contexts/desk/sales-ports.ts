/** The ports of sales, wants and ceilings onto storage and the core. Wiring only: nothing is decided here. */
import { parseClaims } from '../../domain/claim/parse-claims.ts'
import type { Listing } from '../../domain/listing.ts'
import { type DayRates, parseRatesCsv } from '../../domain/pricing/rates.ts'
import { saleId } from '../../domain/pricing/sale-id.ts'
import { type CsvPlan, createCsvReader, createCsvSurvey } from '../../domain/pricing/sales-csv.ts'
import { MOST_POINTS } from '../../domain/pricing/value-claim.ts'
import { said } from '../../domain/pricing/words.ts'
import type { Said, Sale } from '../../domain/valuation.ts'
import { now } from '../../platform/clock.ts'
import { SEGMENT_SIZE } from '../../storage/sales-index.ts'
import { MOST_CANDIDATES } from '../../storage/sales-ledger.ts'
import type { LedgerPorts, Working } from '../../ui/ledger/ledger-ports.ts'
import type { InterfaceTexts } from '../interface-texts.ts'
import { priceOffer } from '../price-offer.ts'
import { loadPacks } from '../rule-packs.ts'
import type { Stores } from '../stores.ts'
import { createContentSum, readCsvFile } from './read-csv-file.ts'

/** More faults than these are counted, not listed. */
const FAULTS_LISTED = 200
const SALES_SHOWN = 5

export function createSalesPorts(stores: Stores, texts: () => InterfaceTexts): LedgerPorts {
  const { ledger, saleMarks, wants, rates, costPresets } = stores
  const today = () => now().slice(0, 10)
  // A file whose window closed in the middle of it is taken back; if that fails, it is tried again next time.
  ledger.recover().catch((error) => console.warn('an unfinished import stays for now:', error))

  /** The rows of a file by a plan, one after the other. */
  async function* readRows(file: File, plan: CsvPlan, working: Working) {
    let read: ReturnType<typeof createCsvReader> | null = null
    for await (const rows of readCsvFile(file, working)) {
      for (const row of rows) {
        if (read === null) {
          read = createCsvReader(plan, row)
          continue
        }
        const result = read(row)
        if (result !== null) yield result
      }
    }
  }

  async function* readBatches(file: File, plan: CsvPlan, working: Working): AsyncGenerator<readonly Sale[]> {
    let batch: Sale[] = []
    for await (const row of readRows(file, plan, working)) {
      if (!('sale' in row)) continue
      batch.push({ ...row.sale, source: 'csv' })
      if (batch.length < SEGMENT_SIZE) continue
      yield batch
      batch = []
    }
    if (batch.length > 0) yield batch
  }

  async function contentSum(file: File, working: Working): Promise<string> {
    const sum = createContentSum()
    for await (const rows of readCsvFile(file, working)) sum.add(rows)
    return sum.result()
  }

  async function saveRates(rows: readonly DayRates[]): Promise<void> {
    const known = new Map((await rates.list()).map((record) => [record.day, record]))
    const drafts = rows.map((row) => ({
      ...row,
      perEuro: { ...known.get(row.day)?.perEuro, ...row.perEuro },
      id: `rates-${row.day}`,
    }))
    for (const { id, day } of drafts) if (known.has(day)) await rates.remove(id)
    await rates.addAll(drafts)
  }

  return {
    listSalePlaces: (query) => ledger.list(query),
    readSales: (places) => ledger.read(places),
    readSalesById: (ids) => ledger.getMany(ids),
    addSales: (sales) => ledger.add(sales),
    deleteSale: async (id) => void (await ledger.remove(id)),
    restoreSale: async (id) => void (await ledger.restore(id)),
    partSales: (kept, other) => ledger.part(kept, other),
    joinSales: (kept, other) => ledger.join(kept, other),

    listSaleMarks: () => saleMarks.list(),
    markSale: async (mark) => (await saleMarks.add(mark as never)).id,
    liftMark: async (id) => void (await saleMarks.remove(id)),
    restoreMark: async (id) => void (await saleMarks.restore(id)),

    async surveyCsv(file, columns, working) {
      const survey = createCsvSurvey(columns ?? undefined)
      const sum = createContentSum()
      for await (const rows of readCsvFile(file, working)) {
        sum.add(rows)
        for (const row of rows) survey.add(row)
      }
      const before = await ledger.findImport(sum.result())
      return { ...survey.result(), addedBefore: before && { at: before.at, added: before.added } }
    },
    async checkCsv(file, plan, working) {
      const isKnown = await ledger.createKnown()
      const faults: { line: number; fault: Said }[] = []
      const first: Sale[] = []
      let ready = 0
      let known = 0
      let faultCount = 0
      for await (const row of readRows(file, plan, working)) {
        if ('fault' in row) {
          faultCount++
          if (faults.length < FAULTS_LISTED) faults.push({ line: row.line, fault: row.fault })
        } else if (isKnown(row.sale.id)) known++
        else {
          ready++
          if (first.length < SALES_SHOWN) first.push(row.sale)
        }
      }
      return { ready, known, faultCount, faults, first }
    },
    async importCsv(file, plan, working) {
      // First its sum: the file may have been changed since it was checked.
      const sum = await contentSum(file, { ...working, onProgress: (share) => working.onProgress(share / 10) })
      const reading = { signal: working.signal, onProgress: (share: number) => working.onProgress(0.1 + 0.9 * share) }
      return ledger.importSales(readBatches(file, plan, reading), {
        name: file.name,
        file: sum,
        signal: working.signal,
      })
    },
    takeBackImport: (id) => ledger.takeBack(id),

    async salesOfDossiers({ signal, onProgress }) {
      const isKnown = await ledger.createKnown()
      const summaries = await stores.dossiers.search('')
      const sales: Sale[] = []
      const skipped: { title: string; why: Said }[] = []
      for (const [i, { id }] of summaries.entries()) {
        signal.throwIfAborted()
        const dossier = await stores.dossiers.get(id)
        onProgress((i + 1) / summaries.length)
        const { listing } = dossier?.inspection ?? {}
        // A listing that is not over has no price yet, and is no news here.
        if (listing === undefined || listing.sold === null) continue
        const sale = saleOfListing(listing)
        if ('code' in sale) skipped.push({ title: listing.title ?? '', why: sale })
        else if (isKnown(sale.id)) skipped.push({ title: sale.title, why: said('skip.known') })
        else sales.push(sale)
      }
      return { sales, skipped }
    },

    async describeRates() {
      const rows = await rates.list()
      const days = rows.map(({ day }) => day).sort()
      const currencies = [...new Set(rows.flatMap(({ perEuro }) => Object.keys(perEuro)))].sort()
      return { days: days.length, oldest: days[0] ?? null, newest: days.at(-1) ?? null, currencies }
    },
    async importRates(file) {
      const { rows, faults } = parseRatesCsv(await file.text())
      if (rows.length > 0) await saveRates(rows)
      return { days: rows.length, faults }
    },
    saveRate: (day, currency, perEuro) => saveRates([{ day, perEuro: { [currency]: perEuro } }]),
    async forgetRates() {
      for (const { id } of await rates.list()) await rates.remove(id)
    },

    async valueWords(words, ask) {
      const { graders } = await stores.readBook()
      const knowledge = { graders, vocabulary: (await loadPacks(texts(), stores)).vocabulary }
      const claim = parseClaims({ title: words, specifics: {}, description: null }, knowledge)[0]!
      const offer = { claim, title: words, ask, item: null, on: today() }
      const most = { sales: MOST_CANDIDATES, points: MOST_POINTS }
      return { claim, valuation: await priceOffer(offer, stores, knowledge, most) }
    },

    listWants: () => wants.list(),
    saveWant: async (want, id) =>
      void (id === null ? await wants.add(want) : await wants.update(id, (current) => ({ ...current, ...want }))),
    deleteWant: async (id) => void (await wants.remove(id)),
    restoreWant: async (id) => void (await wants.restore(id)),

    listCostPresets: () => costPresets.list(),
    saveCostPreset: async (preset, id) =>
      (id === null
        ? await costPresets.add(preset)
        : await costPresets.update(id, (current) => ({ ...current, ...preset }))
      ).id,
    deleteCostPreset: async (id) => void (await costPresets.remove(id)),
    restoreCostPreset: async (id) => void (await costPresets.restore(id)),
  }
}

function saleOfListing(listing: Listing): Sale | Said {
  const { title, price, sold, soldAt, seller, url, premiumPercent } = listing
  if (sold === false) return said('skip.unsold')
  if (price === null || title === null) return said('skip.no-price')
  if (soldAt === null) return said('skip.no-date')
  const date = soldAt.slice(0, 10)
  const venue = url !== null && URL.canParse(url) ? new URL(url).hostname.replace(/^www\./, '') : null
  const name = seller?.name ?? null
  return {
    id: saleId([date, title, price.amount, price.currency, venue, name, url]),
    date,
    title,
    price,
    venue,
    seller: name,
    url,
    source: 'dossier',
    ...(premiumPercent === null ? {} : { premiumIncluded: false }),
    ...(listing.shipping === null ? {} : { shippingIncluded: Number(listing.shipping.amount) === 0 }),
  }
}
