/**
 * What a second person gets who is to judge without knowing the price, the seller or the first result, and what they send back.
 *   package: a zip with `blind.json`, the exemplar's own file as `exemplar.zip`, the photos as `photo-1.jpg` and so on
 *   answer:  JSON
 * Nothing else of a listing or of the first examination may ever go in: the list of fields below is all there is.
 */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import * as v from 'valibot'
import type { BlindAnswer } from '../domain/examination.ts'
import { VERDICTS } from '../domain/exemplar.ts'
import { BackupFault } from './faults.ts'

const FORMAT = 'touchstone-blind-package'
const ANSWER_FORMAT = 'touchstone-blind-answer'
const DESCRIPTION = 'blind.json'
const EXEMPLAR = 'exemplar.zip'
// An exemplar file may have 256 MB; a listing's photos stay far below the rest. Ours.
const LARGEST_UNPACKED_BYTES = 512 * 2 ** 20
const MOST_ENTRIES = 100

const share = v.pipe(v.number(), v.minValue(-1), v.maxValue(2))
const corner = v.tuple([share, share])
const PHOTO = v.strictObject({
  file: v.pipe(v.string(), v.regex(/^photo-\d+\.[a-z0-9]+$/)),
  mediaType: v.pipe(v.string(), v.regex(/^image\/[a-z0-9.+-]+$/)),
  corners: v.nullable(v.tuple([corner, corner, corner, corner])),
})
const PACKAGE = v.strictObject({
  format: v.literal(FORMAT),
  schemaVersion: v.literal(1),
  id: v.pipe(v.string(), v.minLength(1)),
  photos: v.pipe(v.array(PHOTO), v.minLength(1)),
})
const TIME = v.pipe(v.string(), v.isoTimestamp())
const ANSWER = v.strictObject({
  format: v.literal(ANSWER_FORMAT),
  schemaVersion: v.literal(1),
  package: v.pipe(v.string(), v.minLength(1)),
  by: v.string(),
  lockedAt: TIME,
  answeredAt: TIME,
  notes: v.string(),
  points: v.array(v.strictObject({ point: v.string(), verdict: v.picklist(VERDICTS), words: v.string() })),
})

export interface BlindPackage {
  readonly id: string
  readonly exemplarFile: Uint8Array
  readonly photos: readonly (v.InferOutput<typeof PHOTO> & { readonly bytes: Uint8Array })[]
}

export function writeBlindPackage({ id, exemplarFile, photos }: BlindPackage): Uint8Array {
  const description = {
    format: FORMAT,
    schemaVersion: 1,
    id,
    photos: photos.map(({ file, mediaType, corners }) => ({ file, mediaType, corners })),
  }
  return zipSync({
    [DESCRIPTION]: strToU8(JSON.stringify(description, null, 2)),
    [EXEMPLAR]: [exemplarFile, { level: 0 }],
    ...Object.fromEntries(photos.map(({ file, bytes }) => [file, [bytes, { level: 0 }]])),
  })
}

/** Throws `BackupFault` with the place of the first fault. */
export function readBlindPackage(bytes: Uint8Array): BlindPackage {
  let unpacked = 0
  let entries = 0
  let files: Record<string, Uint8Array>
  try {
    files = unzipSync(bytes, {
      filter({ originalSize }) {
        unpacked += originalSize
        entries += 1
        if (entries > MOST_ENTRIES || unpacked > LARGEST_UNPACKED_BYTES)
          throw new BackupFault('the file', 'is larger than a package can be')
        return true
      },
    })
  } catch (error) {
    if (error instanceof BackupFault) throw error
    throw new BackupFault('the file', 'is no zip file, or its end is missing')
  }
  const description = files[DESCRIPTION]
  if (description === undefined) throw new BackupFault(DESCRIPTION, 'is missing: this is no blind package')
  const { id, photos } = parseWith(PACKAGE, DESCRIPTION, strFromU8(description))
  const exemplarFile = files[EXEMPLAR]
  if (exemplarFile === undefined) throw new BackupFault(EXEMPLAR, 'is missing')
  return {
    id,
    exemplarFile,
    photos: photos.map((photo) => {
      const content = files[photo.file]
      if (content === undefined) throw new BackupFault(photo.file, 'is missing')
      return { ...photo, bytes: content }
    }),
  }
}

export function writeBlindAnswer(answer: BlindAnswer): string {
  return `${JSON.stringify({ format: ANSWER_FORMAT, schemaVersion: 1, ...answer }, null, 2)}\n`
}

/** Throws `BackupFault` with the place of the first fault. */
export function parseBlindAnswer(text: string): BlindAnswer {
  const { format: _format, schemaVersion: _version, ...answer } = parseWith(ANSWER, 'the answer', text)
  return answer
}

function parseWith<Schema extends v.GenericSchema>(schema: Schema, place: string, text: string): v.InferOutput<Schema> {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    throw new BackupFault(place, 'is not JSON')
  }
  const parsed = v.safeParse(schema, value)
  if (parsed.success) return parsed.output
  const [issue] = parsed.issues
  throw new BackupFault(place, `${v.getDotPath(issue) ?? 'the whole'}: ${issue.message}`)
}
