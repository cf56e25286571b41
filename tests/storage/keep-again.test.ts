import 'fake-indexeddb/auto'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Database, openDatabase } from '../../src/storage/database.ts'
import { createDossiers, type Dossiers } from '../../src/storage/dossiers.ts'
import { countingStamps, sampleDraft } from './sample-dossier.ts'

let database: Database
let dossiers: Dossiers
let run = 0

beforeEach(async () => {
  database = await openDatabase(`keep-again-${run++}`)
  dossiers = createDossiers(database, countingStamps())
})
afterEach(() => database.close())

const photo = (name: string, bytes: number[] | null) => ({
  url: `https://photos.example/${name}.jpg`,
  alt: null,
  mediaType: 'image/jpeg',
  facts: null,
  bytes: bytes && new Uint8Array(bytes).buffer,
})

describe('a listing kept again', () => {
  it('is the same dossier, one revision on, with its log', async () => {
    const kept = await dossiers.keep(sampleDraft())
    const again = await dossiers.keepAgain(kept.id, sampleDraft({ title: 'Grey Petrel, now cheaper' }))
    expect(again).toMatchObject({
      id: kept.id,
      revision: 2,
      createdAt: kept.createdAt,
      title: 'Grey Petrel, now cheaper',
    })
    expect(again.log.map(({ event }) => event)).toEqual(['kept', 'seen-again'])
    expect(await dossiers.get(kept.id)).toEqual(again)
    expect((await dossiers.search('cheaper')).map(({ id }) => id)).toEqual([kept.id])
  })

  it('loses no photo: neither one that could not be fetched this time nor one that the page dropped', async () => {
    const kept = await dossiers.keep(
      sampleDraft({ photos: [photo('front', [1]), photo('back', [2]), photo('label', [3])] }),
    )
    const again = await dossiers.keepAgain(
      kept.id,
      sampleDraft({ photos: [photo('front', [9]), photo('back', null), photo('new', [4])], screenshot: null }),
    )
    const hashes = Object.fromEntries(again.photos.map(({ url, sha256 }) => [url.slice(23, -4), sha256]))
    const before = Object.fromEntries(kept.photos.map(({ url, sha256 }) => [url.slice(23, -4), sha256]))
    expect(Object.keys(hashes)).toEqual(['front', 'back', 'new', 'label'])
    expect(hashes.back).toBe(before.back)
    expect(hashes.label).toBe(before.label)
    expect(hashes.front).not.toBe(before.front)
    expect(again.screenshot).toBe(kept.screenshot)
    for (const hash of Object.values(hashes)) expect(await dossiers.readBlob(hash!)).not.toBeNull()
  })

  it('that was never kept is refused', async () => {
    await expect(dossiers.keepAgain('nobody', sampleDraft())).rejects.toThrow('nobody')
    expect(await dossiers.search('')).toEqual([])
  })
})
