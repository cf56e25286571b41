import 'fake-indexeddb/auto'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Database, openDatabase } from '../../src/storage/database.ts'
import { createDossiers, type Dossiers } from '../../src/storage/dossiers.ts'
import { RevisionConflict, StorageFull } from '../../src/storage/faults.ts'
import { createRecords } from '../../src/storage/records.ts'
import { changeSettings, readSettings } from '../../src/storage/settings.ts'
import { sha256 } from '../../src/storage/sha256.ts'
import { countingStamps, sampleDraft } from './sample-dossier.ts'

let database: Database
let dossiers: Dossiers
let run = 0

beforeEach(async () => {
  database = await openDatabase(`dossiers-${run++}`)
  dossiers = createDossiers(database, countingStamps())
})
afterEach(() => database.close())

// FIPS 180-4 through NIST's examples: SHA-256 of "abc" and of the empty message.
it('hashes as the published examples do', async () => {
  expect(await sha256(new TextEncoder().encode('abc'))).toBe(
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  )
  expect(await sha256(new Uint8Array())).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855')
})

describe('keeping a dossier', () => {
  it('keeps record, summary and bytes together', async () => {
    const kept = await dossiers.keep(sampleDraft())
    expect(kept.revision).toBe(1)
    expect(kept.log).toHaveLength(1)
    const hash = kept.photos[0]?.sha256 ?? ''
    expect(new Uint8Array((await dossiers.readBlob(hash))?.bytes ?? new ArrayBuffer(0))).toEqual(
      new Uint8Array([0xff, 0xd8, 0xff, 1, 2, 3]),
    )
    expect(await dossiers.get(kept.id)).toEqual(kept)
    expect(await dossiers.search('petrel 1931')).toHaveLength(1)
  })

  it('is found whatever the case and the accents, and not by words it lacks', async () => {
    await dossiers.keep(sampleDraft())
    expect(await dossiers.search('MOWE')).toHaveLength(1)
    expect(await dossiers.search('petrel 1932')).toHaveLength(0)
  })

  it('takes bytes that could not be had as not kept', async () => {
    const draft = sampleDraft({
      photos: [{ url: 'https://photos.example/x.jpg', alt: null, mediaType: null, facts: null, bytes: null }],
    })
    expect((await dossiers.keep(draft)).photos[0]?.sha256).toBeNull()
  })

  it('writes nothing when there is no room', async () => {
    const full = {
      ...dossiers,
      keep: createDossiers(refusingWrites(database), countingStamps()).keep,
    }
    await expect(full.keep(sampleDraft())).rejects.toBeInstanceOf(StorageFull)
    expect(await dossiers.search('')).toHaveLength(0)
    expect(await database.getAllKeys('blobs')).toHaveLength(0)
  })
})

describe('changing a dossier', () => {
  it('loses neither of two changes made at once', async () => {
    const { id } = await dossiers.keep(sampleDraft())
    await Promise.all([
      dossiers.record(id, 'note', 'first', (current) => ({ notes: `${current.notes}first;` })),
      dossiers.record(id, 'note', 'second', (current) => ({ notes: `${current.notes}second;` })),
    ])
    const after = await dossiers.get(id)
    expect(after?.notes).toMatch(/^(first;second;|second;first;)$/)
    expect(after?.revision).toBe(3)
    expect(after?.log).toHaveLength(3)
  })

  it('refuses a change to a revision that is no longer the last', async () => {
    const kept = await dossiers.keep(sampleDraft())
    await dossiers.update(kept.id, (current) => ({ ...current, notes: 'mine' }), 1)
    await expect(dossiers.update(kept.id, (current) => ({ ...current, notes: 'theirs' }), 1)).rejects.toBeInstanceOf(
      RevisionConflict,
    )
    expect((await dossiers.get(kept.id))?.notes).toBe('mine')
  })

  it('leaves a tombstone that can be taken away again', async () => {
    const { id } = await dossiers.keep(sampleDraft())
    await dossiers.remove(id)
    expect(await dossiers.search('')).toHaveLength(0)
    expect((await dossiers.get(id))?.deletedAt).not.toBeNull()
    await dossiers.restore(id)
    expect(await dossiers.search('')).toHaveLength(1)
  })

  it('keeps nothing of a change that throws', async () => {
    const { id } = await dossiers.keep(sampleDraft())
    await expect(
      dossiers.update(id, () => {
        throw new Error('changed my mind')
      }),
    ).rejects.toThrow('changed my mind')
    expect((await dossiers.get(id))?.revision).toBe(1)
  })
})

it('keeps settings one by one and fills in what is missing', async () => {
  await changeSettings(database, { currency: 'GBP' })
  expect(await readSettings(database)).toMatchObject({ currency: 'GBP', theme: 'system', setUpAt: null })
})

it('gives graders the same record life as dossiers', async () => {
  const graders = createRecords(database, 'graders', countingStamps())
  const added = await graders.add({ name: 'Kestrel Vault Examiners', abbreviations: ['KVX'], accepted: true })
  await graders.update(added.id, (current) => ({ ...current, accepted: false }))
  await graders.remove(added.id)
  expect(await graders.list()).toEqual([])
  expect(await graders.get(added.id)).toMatchObject({ revision: 3, accepted: false })
})

/** A database whose every write meets the quota, as a full disk would. */
function refusingWrites(real: Database): Database {
  return new Proxy(real, {
    get(target, key) {
      if (key !== 'transaction') return Reflect.get(target, key).bind?.(target) ?? Reflect.get(target, key)
      return () => ({
        objectStore: () => ({
          getKey: async () => undefined,
          put: () => Promise.reject(new DOMException('full', 'QuotaExceededError')),
        }),
        done: Promise.reject(new DOMException('full', 'QuotaExceededError')),
        abort() {},
      })
    },
  })
}

it('adds many sales at once, knows those it has, and brings a deleted one back', async () => {
  const sales = createRecords(database, 'sales', countingStamps())
  const sale = (id: string) => ({
    id,
    date: '2026-10-01',
    title: 'Grey Petrel',
    price: { amount: '100.00', currency: 'EUR' },
    venue: null,
    seller: null,
    url: null,
  })
  expect(await sales.addAll([sale('a'), sale('b')])).toEqual({ added: 2, known: 0 })
  await sales.remove('a')
  expect(await sales.addAll([sale('a'), sale('b'), sale('c')])).toEqual({ added: 2, known: 1 })
  expect((await sales.list()).map((one) => one.id).sort()).toEqual(['a', 'b', 'c'])
  expect((await sales.get('a'))?.revision).toBe(3)
})
