/**
 * Keeping exemplars and examinations: the records, and their pictures once under their SHA-256. A record is written only after its
 * pictures are, so that none refers to bytes that are not there.
 */
import type { StoredPicture } from '../domain/examination.ts'
import type { Database } from './database.ts'
import { namedFault } from './faults.ts'
import { createRecords, type Stamps } from './records.ts'
import { sha256 } from './sha256.ts'

export function createExemplars(database: Database, stamps: Stamps) {
  return {
    exemplars: createRecords(database, 'exemplars', stamps),
    examinations: createRecords(database, 'examinations', stamps),

    /** Throws `StorageFull` with nothing written. */
    async keepPicture(bytes: ArrayBuffer, mediaType: string): Promise<StoredPicture> {
      const hash = await sha256(bytes)
      try {
        await database.put('blobs', { sha256: hash, mediaType, bytes })
      } catch (error) {
        throw namedFault(error)
      }
      return { sha256: hash, mediaType }
    },
  }
}
