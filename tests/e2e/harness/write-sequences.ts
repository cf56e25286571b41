/**
 * What runs inside the extension in the reliability tests: the house's own storage code, writing without a pause until it is killed, and the
 * audit afterwards. Bundled and handed to a page or a worker of the extension; acknowledges each finished write on the console.
 */
import * as v from 'valibot'
import { summarise } from '../../../src/domain/dossier-summary.ts'
import { emptyListing } from '../../../src/domain/listing.ts'
import { openDatabase } from '../../../src/storage/database.ts'
import { createDossiers, type DossierDraft } from '../../../src/storage/dossiers.ts'
import { RECORD_SCHEMAS } from '../../../src/storage/record-schemas.ts'
import { refreshSummaries } from '../../../src/storage/refresh-summaries.ts'
import { sha256 } from '../../../src/storage/sha256.ts'

const ACKNOWLEDGED = 'acknowledged '
const MOST_PHOTOS = 12

function createRandom(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9) >>> 0
    return state / 2 ** 32
  }
}

function noise(random: () => number, size: number): ArrayBuffer {
  const words = new Uint32Array(Math.ceil(size / 4))
  for (let at = 0; at < words.length; at++) words[at] = random() * 2 ** 32
  return words.buffer
}

function draft(name: string, number: number, random: () => number): DossierDraft {
  const photos = Array.from({ length: 1 + Math.floor(random() * MOST_PHOTOS) }, (_, index) => ({
    url: `https://photos.example/${name}-${index}.jpg`,
    alt: null,
    mediaType: 'image/jpeg',
    facts: null,
    bytes: noise(random, 500 + random() * 150_000),
  }))
  const listing = {
    ...emptyListing(`https://quayside.example/${name}`),
    title: `${name} ${number}`,
    photos: photos.map(({ url }) => ({ url, alt: null })),
  }
  const claim = {
    year: null,
    cardNumber: null,
    subject: null,
    set: null,
    variation: null,
    serial: null,
    encapsulation: 'unclear',
    grader: null,
    grade: null,
    qualifier: null,
    certificate: null,
    certificateHidden: false,
    holderKind: null,
    reprint: 'no',
    multiple: false,
    autograph: null,
    relic: null,
    rookie: null,
    object: 'card',
    quotes: {},
  }
  return {
    title: `${name} ${number}`,
    url: listing.url,
    capturedAt: new Date().toISOString(),
    pageText: 'words '.repeat(200 + random() * 2000),
    inspection: {
      stance: 'ask',
      stanceReason: '',
      listing,
      claim,
      claims: [claim],
      concerns: [],
      views: [],
      request: { text: '', language: 'en', views: [] },
      valuation: null,
      trace: [],
    } as unknown as DossierDraft['inspection'],
    photos,
    screenshot: noise(random, 1000 + random() * 300_000),
    viewCorrections: {},
    outcome: null,
    notes: String(number),
    tags: [],
  }
}

async function open(name: () => string) {
  const database = await openDatabase()
  return { database, dossiers: createDossiers(database, { now: () => new Date().toISOString(), newId: name }) }
}

/** Writes until it is killed. The n-th write of a dossier leaves `n` in its notes and one more line in its log. */
async function write(round: string, seed: number): Promise<void> {
  const random = createRandom(seed)
  let made = 0
  let ids = 0
  const { dossiers } = await open(() => `${round}-${made}-${ids++}`)
  for (;;) {
    ids = 0
    const name = `${round}-${made}`
    const { id } = await dossiers.keep(draft(name, 0, random))
    console.log(`${ACKNOWLEDGED}${id} 0`)
    const writes = 2 + Math.floor(random() * 6)
    for (let number = 1; number <= writes; number++) {
      const notes = String(number)
      const kind = random()
      if (kind < 0.4) await dossiers.record(id, 'note', notes, () => ({ notes }))
      else if (kind < 0.7)
        await dossiers.addStep(id, { event: 'asked', detail: notes, views: ['back'], language: 'en' }, () => ({
          notes,
        }))
      else await dossiers.keepAgain(id, draft(name, number, random))
      console.log(`${ACKNOWLEDGED}${id} ${number}`)
    }
    made++
  }
}

