/**
 * Everything kept, as one zip file, and back. Layout, in this order:
 *   records/<store>-<n>.ndjson   one record a line, at most RECORDS_A_FILE lines
 *   blobs/<sha256>               photos and screenshots, byte for byte
 *   blobs.ndjson                 `{sha256, mediaType}` a line
 *   settings.json
 *   backup.json                  format, version, time, and the SHA-256 of every other file
 * Reading checks every hash and every record before the first write, and writes all in one transaction or nothing.
 */
import { BlobReader, configure, type FileEntry, Uint8ArrayReader, ZipReader, ZipWriter } from '@zip.js/zip.js'
import * as v from 'valibot'
import { DEFAULT_SETTINGS, type Settings } from '../domain/settings.ts'
import { announce } from './changes.ts'
import {
  type BlobRecord,
  type Database,
  DERIVED_STORES,
  RECORD_STORES,
  type RecordStore,
  SALE_INDEX_STORES,
} from './database.ts'
import { BackupFault, namedFault } from './faults.ts'
import { RECORD_SCHEMAS, SETTINGS_SCHEMA } from './record-schemas.ts'
import { writeRecord } from './records.ts'
import { sha256 } from './sha256.ts'

// No workers: their code would have to be fetched, which our pages forbid.
configure({ useWebWorkers: false })

const FORMAT = 'touchstone-backup'
/** 1: dossiers, graders, risky issues, sales, places pointed at. 2: more stores, and dossiers with steps and revisions. */
const SCHEMA_VERSION = 2
const READABLE_VERSIONS = [1, 2] as const
/** Keeps one file, and so one string in memory, to some tens of MB: a dossier is about 50 kB of JSON. */
const RECORDS_A_FILE = 500
/** A file in the zip that unpacks to more than this is refused: a quarter of the most that one ArrayBuffer safely holds. Ours. */
const LARGEST_FILE_BYTES = 2 ** 29
/** Bytes of photos in one transaction: enough to be quick, few enough to be held. Ours. */
const BLOB_STEP_BYTES = 16 * 2 ** 20
/**
 * Photos are stored as they are and our records shrink to about a tenth: what claims to unpack to far more than the zip is large is
 * made to fill the memory. The allowance is for small backups. Ours, no source.
 */
const MOST_TIMES_LARGER = 50
const ALWAYS_ALLOWED_BYTES = 64 * 2 ** 20

