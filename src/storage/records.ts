/**
 * Reading and writing records that carry an id, a revision and a tombstone. Every change reads the stored record and
 * writes its successor in one transaction, so that two windows cannot lose each other's work.
 */
import type { RecordMeta } from '../domain/dossier.ts'
import { summarise } from '../domain/dossier-summary.ts'
import { endingOf, hasEverEnded } from '../domain/ending.ts'
import { announce } from './changes.ts'
import {
  type Database,
  DERIVED_STORES,
  type RecordStore,
  type TouchstoneSchema,
  type WriteTransaction,
} from './database.ts'
import { namedFault, RevisionConflict } from './faults.ts'

type RecordOf<Store extends RecordStore> = TouchstoneSchema[Store]['value']
/** A record before it has been stored: everything but what storing adds. */
export type Draft<Store extends RecordStore> = Omit<RecordOf<Store>, keyof RecordMeta>

/** Time and identity come from outside, so that a test decides them. */
export interface Stamps {
  /** ISO 8601 in UTC. */
  readonly now: () => string
  readonly newId: () => string
}

type Derived = (typeof DERIVED_STORES)[number]

/** Writes one record as it is; a dossier takes what is derived from it along. For use inside a transaction that spans all. */
export function writeRecord<Store extends RecordStore>(
  transaction: WriteTransaction<[Store, ...Derived[]]>,
  store: Store,
  record: RecordOf<Store>,
): void {
  // Not awaited one by one: the transaction's `done` settles for all, and rejects if one of them failed.
  quiet(transaction.objectStore(store).put(record as never))
  if (store === 'dossiers') writeDerived(transaction as never, record as RecordOf<'dossiers'>)
}

function writeDerived(transaction: WriteTransaction<Derived[]>, dossier: RecordOf<'dossiers'>): void {
  quiet(transaction.objectStore('summaries').put(summarise(dossier)))
  if (!hasEverEnded(dossier)) return
  const ending = endingOf(dossier)
  const endings = transaction.objectStore('endings')
  quiet(ending === null ? endings.delete(dossier.id) : endings.put(ending))
  quiet(transaction.objectStore('tallies').delete('outcomes'))
}

/** The failure reaches the caller through the transaction's `done`; the request's own promise needs no second listener. */
function quiet(request: Promise<unknown>): void {
  request.catch(() => {})
}

export function createRecords<Store extends RecordStore>(database: Database, store: Store, stamps: Stamps) {
  type Stored = RecordOf<Store>
  const scope = [store, ...DERIVED_STORES] as [Store, ...Derived[]]

  async function change(id: string, next: (current: Stored) => Stored): Promise<Stored> {
    const transaction = database.transaction(scope, 'readwrite')
    try {
      const current = (await transaction.objectStore(store).get(id as never)) as Stored | undefined
      if (current === undefined) throw new Error(`${store} has no record ${id}`)
      const changed = {
        ...next(current),
        id: current.id,
        createdAt: current.createdAt,
        revision: current.revision + 1,
        updatedAt: stamps.now(),
      }
      writeRecord(transaction, store, changed)
      await transaction.done
      announce({ store, id })
      return changed
    } catch (error) {
      await abandon(transaction)
      throw namedFault(error)
    }
  }

  return {
    /** The record, a deleted one included; `null` where there is none. */
    async get(id: string): Promise<Stored | null> {
      return ((await database.get(store, id as never)) as Stored | undefined) ?? null
    },

    /** All records that are not deleted, in no particular order. */
    async list(): Promise<Stored[]> {
      return ((await database.getAll(store)) as Stored[]).filter((record) => record.deletedAt === null)
    },

    async add(draft: Draft<Store>, id = stamps.newId()): Promise<Stored> {
      const now = stamps.now()
      const record = { ...draft, id, revision: 1, createdAt: now, updatedAt: now, deletedAt: null } as unknown as Stored
      const transaction = database.transaction(scope, 'readwrite')
      try {
        if ((await transaction.objectStore(store).getKey(id as never)) !== undefined)
          throw new RevisionConflict(store, id)
        writeRecord(transaction, store, record)
        await transaction.done
      } catch (error) {
        await abandon(transaction)
        throw namedFault(error)
      }
      announce({ store, id })
      return record
    },

    /** Adds many at once, all or none. One whose id is known already is left as it is, unless it was deleted: then it is back. */
    async addAll(
      drafts: readonly (Draft<Store> & { readonly id: string })[],
    ): Promise<{ added: number; known: number }> {
      const now = stamps.now()
      const transaction = database.transaction(scope, 'readwrite')
      let added = 0
      try {
        for (const draft of drafts) {
          const present = (await transaction.objectStore(store).get(draft.id as never)) as Stored | undefined
          if (present !== undefined && present.deletedAt === null) continue
          const revision = (present?.revision ?? 0) + 1
          const createdAt = present?.createdAt ?? now
          const record = { ...draft, revision, createdAt, updatedAt: now, deletedAt: null } as unknown as Stored
          writeRecord(transaction, store, record)
          added++
        }
        await transaction.done
      } catch (error) {
        await abandon(transaction)
        throw namedFault(error)
      }
      announce({ store, id: null })
      return { added, known: drafts.length - added }
    },

    /** Replaces the stored record by what `next` makes of it; refused when it is no longer at `seenRevision`. */
    update(id: string, next: (current: Stored) => Stored, seenRevision?: number): Promise<Stored> {
      return change(id, (current) => {
        if (seenRevision !== undefined && current.revision !== seenRevision) throw new RevisionConflict(store, id)
        return next(current)
      })
    },

    /** Leaves a tombstone; `restore` takes it away again. */
    remove(id: string): Promise<Stored> {
      return change(id, (current) => ({ ...current, deletedAt: stamps.now() }))
    },

    restore(id: string): Promise<Stored> {
      return change(id, (current) => ({ ...current, deletedAt: null }))
    },
  }
}

/** Ends a transaction without writing; one that has ended by itself is left alone. */
export async function abandon(transaction: { abort(): void; done: Promise<void> }): Promise<void> {
  try {
    transaction.abort()
  } catch {
    // Already finished or already aborted.
  }
  await transaction.done.catch(() => {})
}
