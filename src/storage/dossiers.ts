/** Keeping dossiers: the record, its summary and its bytes are written together or not at all. */
import { addStep } from '../domain/dossier/add-step.ts'
import { diffRevision, isUnchanged, type Seen } from '../domain/dossier/diff-revision.ts'
import type { Dossier, KeptPhoto, LifeStep, ListingRevision, PlainEntry, RecordMeta } from '../domain/dossier.ts'
import { type DossierSummary, fitsSearch } from '../domain/dossier-summary.ts'
import { announce } from './changes.ts'
import { type BlobRecord, type Database, DERIVED_STORES, type WriteTransaction } from './database.ts'
import { namedFault } from './faults.ts'
import { abandon, createRecords, type Stamps, writeRecord } from './records.ts'
import { sha256 } from './sha256.ts'

/** What is to be kept of a listing. Bytes come along and are stored by their hash. */
export interface DossierDraft extends Omit<Dossier, keyof RecordMeta | 'photos' | 'screenshot' | 'log' | 'revisions'> {
  readonly photos: readonly (Omit<KeptPhoto, 'sha256'> & { readonly bytes: ArrayBuffer | null })[]
  /** PNG. */
  readonly screenshot: ArrayBuffer | null
}

const WRITTEN_TOGETHER = ['dossiers', 'blobs', ...DERIVED_STORES] as const

