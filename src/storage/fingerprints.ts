/**
 * The fingerprints of every kept photo, in memory for searching and in the database in large records. Derived from the dossiers: what
 * was kept, changed or deleted since the last look is caught up with at the next. Finds candidates; judges none.
 */
import type { Dossier } from '../domain/dossier.ts'
import {
  type AlikeIndex,
  createAlikeIndex,
  PRINT_KINDS,
  type PrintMatch,
  storedPrints,
} from '../domain/fingerprints/find-alike.ts'
import { createFingerprintIndex, WORDS } from '../domain/fingerprints/fingerprint-index.ts'
import type { PhotoFacts } from '../domain/photo-facts.ts'
import type { Database, FingerprintChunk } from './database.ts'

/** Where a fingerprint is from. */
interface Source {
  readonly id: string
  readonly revision: number
  /** The place in `Dossier.photos`. */
  readonly photo: number
}

export interface AlikePhoto {
  readonly dossier: Dossier
  /** The place in its photos. */
  readonly photo: number
  readonly match: PrintMatch
}

// Fingerprints: a smaller last record is written anew together with what is added, so that records stay few.
const FULL_CHUNK = 4096
// Nearest kept photos that are worth a look.
const MOST_ALIKE = 8

type Chunked = FingerprintChunk['dossiers'][number]

export function createFingerprints(database: Database) {
  let index: AlikeIndex<Source> = createAlikeIndex()
  /** The revision of each dossier that counts; `null`: deleted. */
  let present = new Map<string, number | null>()
  let newest = ''
  let last: FingerprintChunk | null = null
  let ready: Promise<void> | null = null

  function take(chunk: FingerprintChunk): void {
    const [words, kinds, photos] = [
      new Uint32Array(chunk.words),
      new Uint8Array(chunk.kinds),
      new Uint16Array(chunk.photos),
    ]
    let at = 0
    for (const dossier of chunk.dossiers) {
      note(dossier)
      for (const end = at + dossier.count; at < end; ) {
        const photo = photos[at]!
        const prints: { kind: (typeof PRINT_KINDS)[number]; words: Uint32Array }[] = []
        for (; at < end && photos[at] === photo; at++)
          prints.push({ kind: PRINT_KINDS[kinds[at]!]!, words: words.subarray(at * WORDS, (at + 1) * WORDS) })
        index.add({ id: dossier.id, revision: dossier.revision, photo }, prints)
      }
    }
    last = chunk
  }

  function note({ id, revision, updatedAt }: Chunked): void {
    present.set(id, revision)
    if (updatedAt > newest) newest = updatedAt
  }

  async function load(): Promise<void> {
    const chunks = await database.getAll('fingerprints')
    const entries = chunks.reduce((sum, { kinds }) => sum + kinds.byteLength, 0)
    index = createAlikeIndex(createFingerprintIndex(Math.max(1024, entries)))
    present = new Map()
    newest = ''
    last = null
    for (const chunk of chunks) take(chunk)
  }

  /** What was kept, changed, deleted or restored since. */
  async function catchUp(): Promise<void> {
    const changed = await database.getAllKeysFromIndex('summaries', 'updatedAt', IDBKeyRange.lowerBound(newest, true))
    const missing = new Set(changed)
    if ((await database.count('summaries')) !== new Set([...present.keys(), ...changed]).size) {
      // A backup brought older ones in, or some are gone for good.
      const all = await database.getAllKeys('summaries')
      const there = new Set(all)
      for (const id of present.keys()) if (!there.has(id)) present.set(id, null)
      for (const id of all) if (!present.has(id)) missing.add(id)
    }
    for (const group of inGroups([...missing], 50)) {
      const dossiers = await Promise.all(group.map((id) => database.get('dossiers', id)))
      await append(dossiers.filter((dossier) => dossier !== undefined))
    }
  }

  async function append(dossiers: readonly Dossier[]): Promise<void> {
    if (dossiers.length === 0) return
    const added = pack(dossiers, last === null ? 0 : last.chunk + 1)
    const joined = last !== null && last.kinds.byteLength < FULL_CHUNK ? join(last, added) : added
    take(added)
    last = joined
    for (const dossier of dossiers) if (dossier.deletedAt !== null) present.set(dossier.id, null)
    await database.put('fingerprints', joined)
  }

  return {
    /** Ready to search. Costs nothing where nothing changed. */
    async refresh(): Promise<void> {
      const before = ready ?? load()
      ready = before.then(catchUp)
      await ready
    },
    get size(): number {
      return index.size
    },
    /** Kept photos that may be this one, nearest first, at most eight; those of the listing itself left out. */
    async findAlike(
      facts: Pick<PhotoFacts, 'pdq' | 'pdqQuality' | 'prints'>,
      ownUrl: string | null,
    ): Promise<AlikePhoto[]> {
      const found: AlikePhoto[] = []
      for (const { owner, match } of index.find(facts)) {
        if (present.get(owner.id) !== owner.revision) continue
        const dossier = await database.get('dossiers', owner.id)
        if (dossier === undefined || dossier.deletedAt !== null || (ownUrl !== null && dossier.url === ownUrl)) continue
        found.push({ dossier, photo: owner.photo, match })
        if (found.length === MOST_ALIKE) break
      }
      return found
    },
  }
}

function pack(dossiers: readonly Dossier[], chunk: number): FingerprintChunk {
  const words: Uint32Array[] = []
  const kinds: number[] = []
  const photos: number[] = []
  const listed = dossiers.map(({ id, revision, updatedAt, deletedAt, photos: kept }) => {
    const before = kinds.length
    if (deletedAt === null) {
      kept.forEach(({ facts }, place) => {
        for (const print of facts === null ? [] : storedPrints(facts)) {
          words.push(print.words)
          kinds.push(PRINT_KINDS.indexOf(print.kind))
          photos.push(place)
        }
      })
    }
    return { id, revision, updatedAt, count: kinds.length - before }
  })
  const all = new Uint32Array(words.length * WORDS)
  words.forEach((one, i) => {
    all.set(one, i * WORDS)
  })
  return {
    chunk,
    dossiers: listed,
    words: all.buffer,
    kinds: Uint8Array.from(kinds).buffer,
    photos: Uint16Array.from(photos).buffer,
  }
}

function join(a: FingerprintChunk, b: FingerprintChunk): FingerprintChunk {
  const both = (p: ArrayBuffer, q: ArrayBuffer) => {
    const bytes = new Uint8Array(p.byteLength + q.byteLength)
    bytes.set(new Uint8Array(p))
    bytes.set(new Uint8Array(q), p.byteLength)
    return bytes.buffer
  }
  return {
    chunk: a.chunk,
    dossiers: [...a.dossiers, ...b.dossiers],
    words: both(a.words, b.words),
    kinds: both(a.kinds, b.kinds),
    photos: both(a.photos, b.photos),
  }
}

function inGroups<Item>(items: readonly Item[], size: number): Item[][] {
  return Array.from({ length: Math.ceil(items.length / size) }, (_, i) => items.slice(i * size, (i + 1) * size))
}
