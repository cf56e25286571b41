import 'fake-indexeddb/auto'
import fc from 'fast-check'
import { unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { restoreBackup, writeBackup } from '../../src/storage/backup.ts'
import { type Database, openDatabase, RECORD_STORES } from '../../src/storage/database.ts'
import { createDossiers } from '../../src/storage/dossiers.ts'
import { BackupFault } from '../../src/storage/faults.ts'
import { createRecords } from '../../src/storage/records.ts'
import { changeSettings } from '../../src/storage/settings.ts'
import { countingStamps, sampleDraft } from './sample-dossier.ts'

let run = 0
const fresh = () => openDatabase(`backup-${run++}`)

async function filled(): Promise<Database> {
  const database = await fresh()
  const stamps = countingStamps()
  const dossiers = createDossiers(database, stamps)
  await dossiers.keep(sampleDraft())
  const { id } = await dossiers.keep(sampleDraft({ title: 'Mire Beetle', url: null, screenshot: null }))
  await dossiers.remove(id)
  await createRecords(database, 'graders', stamps).add({
    name: 'Old Lantern Quorum',
    abbreviations: ['OLQ'],
    accepted: true,
  })
  await changeSettings(database, { currency: 'CHF', setUpAt: '2026-11-18T12:00:00.000Z' })
  return database
}

const blobOf = (bytes: Uint8Array) => new Blob([bytes as Uint8Array<ArrayBuffer>])

async function backup(database: Database): Promise<Uint8Array> {
  const chunks: Uint8Array[] = []
  await writeBackup(database, '2026-11-18T13:00:00.000Z', (chunk) => void chunks.push(chunk))
  return new Uint8Array(Buffer.concat(chunks))
}

async function everything(database: Database): Promise<unknown> {
  const all: Record<string, unknown> = {}
  for (const store of [...RECORD_STORES, 'summaries', 'blobs', 'settings'] as const)
    all[store] = await database.getAll(store)
  return all
}

describe('a backup', () => {
  it('comes back without loss, tombstones and bytes included', async () => {
    const source = await filled()
    const target = await fresh()
    const report = await restoreBackup(target, blobOf(await backup(source)))
    expect(report).toEqual({ added: 3, replaced: 0, left: 0 })
    expect(await everything(target)).toEqual(await everything(source))
  })

  it('restored twice changes nothing the second time', async () => {
    const source = await filled()
    const file = await backup(source)
    const before = await everything(source)
    expect(await restoreBackup(source, blobOf(file))).toEqual({ added: 0, replaced: 0, left: 3 })
    expect(await everything(source)).toEqual(before)
  })

  it('replaces a record only by a later revision', async () => {
    const source = await filled()
    const older = await backup(source)
    const [dossier] = await createDossiers(source, countingStamps()).list()
    await createDossiers(source, countingStamps()).record(dossier?.id ?? '', 'note', 'later', () => ({
      notes: 'later',
    }))
    const newer = await backup(source)
    const target = await fresh()
    await restoreBackup(target, blobOf(newer))
    await restoreBackup(target, blobOf(older))
    expect((await target.get('dossiers', dossier?.id ?? ''))?.notes).toBe('later')
  })

  it('reports progress up to the end, and ends at once when cancelled', async () => {
    const source = await filled()
    const shares: number[] = []
    await writeBackup(source, '2026-11-18T13:00:00.000Z', () => {}, { onProgress: (share) => void shares.push(share) })
    expect(shares.at(-1)).toBe(1)
    expect([...shares].sort((a, b) => a - b)).toEqual(shares)
    await expect(
      writeBackup(source, '2026-11-18T13:00:00.000Z', () => {}, { signal: AbortSignal.abort(new Error('enough')) }),
    ).rejects.toThrow('enough')
  })
})

describe('a file that is no good', () => {
  const refused = async (file: Uint8Array) => {
    const target = await fresh()
    const error = await restoreBackup(target, blobOf(file)).catch((reason: unknown) => reason)
    expect(error).toBeInstanceOf(BackupFault)
    expect(await target.count('dossiers')).toBe(0)
    return (error as BackupFault).message
  }

  it('is named: not a zip, another zip, a missing file, a changed one, an unlisted one', async () => {
    const good = await backup(await filled())
    const parts = unzipSync(good)
    expect(await refused(new TextEncoder().encode('<html>'))).toContain('no zip file')
    expect(await refused(zipSync({ 'a.txt': new Uint8Array([1]) }))).toContain('backup.json')
    const { 'settings.json': _gone, ...without } = parts
    expect(await refused(zipSync(without))).toContain('settings.json: is missing')
    const path = Object.keys(parts).find((name) => name.startsWith('blobs/')) ?? ''
    expect(await refused(zipSync({ ...parts, [path]: new Uint8Array([9]) }))).toContain(`${path}: was changed`)
    expect(await refused(zipSync({ ...parts, 'extra.txt': new Uint8Array([9]) }))).toContain('extra.txt: is not listed')
  })

  it('is refused before it is unpacked when it claims to fill the memory', async () => {
    const parts = unzipSync(await backup(await filled()))
    const swollen = zipSync({ ...parts, 'extra.txt': new Uint8Array(80 * 2 ** 20) })
    expect(swollen.length).toBeLessThan(2 ** 20)
    expect(await refused(swollen)).toContain('extra.txt: is larger than a backup can hold')
  })

  it('writes nothing, whatever byte was damaged or wherever it was cut', async () => {
    const good = await backup(await filled())
    const whole = await everything(await restored(good))
    await fc.assert(
      fc.asyncProperty(
        fc.nat(good.length - 1),
        fc.integer({ min: 1, max: 255 }),
        fc.boolean(),
        async (at, xor, cut) => {
          const bad = cut ? good.slice(0, at) : good.slice()
          if (!cut) bad[at] = (bad[at] ?? 0) ^ xor
          const target = await fresh()
          try {
            await restoreBackup(target, blobOf(bad))
            // A byte that no reader looks at (a time stamp of the zip) may differ; then all of it must have come through.
            expect(await everything(target)).toEqual(whole)
          } catch (error) {
            expect(error).toBeInstanceOf(BackupFault)
            expect(await target.count('dossiers')).toBe(0)
          }
          target.close()
        },
      ),
      { numRuns: 60 },
    )
  })
})

async function restored(file: Uint8Array): Promise<Database> {
  const target = await fresh()
  await restoreBackup(target, blobOf(file))
  return target
}
