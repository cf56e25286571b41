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
import type { Settings } from '../domain/settings.ts'
import type { SiteHint } from '../domain/site-hint.ts'
import type { Sale } from '../domain/valuation.ts'

export type GraderRecord = RecordMeta & Grader
export type RiskyIssueRecord = RecordMeta & RiskyIssue
export type SaleRecord = RecordMeta & Sale
export type SiteHintRecord = RecordMeta & SiteHint
export type RulePackRecord = RecordMeta & OwnRulePack

/** Bytes by the hex SHA-256 of their content: the same photo in two dossiers is kept once. */
export interface BlobRecord {
  readonly sha256: string
  readonly mediaType: string
  readonly bytes: ArrayBuffer
}

export interface TouchstoneSchema extends DBSchema {
  dossiers: { key: string; value: Dossier; indexes: { url: string } }
  /** The few fields that a list needs, so that it opens without reading every dossier. Written with its dossier. */
  summaries: {
    key: string
    value: DossierSummary
    indexes: { updatedAt: string; certificate: string; seller: string; textStart: string; photoHashes: string }
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
] as const
export type RecordStore = (typeof RECORD_STORES)[number]

/** What is derived from a dossier and written in its transaction; no backup holds it. */
export const DERIVED_STORES = ['summaries', 'endings', 'tallies'] as const

const VERSION = 3

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
