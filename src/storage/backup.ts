/**
 * Everything kept, as one zip file, and back. Layout, in this order:
 *   records/<store>-<n>.ndjson   one record a line, at most RECORDS_A_FILE lines
 *   blobs/<sha256>               photos and screenshots, byte for byte
 *   blobs.ndjson                 `{sha256, mediaType}` a line
 *   settings.json
 *   backup.json                  format, version, time, and the SHA-256 of every other file
 * Reading checks every hash and every record before the first write, and writes all in one transaction or nothing.
 */
import { strFromU8, strToU8, unzip, Zip, ZipDeflate, ZipPassThrough } from 'fflate'
import * as v from 'valibot'
import { DEFAULT_SETTINGS, type Settings } from '../domain/settings.ts'
import { announce } from './changes.ts'
import { type BlobRecord, type Database, DERIVED_STORES, RECORD_STORES, type RecordStore } from './database.ts'
import { BackupFault, namedFault } from './faults.ts'
import { RECORD_SCHEMAS, SETTINGS_SCHEMA } from './record-schemas.ts'
import { writeRecord } from './records.ts'
import { sha256 } from './sha256.ts'

const FORMAT = 'touchstone-backup'
const SCHEMA_VERSION = 1
/** Keeps one file, and so one string in memory, to some tens of MB: a dossier is about 50 kB of JSON. */
const RECORDS_A_FILE = 500
/** A file in the zip that claims to unpack to more than this is refused: 2 GiB, the most one ArrayBuffer safely holds. */
const LARGEST_FILE_BYTES = 2 ** 31
/**
 * Photos are stored as they are and our records shrink to about a tenth: what claims to unpack to far more than the zip is large is
 * made to fill the memory. The allowance is for small backups. Ours, no source.
 */
const MOST_TIMES_LARGER = 50
const ALWAYS_ALLOWED_BYTES = 64 * 2 ** 20

const MANIFEST = v.strictObject({
  format: v.literal(FORMAT),
  schemaVersion: v.literal(SCHEMA_VERSION),
  createdAt: v.string(),
  files: v.record(v.string(), v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/))),
})
const BLOB_LINE = v.strictObject({ sha256: v.string(), mediaType: v.string() })

export interface BackupOptions {
  readonly signal?: AbortSignal
  /** Share done, 0–1. */
  readonly onProgress?: (share: number) => void
}

export interface RestoreReport {
  readonly added: number
  readonly replaced: number
  /** Already here at the same or a later revision. */
  readonly left: number
}

/** Writes the backup chunk by chunk into `sink`. Rejects with the signal's reason when cancelled. */
export async function writeBackup(
  database: Database,
  createdAt: string,
  sink: (chunk: Uint8Array) => void | Promise<void>,
  { signal, onProgress }: BackupOptions = {},
): Promise<void> {
  let pending: Promise<void> = Promise.resolve()
  let failure: unknown = null
  const zip = new Zip((error, chunk) => {
    if (error) failure = error
    else pending = pending.then(() => sink(chunk))
  })
  const files: Record<string, string> = {}
  async function add(path: string, bytes: Uint8Array<ArrayBuffer>, compress: boolean): Promise<void> {
    signal?.throwIfAborted()
    if (path !== 'backup.json') files[path] = await sha256(bytes)
    const entry = compress ? new ZipDeflate(path, { level: 6 }) : new ZipPassThrough(path)
    zip.add(entry)
    entry.push(bytes, true)
    await pending
    if (failure !== null) throw failure
  }

  const keys = new Map<RecordStore, string[]>()
  for (const store of RECORD_STORES) keys.set(store, (await database.getAllKeys(store)) as string[])
  const hashes = await database.getAllKeys('blobs')
  const total = [...keys.values()].reduce((sum, ids) => sum + ids.length, 0) + hashes.length
  let done = 0
  const advance = (by: number) => {
    done += by
    onProgress?.(total === 0 ? 1 : done / total)
  }

  for (const [store, ids] of keys)
    for (let from = 0; from < ids.length; from += RECORDS_A_FILE) {
      const some = ids.slice(from, from + RECORDS_A_FILE)
      const range = IDBKeyRange.bound(some[0], some.at(-1))
      const lines = (await database.getAll(store, range as never)).map((record) => `${JSON.stringify(record)}\n`)
      await add(`records/${store}-${from / RECORDS_A_FILE + 1}.ndjson`, bytesOf(lines.join('')), true)
      advance(some.length)
    }

  const blobLines: string[] = []
  for (const hash of hashes) {
    const blob = await database.get('blobs', hash)
    if (blob === undefined) continue
    // Photos are compressed already.
    await add(`blobs/${hash}`, new Uint8Array(blob.bytes), false)
    blobLines.push(`${JSON.stringify({ sha256: hash, mediaType: blob.mediaType })}\n`)
    advance(1)
  }
  await add('blobs.ndjson', bytesOf(blobLines.join('')), true)
  await add('settings.json', bytesOf(JSON.stringify((await database.get('settings', 'settings')) ?? null)), true)
  await add(
    'backup.json',
    bytesOf(JSON.stringify({ format: FORMAT, schemaVersion: SCHEMA_VERSION, createdAt, files })),
    true,
  )
  zip.end()
  await pending
  if (failure !== null) throw failure
}

