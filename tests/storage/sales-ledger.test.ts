/** The ledger of sales: what its index finds is what looking at every sale finds; files come in whole or not at all. */
import 'fake-indexeddb/auto'
import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { loadKnowledge } from '../../src/cli/load-packs.ts'
import { parseClaims } from '../../src/domain/claim/parse-claims.ts'
import type { Knowledge } from '../../src/domain/pricing/match-sales.ts'
import { saleId } from '../../src/domain/pricing/sale-id.ts'
import { needsMates, valueClaim } from '../../src/domain/pricing/value-claim.ts'
import type { Sale } from '../../src/domain/valuation.ts'
import { restoreBackup, writeBackup } from '../../src/storage/backup.ts'
import { type Database, openDatabase } from '../../src/storage/database.ts'
import { createLedger, type Ledger } from '../../src/storage/sales-ledger.ts'
import { createMarket } from '../bench/scenes/create-ledger.ts'

const GRADERS = [{ name: 'Kestrel Vault Examiners', abbreviations: ['KVX'], accepted: true }]
const CARD = '1931-32 Pellwick Skerryball Stars #17 Odo Marrable'
let knowledge: Knowledge
let database: Database
let ledger: Ledger
let count = 0
beforeAll(async () => {
  knowledge = await loadKnowledge(GRADERS)
})
beforeEach(async () => {
  count += 1
  let ids = 0
  database = await openDatabase(`ledger-${count}`)
  ledger = createLedger(database, { now: () => '2026-11-20T10:00:00Z', newId: () => `id-${++ids}` })
  return () => database.close()
})

function sale(title: string, more: Partial<Omit<Sale, 'id'>> = {}): Sale {
  const rest = {
    date: '2026-10-01',
    price: { amount: '100.00', currency: 'EUR' },
    venue: 'Quayside Lots',
    seller: 'harbour.lane',
    url: null,
    ...more,
  }
  const { date, price, venue, seller, url } = rest
  return { id: saleId([date, title, price.amount, price.currency, venue, seller, url]), title, ...rest }
}

const titlesOf = async (query = '') => (await ledger.read([...(await ledger.list(query))])).map(({ title }) => title)

async function* batchesOf(...batches: readonly (readonly Sale[])[]) {
  for (const batch of batches) yield batch
}
const job = (signal = new AbortController().signal) => ({ name: 'sales.csv', file: 'abc', signal })

describe('candidates', () => {
  const sales = createMarket(2_000, 7)
  const titles = [
    ...new Set(sales.slice(0, 40).map(({ title }) => title)),
    CARD,
    `${CARD} KVX 5`,
    '1958 Insects of the Fen Lantern Hawker',
    'Nothing of the kind',
  ]

  it('value every claim as looking through all sales does', async () => {
    await ledger.add(sales)
    for (const title of titles) {
      const [claim] = parseClaims({ title, specifics: {}, description: null }, knowledge)
      const options = { on: '2026-11-20', ask: { amount: '80.00', currency: 'EUR' }, knowledge, title }
      const { sales: candidates, frequencies } = await ledger.findCandidates(claim!, title)
      const own = { ...options, frequencies, mates: [] as readonly Sale[] }
      if (needsMates(claim!, candidates, own)) own.mates = sales
      const { excluded, used, points, ...found } = valueClaim(claim!, candidates, own)
      const whole = valueClaim(claim!, sales, options)
      expect(found, title).toEqual({ ...found, ...withoutLists(whole) })
      expect(new Set(used?.map(({ id }) => id)), title).toEqual(new Set(whole.used?.map(({ id }) => id)))
      expect(new Set(excluded.map(({ sale: left }) => left.id)), title).toEqual(
        new Set(whole.excluded.map(({ sale: left }) => left.id)),
      )
      expect(points?.length, title).toBe(whole.points?.length)
    }
  })

  it('are the same after the index was built anew from the sales', async () => {
    await ledger.add(sales.slice(0, 500))
    const before = await titlesOf()
    await database.clear('saleSegments')
    await database.clear('saleWords')
    ledger = createLedger(database, { now: () => '2026-11-20T10:00:00Z', newId: () => 'x' })
    expect((await titlesOf()).sort()).toEqual(before.sort())
  })

  it('of a restored backup are found beside those that were there', async () => {
    await ledger.add(sales.slice(0, 20))
    const chunks: BlobPart[] = []
    await writeBackup(database, '2026-11-20T10:00:00Z', (chunk) => void chunks.push(chunk as Uint8Array<ArrayBuffer>))
    const other = await openDatabase(`ledger-${count}-other`)
    const there = createLedger(other, { now: () => '2026-11-20T10:00:00Z', newId: () => 'y' })
    await there.add([sale('1958 Insects of the Fen Lantern Hawker')])
    await restoreBackup(other, new Blob(chunks))
    const after = createLedger(other, { now: () => '2026-11-20T10:00:00Z', newId: () => 'z' })
    expect((await after.list('')).length).toBe(21)
    other.close()
  })
})

function withoutLists({ excluded: _excluded, used: _used, points: _points, ...rest }: ReturnType<typeof valueClaim>) {
  return rest
}

