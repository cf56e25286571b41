/** The same reading as `read-page.ts` for a page in use: the page gets its turn in between, and label words come when they are wanted. */
import type { PageReading } from '../domain/listing.ts'
import type { Language } from './lexicon.ts'
import { type ReadOptions, readInSteps } from './reading-steps.ts'

export interface Pieces {
  /** Milliseconds from any beginning. */
  readonly time: () => number
  /** Gives the page its turn. */
  readonly pause: () => Promise<void>
  /** Makes the label words of these languages known (`registerLabels`); where it cannot, the page is read without them. */
  readonly loadLabels: (languages: readonly Language[]) => Promise<void>
  readonly signal?: AbortSignal
}

/** Work between two pauses, ms: with a step's own length a piece stays well under the 50 ms from which a page feels slow (RAIL). */
const PIECE_MS = 12

/** `null`: aborted. Never rejects on its own account. */
export async function readPageInPieces(
  document: Document,
  options: ReadOptions,
  { time, pause, loadLabels, signal }: Pieces,
): Promise<PageReading | null> {
  const steps = readInSteps(document, options)
  let begun = time()
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value.reading
    if (step.value) await loadLabels(step.value)
    else if (time() - begun < PIECE_MS) continue
    else await pause()
    if (signal?.aborted) return null
    begun = time()
  }
}
