/**
 * The one IndexedDB database: its stores, and how an older one becomes the present one.
 * Must not know what a screen needs; must never await anything but the database inside a transaction.
 */
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from 'idb'
import type { Dossier, RecordMeta } from '../domain/dossier.ts'
import type { DossierSummary } from '../domain/dossier-summary.ts'
import { type Ending, endingOf, type OutcomeTally } from '../domain/ending.ts'
import type { ExaminationRecord, ExemplarRecord } from '../domain/examination.ts'
import type { Grader, RiskyIssue } from '../domain/grader-book.ts'
import type { OwnRulePack } from '../domain/own-rules.ts'
import type { CostPreset } from '../domain/pricing/ceiling.ts'
import type { DayRates } from '../domain/pricing/rates.ts'
import type { SaleMark } from '../domain/pricing/sale-marks.ts'
import type { Want } from '../domain/pricing/want.ts'
import type { Settings } from '../domain/settings.ts'
import type { SiteHint } from '../domain/site-hint.ts'
import type { Sale } from '../domain/valuation.ts'

export type GraderRecord = RecordMeta & Grader
export type RiskyIssueRecord = RecordMeta & RiskyIssue
export type SaleRecord = RecordMeta & Sale
export type SaleMarkRecord = RecordMeta & SaleMark
export type WantRecord = RecordMeta & Want
export type RatesRecord = RecordMeta & DayRates
export type CostPresetRecord = RecordMeta & CostPreset
export type SiteHintRecord = RecordMeta & SiteHint
export type RulePackRecord = RecordMeta & OwnRulePack

/** So many sales in the order in which they came; what finds them is kept beside them. Derived from `sales`. */
export interface SaleSegmentRecord {
  readonly segment: number
  readonly count: number
  /** The sixteen hex digits of each sale's id as a number. */
  readonly ids: BigUint64Array
  /** Days since 1970 of each sale; `GONE_DAY` where it does not count by itself: deleted, folded into another, not yet whole. */
  readonly days: Int32Array
  /** A sum of price and currency, by which the same sale from another source is found. */
  readonly sums: Uint32Array
}

/** In which sales of a segment a word stands. Derived from `sales`. */
export interface SaleWordRecord {
  readonly word: string
  readonly segment: number
  readonly places: Uint16Array
}

/** One file of sales, from its first row to its last; taken back whole if it was not finished. */
export interface SaleImportRecord {
  readonly id: string
  readonly name: string
  /** Sum of the file's content. */
  readonly file: string
  /** ISO 8601 in UTC. */
  readonly at: string
  readonly state: 'running' | 'done' | 'taken-back'
  readonly added: number
  /** Where its sales lie: segment, first place, count. */
  readonly spans: readonly (readonly [segment: number, from: number, count: number])[]
}

/** Bytes by the hex SHA-256 of their content: the same photo in two dossiers is kept once. */
export interface BlobRecord {
  readonly sha256: string
  readonly mediaType: string
  readonly bytes: ArrayBuffer
}

export interface FingerprintChunk {
  readonly chunk: number
  /** The dossiers in it, as they were: of one that changed since, a later chunk holds what counts. */
  readonly dossiers: readonly {
    readonly id: string
    readonly revision: number
    readonly updatedAt: string
    /** Fingerprints of it, one after the other. */
    readonly count: number
  }[]
  /** Eight 32-bit words a fingerprint. */
  readonly words: ArrayBuffer
  /** What each is of: the place in `PRINT_KINDS`. */
  readonly kinds: ArrayBuffer
  /** Which of its dossier's photos each is of: 16 bits, the place in `Dossier.photos`. */
  readonly photos: ArrayBuffer
}

export interface JobRecord {
  readonly name: string
  /** Of what the job makes; a later one begins anew. */
  readonly version: number
  /** The last key that is done; `null`: all are. */
  readonly doneUpTo: string | null
}

export interface TouchstoneSchema extends DBSchema {
  dossiers: { key: string; value: Dossier; indexes: { url: string } }
  /** The few fields that a list needs, so that it opens without reading every dossier. Written with its dossier. */
  summaries: {
    key: string
    value: DossierSummary
    indexes: {
      updatedAt: string
      capturedAt: string
      certificate: string
      seller: string
      textStart: string
      photoHashes: string
    }
  }
  blobs: { key: string; value: BlobRecord }
  graders: { key: string; value: GraderRecord }
  riskyIssues: { key: string; value: RiskyIssueRecord }
  sales: { key: string; value: SaleRecord; indexes: { date: string } }
  siteHints: { key: string; value: SiteHintRecord }
  settings: { key: 'settings'; value: Settings }
  /** What each dossier that has ended teaches the weights. Written with its dossier. */
  endings: { key: string; value: Ending }
  /** The endings counted up, so that judging a page reads one record. Thrown away whenever an ending changes. */
  tallies: { key: 'outcomes'; value: OutcomeTally }
  /** The buyer's own rules, and which rules are switched off. */
  rulePacks: { key: string; value: RulePackRecord }
  exemplars: { key: string; value: ExemplarRecord }
  /** Work on the light table. */
  examinations: { key: string; value: ExaminationRecord }
  saleMarks: { key: string; value: SaleMarkRecord }
  wants: { key: string; value: WantRecord }
  /** Exchange rates, a record a day. */
  rates: { key: string; value: RatesRecord }
  costPresets: { key: string; value: CostPresetRecord }
  saleSegments: { key: number; value: SaleSegmentRecord }
  saleWords: { key: [string, number]; value: SaleWordRecord }
  saleImports: { key: string; value: SaleImportRecord; indexes: { file: string } }
  /** Fingerprints of every kept photo, some thousands a record, so that all are loaded at once. Derived; no backup holds them. */
  fingerprints: { key: number; value: FingerprintChunk }
  /** How far work over all records has come, so that it goes on where it was cut off. */
  jobs: { key: string; value: JobRecord }
  /** Signs evidence bags. The private key cannot be taken out, and no backup holds it. */
  keys: { key: 'signing'; value: CryptoKeyPair }
}

