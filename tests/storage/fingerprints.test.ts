/** Fingerprints of kept photos: found by likeness, followed through changes and deletions, loaded again from few records. */
import 'fake-indexeddb/auto'
import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { createFingerprintIndex, parseFingerprint } from '../../src/domain/fingerprints/fingerprint-index.ts'
import { emptyPhotoFacts, type PhotoFacts } from '../../src/domain/photo-facts.ts'
import { openDatabase } from '../../src/storage/database.ts'
import { createDossiers } from '../../src/storage/dossiers.ts'
import { createFingerprints } from '../../src/storage/fingerprints.ts'
import { countingStamps, sampleDraft } from './sample-dossier.ts'

const hex = (seed: number) => createHash('sha256').update(String(seed)).digest('hex')

function facts(pdq: string, change: Partial<PhotoFacts> = {}): PhotoFacts {
  return { ...emptyPhotoFacts('photo'), examined: true, pdq, pdqQuality: 100, ...change }
}

function draft(n: number) {
  const sample = sampleDraft()
  const url = `https://quayside.example/lot/${n}`
  return { ...sample, url, photos: [{ ...sample.photos[0]!, facts: facts(hex(n)) }] }
}

it('finds a kept photo, forgets a deleted one, and needs no second look at what it has seen', async () => {
  const database = await openDatabase('fingerprints')
  const dossiers = createDossiers(database, countingStamps())
  const kept = []
  for (let n = 0; n < 12; n++) kept.push(await dossiers.keep(draft(n)))
  const fingerprints = createFingerprints(database)
  await fingerprints.refresh()
  expect(fingerprints.size).toBe(12)
  const ask = async (n: number, own: string | null = null) =>
    (await fingerprints.findAlike(facts(hex(n)), own)).map(({ dossier }) => dossier.id)
  expect(await ask(5)).toContain(kept[5]!.id)
  expect(await ask(5, kept[5]!.url)).not.toContain(kept[5]!.id)

  await dossiers.remove(kept[5]!.id)
  await dossiers.keep(draft(40))
  await fingerprints.refresh()
  expect(await ask(5)).not.toContain(kept[5]!.id)
  expect(await ask(40)).toHaveLength(1)

  const again = createFingerprints(database)
  await again.refresh()
  expect((await again.findAlike(facts(hex(3)), null)).map(({ dossier }) => dossier.id)).toContain(kept[3]!.id)
  expect(await database.count('fingerprints')).toBe(1)
  database.close()
})

it('says nothing of photos without structure', async () => {
  const database = await openDatabase('fingerprints-flat')
  const dossiers = createDossiers(database, countingStamps())
  const sample = draft(1)
  await dossiers.keep({ ...sample, photos: [{ ...sample.photos[0]!, facts: facts(hex(1), { pdqQuality: 12 }) }] })
  const fingerprints = createFingerprints(database)
  await fingerprints.refresh()
  expect(fingerprints.size).toBe(0)
  expect(await fingerprints.findAlike(facts(hex(1)), null)).toEqual([])
  database.close()
})

it('searches exactly: what counting every bit of every entry finds, and nothing else', () => {
  const words = fc.uint32Array({ minLength: 8 * 40, maxLength: 8 * 40 })
  fc.assert(
    fc.property(words, fc.integer({ min: 0, max: 39 }), fc.integer({ min: 0, max: 160 }), (all, pick, within) => {
      const index = createFingerprintIndex(4)
      index.add(all)
      const question = all.slice(pick * 8, pick * 8 + 8)
      question[3]! ^= 0b1011
      const bits = (n: number) => (n >>> 0).toString(2).replaceAll('0', '').length
      const counted = Array.from({ length: 40 }, (_, entry) => ({
        entry,
        distance: question.reduce((sum, word, k) => sum + bits(word ^ all[entry * 8 + k]!), 0),
      })).filter(({ distance }) => distance <= within)
      expect(index.search(question, within)).toEqual(
        counted.sort((a, b) => a.distance - b.distance || a.entry - b.entry),
      )
    }),
  )
  expect(parseFingerprint('zz')).toBeNull()
  expect(parseFingerprint('f'.repeat(64))).toEqual(new Uint32Array(8).fill(0xffffffff))
})
