import 'fake-indexeddb/auto'
import { expect, it } from 'vitest'
import { openDatabase } from '../../src/storage/database.ts'
import { createDossiers } from '../../src/storage/dossiers.ts'
import { findTraces, type TraceQuery } from '../../src/storage/traces.ts'
import { countingStamps, sampleDraft } from './sample-dossier.ts'

const NOTHING: TraceQuery = { url: null, certificate: null, seller: null, description: null, photos: [] }
const TEXT =
  'Found in an old biscuit tin in the harbour office, kept flat in a book ever since and never put into an album.'

it('finds what another dossier shares: photo, certificate, seller, words; never the dossier of the page itself', async () => {
  const database = await openDatabase('traces')
  const dossiers = createDossiers(database, countingStamps())
  const draft = sampleDraft()
  const listing = { ...draft.inspection.listing, description: TEXT }
  const claim = { ...draft.inspection.claim, certificate: '40028817' }
  const kept = await dossiers.keep({ ...draft, inspection: { ...draft.inspection, listing, claim, claims: [claim] } })

  const kinds = async (change: Partial<TraceQuery>) =>
    (await findTraces(database, { ...NOTHING, ...change })).map((trace) => trace.kind)
  const photo = { url: 'https://other.example/a.jpg', sha256: kept.photos[0]?.sha256 ?? null }
  expect(await kinds({ certificate: '40028817' })).toEqual(['same-certificate'])
  expect(await kinds({ seller: 'möwe_karten' })).toEqual(['same-seller'])
  expect(await kinds({ photos: [photo] })).toEqual(['same-photo'])
  expect(await kinds({ description: `  ${TEXT.toUpperCase()} ` })).toEqual(['same-text'])
  expect(await kinds({ description: 'See photos.' })).toEqual([])
  expect(await kinds({ certificate: '40028817', url: kept.url })).toEqual([])
  expect(await kinds({ certificate: '40028818' })).toEqual([])

  await dossiers.remove(kept.id)
  expect(await kinds({ certificate: '40028817' })).toEqual([])
  database.close()
})
