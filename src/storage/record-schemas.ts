/**
 * What a record must be to be let in from a file. Checked are the fields that our code relies on; what a later version
 * added passes through untouched, so that nothing is lost on the way through an older one.
 */
import * as v from 'valibot'
import type { RecordStore } from './database.ts'

const TIME = v.pipe(v.string(), v.isoTimestamp())
export const MONEY = v.looseObject({ amount: v.pipe(v.string(), v.decimal()), currency: v.nullable(v.string()) })
const META = {
  id: v.pipe(v.string(), v.minLength(1)),
  revision: v.pipe(v.number(), v.integer(), v.minValue(1)),
  createdAt: TIME,
  updatedAt: TIME,
  deletedAt: v.nullable(TIME),
}
export const TEXTS = v.array(v.string())

const LISTING = v.looseObject({
  kind: v.literal('listing'),
  title: v.nullable(v.string()),
  price: v.nullable(MONEY),
  seller: v.nullable(v.looseObject({ name: v.string() })),
  photos: v.array(v.looseObject({ url: v.string() })),
})

const INSPECTION = v.looseObject({
  stance: v.picklist(['wait', 'ask', 'nothing-open']),
  stanceReason: v.string(),
  listing: LISTING,
  claim: v.looseObject({ encapsulation: v.picklist(['raw', 'encapsulated', 'unclear']) }),
  claims: v.array(v.looseObject({})),
  concerns: v.array(
    v.looseObject({
      rule: v.string(),
      strength: v.picklist(['strong', 'medium', 'weak']),
      evidence: v.array(v.looseObject({ quote: v.string() })),
      settledBy: v.nullable(v.string()),
    }),
  ),
  views: v.array(v.looseObject({ view: v.string(), status: v.string() })),
  request: v.looseObject({ text: v.string() }),
})

export const RECORD_SCHEMAS = {
  dossiers: v.looseObject({
    ...META,
    title: v.string(),
    url: v.nullable(v.string()),
    capturedAt: TIME,
    pageText: v.string(),
    inspection: INSPECTION,
    photos: v.array(v.looseObject({ url: v.string(), sha256: v.nullable(v.string()) })),
    screenshot: v.nullable(v.string()),
    notes: v.string(),
    tags: TEXTS,
    log: v.array(v.looseObject({ at: TIME, event: v.string(), detail: v.string() })),
  }),
  graders: v.looseObject({ ...META, name: v.string(), abbreviations: TEXTS, accepted: v.boolean() }),
  riskyIssues: v.looseObject({
    ...META,
    name: v.string(),
    words: TEXTS,
    worthIfGenuine: v.nullable(MONEY),
    copies: TEXTS,
  }),
  sales: v.looseObject({ ...META, date: v.string(), title: v.string(), price: MONEY }),
  siteHints: v.looseObject({ ...META, host: v.string() }),
  // Rules are read again by `parsePacks` each time they are loaded, which refuses what it cannot read.
  rulePacks: v.looseObject({
    ...META,
    pack: v.looseObject({ kind: v.literal('rules'), id: v.string() }),
    phrases: v.array(v.looseObject({ kind: v.literal('phrases'), id: v.string() })),
  }),
  // A draft may lack names and pictures; a whole one is read again by `parseExemplar` before it is used.
  exemplars: v.looseObject({
    ...META,
    exemplar: v.looseObject({
      schemaVersion: v.literal(2),
      title: v.string(),
      nominalSize: v.looseObject({ widthMm: v.number(), heightMm: v.number() }),
      pieces: v.array(v.looseObject({ id: v.string() })),
      copies: v.array(v.looseObject({ id: v.string() })),
      pictures: v.array(v.looseObject({ file: v.string() })),
      points: v.array(v.looseObject({ id: v.string(), kind: v.string() })),
    }),
    stored: v.record(v.string(), v.looseObject({ sha256: v.string() })),
  }),
  examinations: v.looseObject({
    ...META,
    title: v.string(),
    exemplar: v.string(),
    photos: v.array(v.looseObject({ file: v.string(), sha256: v.string() })),
    notes: v.string(),
    lockedAt: v.nullable(TIME),
    measured: v.nullable(v.looseObject({ points: v.array(v.looseObject({ point: v.string() })) })),
    judged: v.record(v.string(), v.looseObject({ verdict: v.string() })),
  }),
  saleMarks: v.looseObject({ ...META, kind: v.picklist(['sale', 'seller', 'venue', 'another-card']) }),
  wants: v.looseObject({
    ...META,
    words: v.string(),
    condition: v.picklist(['any', 'raw', 'graded']),
    most: v.nullable(MONEY),
  }),
  rates: v.looseObject({
    ...META,
    day: v.pipe(v.string(), v.isoDate()),
    perEuro: v.record(v.string(), v.pipe(v.string(), v.decimal())),
  }),
  costPresets: v.looseObject({ ...META, name: v.string(), terms: v.looseObject({ currency: v.string() }) }),
} satisfies Record<RecordStore, v.GenericSchema>

export const SETTINGS_SCHEMA = v.looseObject({ schemaVersion: v.literal(1), currency: v.string(), highValue: MONEY })