const MANIFEST = v.strictObject({
  format: v.literal(FORMAT),
  schemaVersion: v.picklist(READABLE_VERSIONS, 'is of a later version than this program reads'),
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
  // 64-bit sizes: photos of some years outgrow 4 GiB.
  const zip = new ZipWriter(new WritableStream<Uint8Array>({ write: (chunk) => sink(chunk) }), { zip64: true })
  const files: Record<string, string> = {}
  async function add(path: string, bytes: Uint8Array<ArrayBuffer>, compress: boolean): Promise<void> {
    signal?.throwIfAborted()
    if (path !== 'backup.json') files[path] = await sha256(bytes)
    const lastModDate = new Date(createdAt)
    await zip.add(path, new Uint8ArrayReader(bytes), { level: compress ? 6 : 0, lastModDate })
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
  await zip.close()
}

/** Merges a backup into the database. Throws `BackupFault` or `StorageFull` with nothing written. */
export async function restoreBackup(
  database: Database,
  file: Blob,
  { signal, onProgress }: BackupOptions = {},
): Promise<RestoreReport> {
  const contents = await openBackup(file, signal, (share) => onProgress?.(share * 0.6))
  signal?.throwIfAborted()
  let added = 0
  let replaced = 0
  let left = 0
  // Photos first, in steps: a record is never there before its photos, and a photo that no record names harms nobody.
  const newBlobs = await writeBlobs(database, contents, signal, (share) => onProgress?.(0.6 + share * 0.3))
  const transaction = database.transaction(
    [...RECORD_STORES, ...DERIVED_STORES, ...SALE_INDEX_STORES, 'settings'],
    'readwrite',
  )
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
    // What finds sales is made anew from them when it is next asked for: half an index would hide those that came.
    if (contents.records.some(([store, records]) => store === 'sales' && records.length > 0))
      for (const store of SALE_INDEX_STORES) await transaction.objectStore(store).clear()
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
    await dropBlobs(database, newBlobs)
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
  /** Checked once; read again when their turn has come, so that no more than a few are ever held. */
  readonly blobs: readonly {
    readonly sha256: string
    readonly mediaType: string
    readonly read: () => Promise<Bytes>
  }[]
  readonly settings: Settings | null
}

type Bytes = Uint8Array<ArrayBuffer>

async function openBackup(
  file: Blob,
  signal: AbortSignal | undefined,
  onProgress: (share: number) => void,
): Promise<Contents> {
  const files = await listFiles(file)
  const manifestFile = files.get('backup.json')
  if (manifestFile === undefined) throw new BackupFault('backup.json', 'is missing: this is no backup of Touchstone')
  const manifest = parseWith(MANIFEST, 'backup.json', textOf(await readFile(manifestFile)))
  const records: [RecordStore, Revised[]][] = []
  const blobs: { sha256: string; read: () => Promise<Bytes> }[] = []
  const mediaTypes = new Map<string, string>()
  let settings: Settings | null = null
  const expected = Object.entries(manifest.files)
  for (const path of files.keys())
    if (path !== 'backup.json' && !Object.hasOwn(manifest.files, path))
      throw new BackupFault(path, 'is not listed in backup.json')

  for (const [index, [path, hash]] of expected.entries()) {
    signal?.throwIfAborted()
    const entry = files.get(path)
    if (entry === undefined) throw new BackupFault(path, 'is missing')
    const bytes = await readFile(entry)
    if ((await sha256(bytes)) !== hash) throw new BackupFault(path, 'was changed since the backup was made')
    const store = RECORD_STORES.find((name) => path.startsWith(`records/${name}-`))
    if (store !== undefined) records.push([store, parseLines(RECORD_SCHEMAS[store], path, bytes) as Revised[]])
    else if (path.startsWith('blobs/')) {
      if (path !== `blobs/${hash}`) throw new BackupFault(path, 'is not what its name says')
      blobs.push({ sha256: hash, read: () => readFile(entry) })
    } else if (path === 'blobs.ndjson')
      for (const line of parseLines(BLOB_LINE, path, bytes)) mediaTypes.set(line.sha256, line.mediaType)
    else if (path === 'settings.json') settings = parseSettings(path, bytes)
    else throw new BackupFault(path, 'is of no kind that this version knows')
    onProgress((index + 1) / expected.length)
  }
  const typed = blobs.map((blob) => ({ ...blob, mediaType: mediaTypes.get(blob.sha256) ?? 'application/octet-stream' }))
  return { records, blobs: typed, settings }
}

/** Answers the hashes of those that were not there before. On failure none of them stays. */
async function writeBlobs(
  database: Database,
  { blobs }: Contents,
  signal: AbortSignal | undefined,
  onProgress: (share: number) => void,
): Promise<string[]> {
  const written: string[] = []
  let step: BlobRecord[] = []
  let held = 0
  async function write(): Promise<void> {
    const transaction = database.transaction('blobs', 'readwrite')
    for (const blob of step) transaction.store.put(blob).catch(() => {})
    await transaction.done
    written.push(...step.map((blob) => blob.sha256))
    step = []
    held = 0
  }
  try {
    for (const [index, { sha256: hash, mediaType, read }] of blobs.entries()) {
      signal?.throwIfAborted()
      if ((await database.getKey('blobs', hash)) === undefined) {
        const bytes = (await read()).slice().buffer
        step.push({ sha256: hash, mediaType, bytes })
        held += bytes.byteLength
      }
      if (held >= BLOB_STEP_BYTES) await write()
      onProgress((index + 1) / blobs.length)
    }
    if (step.length > 0) await write()
    return written
  } catch (error) {
    await dropBlobs(database, written)
    throw namedFault(error)
  }
}

async function dropBlobs(database: Database, hashes: readonly string[]): Promise<void> {
  const transaction = database.transaction('blobs', 'readwrite')
  for (const hash of hashes) transaction.store.delete(hash).catch(() => {})
  await transaction.done
}

async function listFiles(file: Blob): Promise<Map<string, FileEntry>> {
  const entries = await new ZipReader(new BlobReader(file)).getEntries().catch(() => {
    throw new BackupFault('the file', 'is no zip file, or its end is missing')
  })
  const most = file.size * MOST_TIMES_LARGER + ALWAYS_ALLOWED_BYTES
  let unpacked = 0
  const files = new Map<string, FileEntry>()
  for (const entry of entries) {
    if (entry.directory) continue
    unpacked += entry.uncompressedSize
    if (entry.uncompressedSize > LARGEST_FILE_BYTES || unpacked > most)
      throw new BackupFault(entry.filename, 'is larger than a backup can hold')
    if (files.has(entry.filename)) throw new BackupFault(entry.filename, 'is there twice')
    files.set(entry.filename, entry)
  }
  return files
}

/** No more than the zip's directory says: a file that unpacks to more lies about itself. */
async function readFile(entry: FileEntry): Promise<Bytes> {
  const bytes = new Uint8Array(entry.uncompressedSize)
  let length = 0
  const collect = new WritableStream<Uint8Array>({
    write(chunk) {
      if (length + chunk.length > bytes.length) throw new Error('unpacks to more than it says')
      bytes.set(chunk, length)
      length += chunk.length
    },
  })
  try {
    await entry.getData(collect)
  } catch (error) {
    throw new BackupFault(
      entry.filename,
      `cannot be unpacked: ${error instanceof Error ? error.message : String(error)}`,
    )
  }
  return bytes.subarray(0, length)
}

function parseLines<Schema extends v.GenericSchema>(schema: Schema, path: string, bytes: Uint8Array) {
  return textOf(bytes)
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
  const settings = parseWith(v.nullable(SETTINGS_SCHEMA), path, textOf(bytes))
  return settings === null ? null : { ...DEFAULT_SETTINGS, ...settings }
}

function bytesOf(text: string): Bytes {
  return new TextEncoder().encode(text)
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes)
}