/** Merges a backup into the database. Throws `BackupFault` or `StorageFull` with nothing written. */
export async function restoreBackup(
  database: Database,
  file: Uint8Array,
  { signal, onProgress }: BackupOptions = {},
): Promise<RestoreReport> {
  const contents = await openBackup(file, signal, (share) => onProgress?.(share * 0.8))
  signal?.throwIfAborted()
  let added = 0
  let replaced = 0
  let left = 0
  const transaction = database.transaction([...RECORD_STORES, ...DERIVED_STORES, 'blobs', 'settings'], 'readwrite')
  try {
    for (const [store, records] of contents.records)
      for (const record of records) {
        const present = await transaction.objectStore(store).get(record.id)
        if (present !== undefined && !isLater(record, present)) {
          left++
          continue
        }
        if (present === undefined) added++
        else replaced++
        writeRecord(transaction as never, store, record as never)
      }
    for (const blob of contents.blobs)
      transaction
        .objectStore('blobs')
        .put(blob)
        .catch(() => {})
    const settings = transaction.objectStore('settings')
    if (contents.settings !== null && (await settings.get('settings')) === undefined)
      await settings.put(contents.settings, 'settings')
    signal?.throwIfAborted()
    await transaction.done
  } catch (error) {
    try {
      transaction.abort()
    } catch {
      // It has ended by itself.
    }
    await transaction.done.catch(() => {})
    throw namedFault(error)
  }
  onProgress?.(1)
  for (const store of RECORD_STORES) announce({ store, id: null })
  return { added, replaced, left }
}

interface Revised {
  readonly id: string
  readonly revision: number
  readonly updatedAt: string
}

function isLater(candidate: Revised, present: Revised): boolean {
  if (candidate.revision !== present.revision) return candidate.revision > present.revision
  return candidate.updatedAt > present.updatedAt
}

interface Contents {
  readonly records: readonly (readonly [RecordStore, readonly Revised[]])[]
  readonly blobs: readonly BlobRecord[]
  readonly settings: Settings | null
}

async function openBackup(file: Uint8Array, signal: AbortSignal | undefined, onProgress: (share: number) => void) {
  const files = await unpack(file)
  const manifestBytes = files['backup.json']
  if (manifestBytes === undefined) throw new BackupFault('backup.json', 'is missing: this is no backup of Touchstone')
  const manifest = parseWith(MANIFEST, 'backup.json', strFromU8(manifestBytes))
  const records: [RecordStore, Revised[]][] = []
  const blobs: BlobRecord[] = []
  const mediaTypes = new Map<string, string>()
  let settings: Settings | null = null
  const expected = Object.entries(manifest.files)
  for (const path of Object.keys(files))
    if (path !== 'backup.json' && !Object.hasOwn(manifest.files, path))
      throw new BackupFault(path, 'is not listed in backup.json')

  const blobPaths: [string, Uint8Array<ArrayBuffer>][] = []
  for (const [index, [path, hash]] of expected.entries()) {
    signal?.throwIfAborted()
    const bytes = Object.hasOwn(files, path) ? files[path] : undefined
    if (bytes === undefined) throw new BackupFault(path, 'is missing')
    if ((await sha256(bytes)) !== hash) throw new BackupFault(path, 'was changed since the backup was made')
    const store = RECORD_STORES.find((name) => path.startsWith(`records/${name}-`))
    if (store !== undefined) records.push([store, parseLines(RECORD_SCHEMAS[store], path, bytes) as Revised[]])
    else if (path.startsWith('blobs/')) blobPaths.push([path, bytes])
    else if (path === 'blobs.ndjson')
      for (const line of parseLines(BLOB_LINE, path, bytes)) mediaTypes.set(line.sha256, line.mediaType)
    else if (path === 'settings.json') settings = parseSettings(path, bytes)
    else throw new BackupFault(path, 'is of no kind that this version knows')
    onProgress((index + 1) / expected.length)
  }
  for (const [path, bytes] of blobPaths) {
    const hash = path.slice('blobs/'.length)
    if (manifest.files[path] !== hash) throw new BackupFault(path, 'is not what its name says')
    blobs.push({
      sha256: hash,
      mediaType: mediaTypes.get(hash) ?? 'application/octet-stream',
      bytes: bytes.slice().buffer,
    })
  }
  return { records, blobs, settings } satisfies Contents
}

function unpack(file: Uint8Array): Promise<Record<string, Uint8Array<ArrayBuffer>>> {
  return new Promise((resolve, reject) => {
    const refused: string[] = []
    const most = file.length * MOST_TIMES_LARGER + ALWAYS_ALLOWED_BYTES
    let unpacked = 0
    unzip(
      file,
      {
        filter(entry) {
          unpacked += entry.originalSize
          if (entry.originalSize <= LARGEST_FILE_BYTES && unpacked <= most) return true
          refused.push(entry.name)
          return false
        },
      },
      (error, files) => {
        if (error) reject(new BackupFault('the file', 'is no zip file, or its end is missing'))
        else if (refused[0] !== undefined) reject(new BackupFault(refused[0], 'is larger than a backup can hold'))
        else resolve(files as Record<string, Uint8Array<ArrayBuffer>>)
      },
    )
  })
}

function parseLines<Schema extends v.GenericSchema>(schema: Schema, path: string, bytes: Uint8Array) {
  return strFromU8(bytes)
    .split('\n')
    .filter((line) => line !== '')
    .map((line, index) => parseWith(schema, `${path}, line ${index + 1}`, line))
}

function parseWith<Schema extends v.GenericSchema>(schema: Schema, place: string, text: string): v.InferOutput<Schema> {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    throw new BackupFault(place, 'is not JSON')
  }
  const result = v.safeParse(schema, value)
  if (result.success) return result.output
  const issue = result.issues[0]
  throw new BackupFault(place, `${v.getDotPath(issue) ?? 'the record'}: ${issue.message}`)
}

function parseSettings(path: string, bytes: Uint8Array): Settings | null {
  const settings = parseWith(v.nullable(SETTINGS_SCHEMA), path, strFromU8(bytes))
  return settings === null ? null : { ...DEFAULT_SETTINGS, ...settings }
}

function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  return strToU8(text) as Uint8Array<ArrayBuffer>
}
