/** Exemplars, examinations and blind packages: kept, backed up, sent without a word too many, refused where damaged. */
import 'fake-indexeddb/auto'
import { createCanvas } from '@napi-rs/canvas'
import { strToU8, unzipSync, zipSync } from 'fflate'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { stripMetadata } from '../../src/contexts/desk/strip-metadata.ts'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { restoreBackup, writeBackup } from '../../src/storage/backup.ts'
import {
  parseBlindAnswer,
  readBlindPackage,
  writeBlindAnswer,
  writeBlindPackage,
} from '../../src/storage/blind-package.ts'
import { type Database, openDatabase } from '../../src/storage/database.ts'
import { createExemplars } from '../../src/storage/exemplars.ts'
import { examinations, exemplars } from '../ui-gallery/quiet-exemplars.ts'

const NOW = '2026-11-25T10:00:00.000Z'
let database: Database
let count = 0
beforeEach(async () => {
  database = await openDatabase(`exemplars-${count++}`)
})
afterEach(() => database.close())
const stamps = { now: () => NOW, newId: () => `id-${count++}` }

it('keeps a picture once, whoever shows it, and records that come back from a backup', async () => {
  const store = createExemplars(database, stamps)
  const bytes = new TextEncoder().encode('picture').buffer as ArrayBuffer
  const first = await store.keepPicture(bytes, 'image/png')
  expect(await store.keepPicture(bytes, 'image/png')).toEqual(first)
  expect(await database.count('blobs')).toBe(1)
  const { exemplar } = exemplars[0]!
  const record = await store.exemplars.add({ exemplar, stored: { 'front.png': first } }, 'e1')
  const { id: _i, revision: _r, createdAt: _c, updatedAt: _u, deletedAt: _d, ...draft } = examinations[1]!
  await store.examinations.add(draft, 'x2')

  const chunks: Uint8Array[] = []
  await writeBackup(database, NOW, (chunk) => void chunks.push(chunk))
  const other = await openDatabase(`exemplars-${count++}`)
  await restoreBackup(other, new Blob(chunks as Uint8Array<ArrayBuffer>[]))
  const again = createExemplars(other, stamps)
  expect(await again.exemplars.get('e1')).toEqual(record)
  expect(await again.examinations.get('x2')).toMatchObject(draft)
  other.close()
})

it('refuses to write over what another window changed', async () => {
  const { exemplars: store } = createExemplars(database, stamps)
  const record = await store.add(exemplars[0]!, 'e1')
  await store.update('e1', (current) => current, record.revision)
  await expect(store.update('e1', (current) => current, record.revision)).rejects.toMatchObject({
    name: 'RevisionConflict',
  })
})

