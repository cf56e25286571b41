/**
 * A Document in, a reading out: one listing, the rows of a results page, or nothing. Never changes the page, never throws, never
 * reaches the network; what it cannot tell stays `null`. In one go and with the words of all languages; a page's own script reads
 * in pieces (`read-page-in-pieces.ts`).
 */
import './all-labels.ts'
import type { PageReading } from '../domain/listing.ts'
import { type ExplainedReading, type ReadOptions, readInSteps } from './reading-steps.ts'

export function readPage(document: Document, options: ReadOptions): PageReading {
  return explainPage(document, options).reading
}

/** The same reading with the reasons behind it, for `read --explain`. */
export function explainPage(document: Document, options: ReadOptions): ExplainedReading {
  const steps = readInSteps(document, options)
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}