export type StoreName = StoreNames<TouchstoneSchema>
export type Database = IDBPDatabase<TouchstoneSchema>
export type WriteTransaction<Names extends StoreName[]> = IDBPTransaction<TouchstoneSchema, Names, 'readwrite'>

/** Stores of records with an id, a revision and a tombstone, in the order in which a backup lists them. */
export const RECORD_STORES = [
  'dossiers',
  'graders',
  'riskyIssues',
  'sales',
  'siteHints',
  'rulePacks',
  'exemplars',
  'examinations',
  'saleMarks',
  'wants',
  'rates',
  'costPresets',
] as const
export type RecordStore = (typeof RECORD_STORES)[number]

/** What finds a sale; made anew from the sales where it is missing. */
export const SALE_INDEX_STORES = ['saleSegments', 'saleWords'] as const

/** What is derived from a dossier and written in its transaction; no backup holds it. */
export const DERIVED_STORES = ['summaries', 'endings', 'tallies'] as const

const VERSION = 6

/** Opens the database, creating or migrating it. `onBlocked` is told when another window holds an older version open. */
export function openDatabase(name = 'touchstone', onBlocked?: () => void): Promise<Database> {
  return openDB<TouchstoneSchema>(name, VERSION, {
    async upgrade(database, oldVersion, _newVersion, transaction) {
      if (oldVersion < 1) {
        database.createObjectStore('dossiers', { keyPath: 'id' }).createIndex('url', 'url')
        const summaries = database.createObjectStore('summaries', { keyPath: 'id' })
        summaries.createIndex('updatedAt', 'updatedAt')
        summaries.createIndex('certificate', 'certificate')
        summaries.createIndex('seller', 'seller')
        summaries.createIndex('textStart', 'textStart')
        summaries.createIndex('photoHashes', 'photoHashes', { multiEntry: true })
        database.createObjectStore('blobs', { keyPath: 'sha256' })
        database.createObjectStore('graders', { keyPath: 'id' })
        database.createObjectStore('riskyIssues', { keyPath: 'id' })
        database.createObjectStore('sales', { keyPath: 'id' }).createIndex('date', 'date')
        database.createObjectStore('siteHints', { keyPath: 'id' })
        database.createObjectStore('settings')
      }
      if (oldVersion < 2) {
        database.createObjectStore('endings', { keyPath: 'id' })
        database.createObjectStore('tallies')
        database.createObjectStore('rulePacks', { keyPath: 'id' })
        if (oldVersion >= 1) await fillEndings(transaction)
      }
      if (oldVersion < 3) {
        database.createObjectStore('exemplars', { keyPath: 'id' })
        database.createObjectStore('examinations', { keyPath: 'id' })
      }
      if (oldVersion < 4) {
        for (const store of ['saleMarks', 'wants', 'rates', 'costPresets'] as const)
          database.createObjectStore(store, { keyPath: 'id' })
        // Filled from `sales` when the ledger is first used: a large one must not hold the opening up.
        database.createObjectStore('saleSegments', { keyPath: 'segment' })
        database.createObjectStore('saleWords', { keyPath: ['word', 'segment'] })
        database.createObjectStore('saleImports', { keyPath: 'id' }).createIndex('file', 'file')
      }
      if (oldVersion < 5) {
        transaction.objectStore('summaries').createIndex('capturedAt', 'capturedAt')
        database.createObjectStore('jobs', { keyPath: 'name' })
        database.createObjectStore('keys')
      }
      // Filled from the dossiers when photos are first looked up.
      if (oldVersion < 6) database.createObjectStore('fingerprints', { keyPath: 'chunk' })
    },
    blocked: () => onBlocked?.(),
    // A newer version wants in: let it, rather than hold its window up.
    blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
  })
}

/** Dossiers that ended before endings were kept apart. */
async function fillEndings(
  transaction: IDBPTransaction<TouchstoneSchema, StoreName[], 'versionchange'>,
): Promise<void> {
  let cursor = await transaction.objectStore('dossiers').openCursor()
  for (; cursor; cursor = await cursor.continue()) {
    const ending = endingOf(cursor.value)
    if (ending !== null) await transaction.objectStore('endings').put(ending)
  }
}