describe('a blind package', () => {
  const packed = () =>
    writeBlindPackage({
      id: 'p1',
      exemplarFile: strToU8('exemplar'),
      photos: [{ file: 'photo-1.jpg', mediaType: 'image/jpeg', corners: null, bytes: strToU8('photo') }],
    })

  it('comes back as it was, and holds nothing else', () => {
    const { id, exemplarFile, photos } = readBlindPackage(packed())
    expect(id).toBe('p1')
    expect(exemplarFile).toEqual(strToU8('exemplar'))
    expect(photos).toEqual([{ file: 'photo-1.jpg', mediaType: 'image/jpeg', corners: null, bytes: strToU8('photo') }])
    const files = unzipSync(packed())
    expect(Object.keys(files).sort()).toEqual(['blind.json', 'exemplar.zip', 'photo-1.jpg'])
    expect(Object.keys(JSON.parse(new TextDecoder().decode(files['blind.json'])))).toEqual([
      'format',
      'schemaVersion',
      'id',
      'photos',
    ])
  })

  it.each([
    ['no zip', new Uint8Array([1, 2, 3])],
    ['half of it', packed().slice(0, 60)],
    ['without its description', zipSync({ 'exemplar.zip': strToU8('x') })],
    [
      'with a path for a name',
      repack({ photos: [{ file: '../photo-1.jpg', mediaType: 'image/jpeg', corners: null }] }),
    ],
    ['with a page for a photo', repack({ photos: [{ file: 'photo-1.jpg', mediaType: 'text/html', corners: null }] })],
    ['with more than it may say', repack({ price: '610' })],
  ])('is refused: %s', (_what, bytes) => {
    expect(() => readBlindPackage(bytes)).toThrow(expect.objectContaining({ name: 'BackupFault' }))
  })

  function repack(change: object) {
    const files = unzipSync(packed())
    const description = JSON.parse(new TextDecoder().decode(files['blind.json']))
    return zipSync({ ...files, 'blind.json': strToU8(JSON.stringify({ ...description, ...change })) })
  }

  it('has an answer that is read back, and nothing else for one', () => {
    const answer = examinations[1]!.verifications[0]!
    expect(parseBlindAnswer(writeBlindAnswer(answer))).toEqual(answer)
    expect(() => parseBlindAnswer('{"format":"touchstone-blind-answer"}')).toThrow()
    expect(() => parseBlindAnswer(writeBlindAnswer(answer).replace('"differs"', '"fake"'))).toThrow()
  })
})

describe('a photo without its words', () => {
  async function drawn(type: 'jpeg' | 'png') {
    const canvas = createCanvas(24, 16)
    const context = canvas.getContext('2d')
    context.fillStyle = '#8a3f2f'
    context.fillRect(0, 0, 12, 16)
    return new Uint8Array(await canvas.encode(type as 'png'))
  }
  const join = (...parts: Uint8Array[]) => new Uint8Array(Buffer.concat(parts))
  const segment = (marker: number, body: Uint8Array) =>
    join(new Uint8Array([0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 255]), body)
  /** Exif as TIFF 6.0 has it, little-endian: one entry, the orientation. */
  const exif = (orientation: number) =>
    segment(
      0xe1,
      join(
        strToU8('Exif\0\0'),
        new Uint8Array([
          0x49,
          0x49,
          42,
          0,
          8,
          0,
          0,
          0,
          1,
          0,
          0x12,
          1,
          3,
          0,
          1,
          0,
          0,
          0,
          orientation,
          0,
          0,
          0,
          0,
          0,
          0,
          0,
        ]),
      ),
    )

  it('loses captions, comments and Exif, and keeps its pixels and its way up', async () => {
    const plain = await drawn('jpeg')
    const words = join(
      plain.slice(0, 2),
      exif(6),
      segment(0xfe, strToU8('saltmere_attic, 610 EUR')),
      segment(0xed, strToU8('caption')),
      plain.slice(2),
    )
    const stripped = stripMetadata(words, 'image/jpeg')
    const text = Buffer.from(stripped).toString('latin1')
    expect(text).not.toContain('saltmere')
    expect(text).not.toContain('caption')
    const [before, after] = await Promise.all([decodeInNode(words), decodeInNode(stripped)])
    expect([after.width, after.height]).toEqual([16, 24])
    expect(Buffer.from(after.data).equals(Buffer.from(before.data))).toBe(true)
    expect(stripMetadata(plain, 'image/jpeg').length).toBeLessThanOrEqual(plain.length)
  })

  it('of PNG loses its text chunks', async () => {
    const plain = await drawn('png')
    const body = strToU8('tEXtComment\0saltmere_attic')
    const chunk = join(new Uint8Array([0, 0, 0, body.length - 4]), body, new Uint8Array(4))
    const words = join(plain.slice(0, 33), chunk, plain.slice(33))
    expect(stripMetadata(words, 'image/png')).toEqual(plain)
  })

  it('is handed on as it is where it is neither', () => {
    const bytes = strToU8('RIFF')
    expect(stripMetadata(bytes, 'image/webp')).toBe(bytes)
  })
})
