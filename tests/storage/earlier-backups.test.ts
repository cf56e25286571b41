/** A backup of every earlier version of the format restores; and the present one is among them, so that a change of it is noticed. */
import 'fake-indexeddb/auto'
import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { deriveState } from '../../src/domain/dossier/derive-state.ts'
import { summarise } from '../../src/domain/dossier-summary.ts'
import { restoreBackup } from '../../src/storage/backup.ts'
import { openDatabase } from '../../src/storage/database.ts'

const FOLDER = join(import.meta.dirname, '../fixtures/backups')
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.zip'))

it('there is one of every version', () => expect(files).toEqual(['version-1.zip', 'version-2.zip']))

it.each(files)('%s restores', async (name) => {
  const database = await openDatabase(`earlier-${name}`)
  const report = await restoreBackup(database, new Blob([readFileSync(join(FOLDER, name))]))
  expect(report).toMatchObject({ replaced: 0, left: 0 })
  const dossiers = await database.getAll('dossiers')
  expect(dossiers.map(({ title, deletedAt }) => [title, deletedAt !== null]).sort()).toEqual([
    ['Harbour Ships of the Cold Coast 1931 #12 Grey Petrel', false],
    ['Mire Beetle', true],
  ])
  const kept = dossiers.find(({ deletedAt }) => deletedAt === null)!
  expect(deriveState(kept.log)).toMatchObject({ stage: 'closed', outcome: 'genuine' })
  for (const dossier of dossiers) expect(await database.get('summaries', dossier.id)).toEqual(summarise(dossier))
  for (const { sha256 } of kept.photos) expect(await database.get('blobs', sha256!)).toBeDefined()
  for (const store of ['graders', 'riskyIssues', 'sales', 'siteHints'] as const)
    expect(await database.count(store)).toBe(1)
  expect(await database.get('settings', 'settings')).toMatchObject({ currency: 'CHF' })
})

it.skipIf(spawnSync('unzip', ['-v']).error !== undefined)('Debian’s unzip reads the present one', () => {
  const { status, stdout } = spawnSync('unzip', ['-t', join(FOLDER, 'version-2.zip')], { encoding: 'utf8' })
  expect({ status, stdout }).toMatchObject({ status: 0, stdout: expect.stringContaining('No errors detected') })
})