export interface Audited {
  readonly id: string
  /** The number of the last write that is there. */
  readonly last: number
  readonly faults: readonly string[]
}

/** Every dossier of a round: whole, its log without a gap, its summary in step, its photos there and unchanged. */
async function audit(round: string): Promise<Audited[]> {
  const { database, dossiers } = await open(() => 'nobody')
  const records = await database.getAll('dossiers', IDBKeyRange.bound(`${round}-`, `${round}-\uffff`))
  const audited: Audited[] = []
  for (const record of records) {
    const faults: string[] = []
    const parsed = v.safeParse(RECORD_SCHEMAS.dossiers, record)
    if (!parsed.success) faults.push(`not whole: ${parsed.issues[0].message}`)
    const last = Number(record.notes)
    if (record.log.length !== last + 1) faults.push(`${record.log.length} lines of log after write ${last}`)
    if (record.revision !== last + 1) faults.push(`revision ${record.revision} after write ${last}`)
    if (record.log[0]?.event !== 'kept') faults.push('its log does not begin with keeping')
    const summary = await database.get('summaries', record.id)
    if (JSON.stringify(summary) !== JSON.stringify(summarise(record))) faults.push('its summary is not its own')
    const hashes = [
      ...record.photos.map((photo) => photo.sha256),
      ...(record.revisions ?? []).flatMap((revision) => [
        revision.screenshot,
        ...revision.photos.map((photo) => photo.sha256),
      ]),
      record.screenshot,
    ]
    for (const hash of new Set(hashes)) {
      if (hash === null) continue
      const blob = await dossiers.readBlob(hash)
      if (blob === null) faults.push(`${hash} is gone`)
      else if ((await sha256(blob.bytes)) !== hash) faults.push(`${hash} is not what it was`)
    }
    audited.push({ id: record.id, last, faults })
  }
  const orphans = (await database.getAllKeys('summaries')).length - (await database.getAllKeys('dossiers')).length
  if (orphans !== 0)
    audited.push({ id: round, last: 0, faults: [`${orphans} summaries without a dossier, or the reverse`] })
  database.close()
  return audited
}

/** `count` changes to one dossier, as fast as they go, each leaving its own line in the log. */
async function change(id: string, writer: string, count: number): Promise<void> {
  const { database, dossiers } = await open(() => crypto.randomUUID())
  await Promise.all(
    Array.from({ length: count }, (_, number) =>
      dossiers.record(id, 'note', `${writer} ${number}`, (current) => ({
        notes: `${current.notes}${writer} ${number};`,
      })),
    ),
  )
  database.close()
}

/** Keeps dossiers with photos of `bytes` until the browser refuses; answers the error's name and how many were kept. */
async function fill(round: string, bytes: number): Promise<{ fault: string; kept: number }> {
  let made = 0
  const { database, dossiers } = await open(() => `${round}-${made}`)
  const random = createRandom(1)
  try {
    for (; made < 500; made++) {
      const one = draft(`${round}-${made}`, 0, random)
      await dossiers.keep({ ...one, photos: one.photos.map((photo) => ({ ...photo, bytes: noise(random, bytes) })) })
    }
    return { fault: '', kept: made }
  } catch (error) {
    return { fault: error instanceof Error ? error.name : String(error), kept: made }
  } finally {
    database.close()
  }
}

