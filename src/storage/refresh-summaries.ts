/**
 * Makes the summaries of dossiers anew where an older version of ours made them: in small steps, each with how far it came, so that a
 * window may be closed in the midst of it and the next one goes on there. Lists work meanwhile.
 */
import { SUMMARY_VERSION, summarise } from '../domain/dossier-summary.ts'
import { announce } from './changes.ts'
import type { Database } from './database.ts'
import { namedFault } from './faults.ts'

const JOB = 'summaries'
/** Dossiers in one transaction: about 50 kB each, so some MB at once and some tens of milliseconds. */
const STEP = 100

export interface RefreshOptions {
  readonly signal?: AbortSignal
  /** Share done, 0–1; not called where there is nothing to do. */
  readonly onProgress?: (share: number) => void
}

/** Answers how many were made anew by this call. */
export async function refreshSummaries(
  database: Database,
  { signal, onProgress }: RefreshOptions = {},
): Promise<number> {
  const before = await database.get('jobs', JOB)
  const underWay = before?.version === SUMMARY_VERSION
  if (underWay && before.doneUpTo === null) return 0
  let after = underWay ? before.doneUpTo : null
  const total = await database.count('dossiers')
  let done = after === null ? 0 : await database.count('dossiers', IDBKeyRange.upperBound(after))
  let made = 0
  for (;;) {
    if (total > 0) onProgress?.(Math.min(1, done / total))
    signal?.throwIfAborted()
    const transaction = database.transaction(['dossiers', 'summaries', 'jobs'], 'readwrite')
    try {
      const range = after === null ? null : IDBKeyRange.lowerBound(after, true)
      const dossiers = await transaction.objectStore('dossiers').getAll(range, STEP)
      for (const dossier of dossiers)
        void transaction
          .objectStore('summaries')
          .put(summarise(dossier))
          .catch(() => {})
      after = dossiers.at(-1)?.id ?? null
      void transaction
        .objectStore('jobs')
        .put({ name: JOB, version: SUMMARY_VERSION, doneUpTo: after })
        .catch(() => {})
      await transaction.done
      done += dossiers.length
      made += dossiers.length
    } catch (error) {
      throw namedFault(error)
    }
    if (after === null) break
  }
  if (made > 0) announce({ store: 'dossiers', id: null })
  return made
}
