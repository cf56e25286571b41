/** Keeping dossiers: the record, its summary and its bytes are written together or not at all. */
import type { Dossier, KeptPhoto, LogEntry, RecordMeta } from '../domain/dossier.ts'
import { type DossierSummary, fitsSearch } from '../domain/dossier-summary.ts'
import { announce } from './changes.ts'
import type { BlobRecord, Database } from './database.ts'
import { namedFault } from './faults.ts'
import { createRecords, type Stamps, writeRecord } from './records.ts'
import { sha256 } from './sha256.ts'

/** What is to be kept of a listing. Bytes come along and are stored by their hash. */
export interface DossierDraft extends Omit<Dossier, keyof RecordMeta | 'photos' | 'screenshot' | 'log'> {
  readonly photos: readonly (Omit<KeptPhoto, 'sha256'> & { readonly bytes: ArrayBuffer | null })[]
  /** PNG. */
  readonly screenshot: ArrayBuffer | null
}

export function createDossiers(database: Database, stamps: Stamps) {
  const records = createRecords(database, 'dossiers', stamps)

  async function toBlob(bytes: ArrayBuffer, mediaType: string): Promise<BlobRecord> {
    return { sha256: await sha256(bytes), mediaType, bytes }
  }

  return {
    ...records,

    /** Keeps a listing as a new dossier. Throws `StorageFull` with nothing written. */
    async keep(draft: DossierDraft): Promise<Dossier> {
      // Hash before the transaction: it would end while something foreign is awaited.
      const photoBlobs = await Promise.all(
        draft.photos.map((photo) =>
          photo.bytes === null ? null : toBlob(photo.bytes, photo.mediaType ?? 'application/octet-stream'),
        ),
      )
      const screenshot = draft.screenshot === null ? null : await toBlob(draft.screenshot, 'image/png')
      const now = stamps.now()
      const dossier: Dossier = {
        ...draft,
        id: stamps.newId(),
        revision: 1,
        createdAt: now,
        updatedAt: now,
        deletedAt: null,
        photos: draft.photos.map(({ bytes: _bytes, ...photo }, index) => ({
          ...photo,
          sha256: photoBlobs[index]?.sha256 ?? null,
        })),
        screenshot: screenshot?.sha256 ?? null,
        log: [{ at: now, event: 'kept', detail: draft.url ?? draft.title }],
      }
      try {
        const transaction = database.transaction(['dossiers', 'summaries', 'blobs'], 'readwrite')
        for (const blob of [...photoBlobs, screenshot])
          if (blob !== null)
            transaction
              .objectStore('blobs')
              .put(blob)
              .catch(() => {})
        writeRecord(transaction as never, 'dossiers', dossier)
        await transaction.done
      } catch (error) {
        throw namedFault(error)
      }
      announce({ store: 'dossiers', id: dossier.id })
      return dossier
    },

    /** Adds one line to the log, and whatever else `change` alters. */
    record(
      id: string,
      event: LogEntry['event'],
      detail: string,
      change: (current: Dossier) => Partial<Dossier> = () => ({}),
    ): Promise<Dossier> {
      return records.update(id, (current) => ({
        ...current,
        ...change(current),
        log: [...current.log, { at: stamps.now(), event, detail }],
      }))
    },

    /** Summaries that fit every word of `query`, newest first. */
    async search(query: string): Promise<DossierSummary[]> {
      const summaries = await database.getAllFromIndex('summaries', 'updatedAt')
      return summaries.filter((summary) => summary.deletedAt === null && fitsSearch(summary, query)).reverse()
    },

    /** The newest dossier of this address, a deleted one left out. */
    async findByUrl(url: string): Promise<Dossier | null> {
      const found = (await database.getAllFromIndex('dossiers', 'url', url)).filter((one) => one.deletedAt === null)
      return found.sort((a, b) => b.updatedAt.localeCompare(a.updatedAt))[0] ?? null
    },

    async readBlob(hash: string): Promise<BlobRecord | null> {
      return (await database.get('blobs', hash)) ?? null
    },
  }
}

export type Dossiers = ReturnType<typeof createDossiers>