/** `count` dossiers without photos, written in bulk as this version writes them; for the bench. */
async function seed(count: number): Promise<void> {
  const { database } = await open(() => 'nobody')
  const random = createRandom(11)
  const words = [
    'Grey',
    'Petrel',
    'Lantern',
    'Hawker',
    'Odo',
    'Marrable',
    'Nordlys',
    'Maiden',
    'Mire',
    'Beetle',
    'Tidal',
    'League',
  ]
  const word = () => words[Math.floor(random() * words.length)]!
  const sentence = (length: number) => Array.from({ length }, word).join(' ')
  for (let from = 0; from < count; from += 500) {
    const transaction = database.transaction(['dossiers', 'summaries'], 'readwrite')
    for (let number = from; number < Math.min(count, from + 500); number++) {
      const at = new Date(Date.UTC(2020, 0, 1) + number * 9_000_000).toISOString()
      const { photos: _photos, screenshot: _screenshot, ...one } = draft(`seeded-${number}`, 0, () => 0)
      const title = `${sentence(4)} 19${31 + (number % 30)} #${number % 60}`
      const record = {
        ...one,
        id: crypto.randomUUID(),
        title,
        capturedAt: at,
        pageText: sentence(600),
        notes: sentence(8),
        inspection: {
          ...one.inspection,
          listing: {
            ...one.inspection.listing,
            title,
            price: { amount: `${number % 900}.00`, currency: 'EUR' },
            seller: {
              name: `${word()}_${number % 700}`,
              url: null,
              feedbackCount: null,
              feedbackPercent: null,
              memberSince: null,
            },
            description: sentence(120),
            photos: [],
          },
        },
        photos: [],
        screenshot: null,
        revision: 1,
        createdAt: at,
        updatedAt: at,
        deletedAt: null,
        log: [{ at, event: 'kept' as const, detail: title }],
      }
      transaction.objectStore('dossiers').put(record)
      transaction.objectStore('summaries').put(summarise(record))
    }
    await transaction.done
  }
  database.close()
}

/** Keeps one dossier with 12 photos of `bytes` each; milliseconds until it is stored, and the longest time the page stood still. */
async function timeKeeping(bytes: number): Promise<{ stored: number; stoodStill: number }> {
  const { database, dossiers } = await open(() => crypto.randomUUID())
  const one = draft(`timed-${crypto.randomUUID()}`, 0, () => 0.999)
  const photos = one.photos.map((photo, index) => ({ ...photo, bytes: noise(createRandom(index + 1), bytes) }))
  await new Promise((done) => setTimeout(done, 200))
  let stoodStill = 0
  let last = performance.now()
  const beat = setInterval(() => {
    stoodStill = Math.max(stoodStill, performance.now() - last)
    last = performance.now()
  }, 1)
  const started = performance.now()
  await dossiers.keep({ ...one, photos })
  const stored = performance.now() - started
  clearInterval(beat)
  database.close()
  return { stored, stoodStill }
}

/** Throws the summaries’ versions away, as an older version would have left them, and makes them anew; milliseconds. */
async function timeRefreshing(): Promise<{ made: number; milliseconds: number }> {
  const { database } = await open(() => 'nobody')
  await database.delete('jobs', 'summaries')
  const started = performance.now()
  const made = await refreshSummaries(database)
  const milliseconds = performance.now() - started
  database.close()
  return { made, milliseconds }
}

async function keepOne(id: string): Promise<void> {
  const { database, dossiers } = await open(() => id)
  await dossiers.keep(draft(id, 0, createRandom(7)))
  database.close()
}

/** What no kill may leave behind, by hand: a line of log too few, a summary of before, a photo gone. */
async function tear(id: string): Promise<void> {
  const { database, dossiers } = await open(() => id)
  const record = (await dossiers.get(id))!
  await database.put('dossiers', { ...record, title: 'another', log: [] })
  await database.delete('blobs', record.photos[0]?.sha256 ?? '')
  database.close()
}

async function forget(id: string): Promise<void> {
  const { database } = await open(() => id)
  await Promise.all([database.delete('dossiers', id), database.delete('summaries', id)])
  database.close()
}

Object.assign(globalThis, {
  storageHarness: { write, audit, change, fill, keepOne, tear, forget, seed, timeKeeping, timeRefreshing },
})