describe('the list', () => {
  it('runs from the newest to the oldest and is searched by beginnings of words of title, seller and venue', async () => {
    await ledger.add([
      sale(CARD, { date: '2026-01-02' }),
      sale(`${CARD} KVX 5`, { date: '2026-03-02', seller: 'Tarn & Tide' }),
      sale('1931 Harbour Ships #12 Nordlys Maiden', { date: '2026-02-02', venue: 'Möwenmarkt' }),
    ])
    expect(await titlesOf()).toEqual([`${CARD} KVX 5`, '1931 Harbour Ships #12 Nordlys Maiden', CARD])
    expect(await titlesOf('marr')).toEqual([`${CARD} KVX 5`, CARD])
    expect(await titlesOf('tarn odo')).toEqual([`${CARD} KVX 5`])
    expect(await titlesOf('mowen')).toEqual(['1931 Harbour Ships #12 Nordlys Maiden'])
    expect(await titlesOf('kettle')).toEqual([])
  })

  it('leaves out what was deleted until it is back', async () => {
    const [first, second] = [sale(CARD), sale(`${CARD} KVX 5`)]
    await ledger.add([first!, second!])
    await ledger.remove(first!.id)
    expect(await titlesOf()).toEqual([`${CARD} KVX 5`])
    expect(await ledger.count()).toBe(1)
    await ledger.restore(first!.id)
    expect(await ledger.count()).toBe(2)
    await ledger.remove(first!.id)
    expect(await ledger.add([first!])).toMatchObject({ added: 1, known: 0 })
    expect(await ledger.count()).toBe(2)
  })
})

describe('one sale from two sources', () => {
  const shown = sale(`${CARD} KVX 5 EX`, { url: 'https://www.quayside-lots.example/lot/1?from=search' })
  const told = sale('1931-32 Skerryball Stars #17 Odo Marrable KVX 5', {
    date: '2026-10-02',
    url: 'https://quayside-lots.example/lot/1',
    seller: null,
  })

  it('is one in the list, and two again when a person parts them', async () => {
    await ledger.add([shown])
    expect(await ledger.add([told])).toEqual({ added: 0, known: 0, merged: 1 })
    expect(await ledger.count()).toBe(1)
    expect((await ledger.get(shown.id))?.merged).toEqual([told.id])
    await ledger.part(shown.id, told.id)
    expect(await ledger.count()).toBe(2)
    expect(await ledger.add([told])).toEqual({ added: 0, known: 1, merged: 0 })
    await ledger.join(shown.id, told.id)
    expect(await ledger.count()).toBe(1)
  })

  it.each<[string, Partial<Sale>]>([
    ['another price', { price: { amount: '101.00', currency: 'EUR' } }],
    ['another day', { date: '2026-10-09' }],
    ['another page of the same house', { url: 'https://quayside-lots.example/lot/2' }],
    ['another seller', { url: null, seller: 'tarn_and_tide' }],
    ['another number', { url: null, title: '1931-32 Skerryball Stars #18 Odo Marrable KVX 5' }],
  ])('stays two with %s', async (_, more) => {
    await ledger.add([shown])
    const { title, ...rest } = { ...told, ...more }
    expect(await ledger.add([sale(title, rest)])).toMatchObject({ added: 1, merged: 0 })
  })
})

describe('a file', () => {
  const sales = createMarket(300, 3)

  it('comes in whole, is recognised, and is taken back whole', async () => {
    const { id, ...totals } = await ledger.importSales(batchesOf(sales.slice(0, 200), sales.slice(200)), job())
    expect(totals).toEqual({ added: 300, known: 0, merged: 0 })
    expect(await ledger.count()).toBe(300)
    expect(await ledger.findImport('abc')).toMatchObject({ added: 300, state: 'done' })
    expect(await ledger.importSales(batchesOf(sales), job())).toMatchObject({ added: 0, known: 300 })
    await ledger.takeBack(id)
    expect(await ledger.count()).toBe(0)
    expect(await database.count('sales')).toBe(0)
    expect(await ledger.importSales(batchesOf(sales), job())).toMatchObject({ added: 300 })
  })

  it('is not seen before all of it is in, and leaves nothing when it is cancelled or fails', async () => {
    const cancel = new AbortController()
    async function* cancelled() {
      yield sales.slice(0, 100)
      expect(await ledger.count()).toBe(0)
      cancel.abort()
      yield sales.slice(100)
    }
    await expect(ledger.importSales(cancelled(), job(cancel.signal))).rejects.toThrow(/abort/i)
    async function* failing() {
      yield sales.slice(0, 100)
      throw new Error('the file was moved')
    }
    await expect(ledger.importSales(failing(), job())).rejects.toThrow(/moved/)
    expect([await ledger.count(), await database.count('sales')]).toEqual([0, 0])
  })

  it('that was not finished when the window closed is taken back at the next start', async () => {
    const never = (async function* () {
      yield sales.slice(0, 100)
      await new Promise(() => {})
    })()
    void ledger.importSales(never, job())
    await new Promise((resolve) => setTimeout(resolve, 300))
    expect(await database.count('sales')).toBe(100)
    expect(await ledger.recover()).toBe(1)
    expect(await database.count('sales')).toBe(0)
  })
})