export function createDossiers(database: Database, stamps: Stamps) {
  const records = createRecords(database, 'dossiers', stamps)

  async function toBlob(bytes: ArrayBuffer, mediaType: string): Promise<BlobRecord> {
    return { sha256: await sha256(bytes), mediaType, bytes }
  }

  // Hash before the transaction: it would end while something foreign is awaited.
  async function hashPhotos(drafts: DossierDraft['photos']) {
    const blobs = await Promise.all(
      drafts.map((photo) =>
        photo.bytes === null ? null : toBlob(photo.bytes, photo.mediaType ?? 'application/octet-stream'),
      ),
    )
    const photos = drafts.map(({ bytes: _bytes, ...photo }, index) => ({
      ...photo,
      sha256: blobs[index]?.sha256 ?? null,
    }))
    return { blobs: blobs.filter((blob) => blob !== null), photos }
  }

  async function hashDraft({ photos: drafts, screenshot, ...rest }: DossierDraft) {
    const { blobs, photos } = await hashPhotos(drafts)
    const picture = screenshot === null ? null : await toBlob(screenshot, 'image/png')
    const content: Omit<Dossier, keyof RecordMeta | 'log'> = {
      ...rest,
      photos,
      screenshot: picture?.sha256 ?? null,
    }
    return { blobs: picture === null ? blobs : [...blobs, picture], content }
  }

  async function write(
    blobs: readonly BlobRecord[],
    decide: (transaction: WriteTransaction<(typeof WRITTEN_TOGETHER)[number][]>) => Promise<Dossier>,
  ): Promise<Dossier> {
    const transaction = database.transaction(WRITTEN_TOGETHER, 'readwrite')
    try {
      const dossier = await decide(transaction)
      // One by one: handing twelve photos over at once would hold the page up. What is there already is not written again.
      const kept = transaction.objectStore('blobs')
      for (const blob of blobs) if ((await kept.getKey(blob.sha256)) === undefined) await kept.put(blob)
      writeRecord(transaction as never, 'dossiers', dossier)
      await transaction.done
      announce({ store: 'dossiers', id: dossier.id })
      return dossier
    } catch (error) {
      await abandon(transaction)
      throw namedFault(error)
    }
  }

  return {
    ...records,

    /** Keeps a listing as a new dossier. Throws `StorageFull` with nothing written. */
    async keep(draft: DossierDraft): Promise<Dossier> {
      const { blobs, content } = await hashDraft(draft)
      const now = stamps.now()
      const dossier: Dossier = {
        ...content,
        id: stamps.newId(),
        revision: 1,
        createdAt: now,
        updatedAt: now,
        deletedAt: null,
        log: [{ at: now, event: 'kept', detail: draft.url ?? draft.title }],
      }
      await write(blobs, async () => dossier)
      return dossier
    },

    /**
     * The present state of a kept listing as its newest. A photo that the page no longer shows, or that could not be fetched
     * this time, stays as it was kept.
     */
    async keepAgain(id: string, draft: DossierDraft): Promise<Dossier> {
      const { blobs, content } = await hashDraft(draft)
      return write(blobs, async (transaction) => {
        const current = await transaction.objectStore('dossiers').get(id)
        if (current === undefined) throw new Error(`dossiers has no record ${id}`)
        const kept = new Map(current.photos.map((photo) => [photo.url, photo]))
        const shown = content.photos.map((photo) => (photo.sha256 === null ? (kept.get(photo.url) ?? photo) : photo))
        const gone = current.photos.filter(({ url }) => !shown.some((photo) => photo.url === url))
        const now = stamps.now()
        const before = lastSeen(current)
        const revisions = current.revisions ?? []
        const same = isUnchanged(diffRevision(before, lastSeen({ ...content, photos: shown })))
        const revision = same ? null : revisions.length
        const step: LifeStep = { event: 'seen-again', detail: draft.url ?? draft.title, revision }
        return {
          ...current,
          ...content,
          photos: [...shown, ...gone],
          screenshot: content.screenshot ?? current.screenshot,
          savedPage: content.savedPage ?? current.savedPage ?? null,
          revisions: same ? revisions : [...revisions, toRevision(current, before)],
          revision: current.revision + 1,
          updatedAt: now,
          ...addStep(current, step, { at: now, id: stamps.newId() }),
        }
      })
    },

    /** Adds one line to the log, and whatever else `change` alters. */
    record(
      id: string,
      event: PlainEntry['event'],
      detail: string,
      change: (current: Dossier) => Partial<Dossier> = () => ({}),
    ): Promise<Dossier> {
      return records.update(id, (current) => ({
        ...current,
        ...change(current),
        log: [...current.log, { at: stamps.now(), event, detail }],
      }))
    },

    /**
     * Adds a step of the dossier's life, and whatever else `change` alters. Throws `NothingToUndo` with nothing written where
     * there is nothing to take back.
     */
    addStep(id: string, step: LifeStep, change: (current: Dossier) => Partial<Dossier> = () => ({})): Promise<Dossier> {
      return records.update(id, (current) => ({
        ...current,
        ...change(current),
        ...addStep(current, step, { at: stamps.now(), id: stamps.newId() }),
      }))
    },

    /**
     * A step with what came along: the photos' bytes, the step and whatever else `change` alters, together or not at all.
     * A photo that is there already is not added twice.
     */
    async addStepWithPhotos(
      id: string,
      step: LifeStep,
      drafts: DossierDraft['photos'],
      change: (current: Dossier) => Partial<Dossier> = () => ({}),
    ): Promise<Dossier> {
      const { blobs, photos } = await hashPhotos(drafts)
      return write(blobs, async (transaction) => {
        const current = await transaction.objectStore('dossiers').get(id)
        if (current === undefined) throw new Error(`dossiers has no record ${id}`)
        const present = new Set(current.photos.map(({ url }) => url))
        const now = stamps.now()
        return {
          ...current,
          photos: [...current.photos, ...photos.filter(({ url }) => !present.has(url))],
          ...change(current),
          ...addStep(current, step, { at: now, id: stamps.newId() }),
          revision: current.revision + 1,
          updatedAt: now,
        }
      })
    },

    /** Summaries that fit every word of `query`, newest first. */
    async search(query: string): Promise<DossierSummary[]> {
      const all = (await readSummaries(database)).filter((summary) => fitsSearch(summary, query))
      return all.sort((a, b) => (a.updatedAt < b.updatedAt ? 1 : a.updatedAt > b.updatedAt ? -1 : 0))
    },

    /** The `count` dossiers captured last, newest first: what a list shows before all of it is read. */
    async newest(count: number): Promise<DossierSummary[]> {
      const newest: DossierSummary[] = []
      let cursor = await database.transaction('summaries').store.index('capturedAt').openCursor(null, 'prev')
      for (; cursor && newest.length < count; cursor = await cursor.continue())
        if (cursor.value.deletedAt === null) newest.push(cursor.value)
      return newest
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

/** Summaries read at once: some milliseconds of unpacking, between which the window stays alive. */
const SUMMARIES_A_STEP = 2000

async function readSummaries(database: Database): Promise<DossierSummary[]> {
  const all: DossierSummary[] = []
  let range: IDBKeyRange | null = null
  for (;;) {
    const some: DossierSummary[] = await database.getAll('summaries', range, SUMMARIES_A_STEP)
    for (const summary of some) if (summary.deletedAt === null) all.push(summary)
    const last = some.at(-1)
    if (last === undefined || some.length < SUMMARIES_A_STEP) return all
    range = IDBKeyRange.lowerBound(last.id, true)
  }
}

/** The listing and the photos that its page showed, as they were read last. Photos of replies are none of the page's. */
function lastSeen({ inspection, photos }: Pick<Dossier, 'inspection' | 'photos'>): Seen {
  const { listing } = inspection
  const kept = new Map(photos.map((photo) => [photo.url, photo]))
  return {
    listing,
    photos: listing.photos.map(({ url }) => ({
      url,
      sha256: kept.get(url)?.sha256 ?? null,
      pdq: kept.get(url)?.facts?.pdq ?? null,
    })),
  }
}

function toRevision({ capturedAt, pageText, screenshot }: Dossier, { listing, photos }: Seen): ListingRevision {
  return { capturedAt, listing, pageText, photos, screenshot }
}

export type Dossiers = ReturnType<typeof createDossiers>
