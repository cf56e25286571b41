/**
 * Lets go of what deleted dossiers still hold: their pictures, texts and revisions. What stays is the tombstone, so that a merge does not
 * bring them back. Only at a person's word, since nothing brings the bytes back. Pictures that another record names are kept.
 */
import type { Dossier, RecordMeta } from '../domain/dossier.ts'
import { announce } from './changes.ts'
import { type Database, DERIVED_STORES, RECORD_STORES } from './database.ts'
import { writeRecord } from './records.ts'

/** Records read at once. */
const STEP = 100
const TOUCHED = ['dossiers', ...DERIVED_STORES, 'blobs'] as const
const HASH = /"([0-9a-f]{64})"/g

export interface FreeOptions {
  readonly now: string
  readonly signal?: AbortSignal
  /** Share done, 0–1. */
  readonly onProgress?: (share: number) => void
}

export async function freeDeleted(
  database: Database,
  { now, signal, onProgress }: FreeOptions,
): Promise<{ readonly dossiers: number; readonly bytes: number }> {
  const named = new Set<string>()
  const deleted: Dossier[] = []
  const total = (await Promise.all(RECORD_STORES.map((store) => database.count(store)))).reduce((a, b) => a + b, 0)
  let done = 0
  for (const store of RECORD_STORES) {
    let after: string | null = null
    for (;;) {
      signal?.throwIfAborted()
      const range: IDBKeyRange | null = after === null ? null : IDBKeyRange.lowerBound(after, true)
      const some = (await database.getAll(store, range as never, STEP)) as readonly RecordMeta[]
      if (some.length === 0) break
      for (const record of some) {
        if (store === 'dossiers' && record.deletedAt !== null) deleted.push(record as Dossier)
        // By its looks and not by its field: a record of a later version may name pictures where this one knows of none.
        else for (const [, hash] of JSON.stringify(record).matchAll(HASH)) named.add(hash!)
      }
      after = some.at(-1)!.id
      done += some.length
      onProgress?.(done / total)
    }
  }
  let dossiers = 0
  let bytes = 0
  for (const dossier of deleted) {
    signal?.throwIfAborted()
    const hashes = [...JSON.stringify(dossier).matchAll(HASH)].map(([, hash]) => hash!)
    const transaction = database.transaction(TOUCHED, 'readwrite')
    const current = await transaction.objectStore('dossiers').get(dossier.id)
    // Brought back meanwhile, or changed: then it is none of ours.
    if (current?.deletedAt != null && current.revision === dossier.revision && hashes.length > 0) {
      writeRecord(transaction as never, 'dossiers', stripped(current, now))
      for (const hash of new Set(hashes)) {
        const blob = named.has(hash) ? undefined : await transaction.objectStore('blobs').get(hash)
        const stillNamed = await transaction.objectStore('summaries').index('photoHashes').getKey(hash)
        if (blob === undefined || stillNamed !== undefined) continue
        bytes += blob.bytes.byteLength
        await transaction.objectStore('blobs').delete(hash)
      }
      dossiers++
    }
    await transaction.done
  }
  announce({ store: 'dossiers', id: null })
  return { dossiers, bytes }
}

function stripped(dossier: Dossier, now: string): Dossier {
  return {
    ...dossier,
    pageText: '',
    photos: [],
    screenshot: null,
    savedPage: null,
    revisions: [],
    comparisons: [],
    revision: dossier.revision + 1,
    updatedAt: now,
  }
}
