import 'fake-indexeddb/auto'
import { expect, it } from 'vitest'
import { SUMMARY_VERSION, summarise } from '../../src/domain/dossier-summary.ts'
import { openDatabase } from '../../src/storage/database.ts'
import { createDossiers } from '../../src/storage/dossiers.ts'
import { freeDeleted } from '../../src/storage/free-room.ts'
import { refreshSummaries } from '../../src/storage/refresh-summaries.ts'
import { countingStamps, sampleDraft } from './sample-dossier.ts'

const photo = (name: string, bytes: number[]) => ({
  url: `https://photos.example/${name}.jpg`,
  alt: null,
  mediaType: 'image/jpeg',
  facts: null,
  bytes: new Uint8Array(bytes).buffer,
})

it('lets go of what only deleted dossiers hold, and of nothing else', async () => {
  const database = await openDatabase('free-room')
  const dossiers = createDossiers(database, countingStamps())
  const living = await dossiers.keep(
    sampleDraft({ photos: [photo('shared', [1]), photo('mine', [2])], screenshot: null }),
  )
  const dead = await dossiers.keep(
    sampleDraft({ photos: [photo('shared', [1]), photo('dead', [3, 3, 3])], screenshot: new Uint8Array([7]).buffer }),
  )
  await dossiers.remove(dead.id)
  expect(await freeDeleted(database, { now: '2026-11-25T12:00:00.000Z' })).toEqual({ dossiers: 1, bytes: 4 })
  for (const { sha256 } of living.photos) expect(await dossiers.readBlob(sha256!)).not.toBeNull()
  expect(await database.count('blobs')).toBe(2)
  expect(await dossiers.get(dead.id)).toMatchObject({
    photos: [],
    pageText: '',
    revision: 3,
    deletedAt: expect.any(String),
  })
  expect(await freeDeleted(database, { now: '2026-11-25T12:00:01.000Z' })).toEqual({ dossiers: 0, bytes: 0 })
  expect(await dossiers.get(living.id)).toEqual(living)
})

it('makes old summaries anew, and goes on where it was cut off', async () => {
  const database = await openDatabase('refresh')
  const dossiers = createDossiers(database, countingStamps())
  for (let number = 0; number < 250; number++)
    await dossiers.keep(sampleDraft({ photos: [], screenshot: null, title: `no. ${number}` }))
  for (const summary of await database.getAll('summaries')) {
    const { version: _version, life: _life, ...old } = summary
    await database.put('summaries', old)
  }
  const cut = new AbortController()
  const shares: number[] = []
  const first = refreshSummaries(database, {
    signal: cut.signal,
    onProgress(share) {
      shares.push(share)
      if (share > 0) cut.abort(new Error('window closed'))
    },
  })
  await expect(first).rejects.toThrow('window closed')
  const done = (await database.getAll('summaries')).filter(({ version }) => version === SUMMARY_VERSION).length
  expect(done).toBe(100)
  expect(await refreshSummaries(database, { onProgress: (share) => void shares.push(share) })).toBe(150)
  expect(shares.at(-1)).toBe(1)
  for (const dossier of await database.getAll('dossiers'))
    expect(await database.get('summaries', dossier.id)).toEqual(summarise(dossier))
  expect(await refreshSummaries(database)).toBe(0)
})
