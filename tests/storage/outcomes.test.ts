import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { expect, it } from 'vitest'
import type { Concern } from '../../src/domain/inspection.ts'
import { openDatabase } from '../../src/storage/database.ts'
import { createDossiers, type DossierDraft } from '../../src/storage/dossiers.ts'
import { readEndings, readOutcomeTally } from '../../src/storage/outcomes.ts'
import { countingStamps, sampleDraft } from './sample-dossier.ts'

const LOOKED = ['no-returns', 'stock-photo', 'urgency']

function draftWith(raised: readonly string[], outcome: DossierDraft['outcome'] = null): DossierDraft {
  const draft = sampleDraft()
  const concerns = raised.map((rule) => ({ rule, group: rule, settledBy: null }) as Concern)
  const trace = LOOKED.map((rule) => ({ rule, raised: raised.includes(rule), reason: '' }))
  const weighing = { log10: 1, sensitivity: { halved: 0.5, doubled: 2 }, basis: 'assumed', groups: [] } as const
  return { ...draft, outcome, inspection: { ...draft.inspection, concerns, trace, weighing } }
}

const counts = (raisedWrong: number, silentWrong: number, raisedSound: number, silentSound: number) => ({
  raisedWrong,
  silentWrong,
  raisedSound,
  silentSound,
})

it('an outcome is counted, changed and taken back with its dossier', async () => {
  const database = await openDatabase('outcomes')
  const dossiers = createDossiers(database, countingStamps())
  const { id } = await dossiers.keep(draftWith(['stock-photo']))
  await dossiers.keep(draftWith(['no-returns']))
  const end = (outcome: DossierDraft['outcome']) => dossiers.record(id, 'outcome', outcome ?? '', () => ({ outcome }))
  expect(await readOutcomeTally(database)).toEqual({ byRule: {}, sound: 0, wrong: 0 })

  await end('counterfeit')
  expect(await readOutcomeTally(database)).toEqual({
    byRule: { 'no-returns': counts(0, 1, 0, 0), 'stock-photo': counts(1, 0, 0, 0), urgency: counts(0, 1, 0, 0) },
    sound: 0,
    wrong: 1,
  })
  await end('genuine')
  expect((await readOutcomeTally(database)).byRule['stock-photo']).toEqual(counts(0, 0, 1, 0))
  await end('never-known')
  expect((await readOutcomeTally(database)).byRule).toEqual({})
  await end('altered')
  await dossiers.remove(id)
  expect(await readOutcomeTally(database)).toEqual({ byRule: {}, sound: 0, wrong: 0 })
  await dossiers.restore(id)
  expect((await readOutcomeTally(database)).wrong).toBe(1)
  await end(null)
  expect(await readEndings(database)).toEqual([])
  database.close()
})

it('a database from before endings were kept apart counts what had ended', async () => {
  const name = 'outcomes-of-version-1'
  const old = await openDB(name, 1, {
    upgrade(database) {
      database.createObjectStore('dossiers', { keyPath: 'id' }).createIndex('url', 'url')
      for (const store of ['summaries', 'graders', 'riskyIssues', 'siteHints'])
        database.createObjectStore(store, { keyPath: 'id' })
      database.createObjectStore('sales', { keyPath: 'id' }).createIndex('date', 'date')
      database.createObjectStore('blobs', { keyPath: 'sha256' })
      database.createObjectStore('settings')
    },
  })
  const meta = { revision: 1, createdAt: '', updatedAt: '', deletedAt: null, log: [] }
  await old.put('dossiers', { ...draftWith(['urgency'], 'never-arrived'), ...meta, id: 'ended' })
  await old.put('dossiers', { ...draftWith(['urgency']), ...meta, id: 'open' })
  old.close()
  const database = await openDatabase(name)
  expect((await readOutcomeTally(database)).byRule.urgency).toEqual(counts(1, 0, 0, 0))
  expect(await readEndings(database)).toHaveLength(1)
  database.close()
})

it('counts thousands once, and reads one record from then on', async () => {
  const database = await openDatabase('many-outcomes')
  const transaction = database.transaction('endings', 'readwrite')
  for (let at = 0; at < 3000; at++)
    transaction.store.put({
      id: `d${at}`,
      outcome: at % 3 === 0 ? 'altered' : 'genuine',
      looked: LOOKED.join(' '),
      raised: at % 2 === 0 ? 'urgency' : '',
      log10: 0.5,
    })
  await transaction.done
  expect((await readOutcomeTally(database)).byRule.urgency).toEqual(counts(500, 500, 1000, 1000))
  await database.clear('endings')
  // Cleared behind its back: a count that were made anew would be empty.
  expect((await readOutcomeTally(database)).wrong).toBe(1000)
  database.close()
})
