/** Opens what one window of ours works with: the database and everything kept in it. Wiring only. */
import type { Book } from '../domain/grader-book.ts'
import type { Settings } from '../domain/settings.ts'
import { now } from '../platform/clock.ts'
import { createId } from '../platform/ids.ts'
import { openDatabase } from '../storage/database.ts'
import { createDossiers } from '../storage/dossiers.ts'
import { createFingerprints } from '../storage/fingerprints.ts'
import { readOutcomeTally } from '../storage/outcomes.ts'
import { createRecords } from '../storage/records.ts'
import { createLedger } from '../storage/sales-ledger.ts'
import { changeSettings, readSettings } from '../storage/settings.ts'

export async function openStores() {
  const database = await openDatabase()
  const stamps = { now, newId: createId }
  const graders = createRecords(database, 'graders', stamps)
  const riskyIssues = createRecords(database, 'riskyIssues', stamps)
  return {
    database,
    dossiers: createDossiers(database, stamps),
    fingerprints: createFingerprints(database),
    graders,
    riskyIssues,
    // A window hears of what another one wrote; the background lives too briefly to listen.
    ledger: createLedger(database, stamps, typeof document === 'undefined' ? undefined : new AbortController().signal),
    saleMarks: createRecords(database, 'saleMarks', stamps),
    wants: createRecords(database, 'wants', stamps),
    rates: createRecords(database, 'rates', stamps),
    costPresets: createRecords(database, 'costPresets', stamps),
    newId: createId,
    siteHints: createRecords(database, 'siteHints', stamps),
    rulePacks: createRecords(database, 'rulePacks', stamps),
    readSettings: (): Promise<Settings> => readSettings(database),
    changeSettings: (change: Partial<Settings>): Promise<Settings> => changeSettings(database, change),

    /** What a listing is judged by. `settled` belongs to the listing, not to the buyer. */
    async readBook(settled: Book['settled'] = {}): Promise<Book> {
      const [{ highValue }, knownGraders, knownIssues, { byRule }] = await Promise.all([
        readSettings(database),
        graders.list(),
        riskyIssues.list(),
        readOutcomeTally(database),
      ])
      return { graders: knownGraders, riskyIssues: knownIssues, limits: { highValue }, settled, outcomes: byRule }
    },
  }
}

export type Stores = Awaited<ReturnType<typeof openStores>>
