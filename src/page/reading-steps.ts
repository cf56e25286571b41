/**
 * One reading as a row of steps, from the document to the listing or the rows; whoever runs them may pause in between. Wires the
 * passes; what each finds is its own affair.
 */

import type { PageReading } from '../domain/listing.ts'
import type { SiteHint } from '../domain/site-hint.ts'
import { buildSelector } from './build-selector.ts'
import { decideKind, type KindDecision } from './decide-kind.ts'
import { statedPrices } from './decide-price.ts'
import { findActions } from './find-actions.ts'
import { findHeadline, type Headline } from './find-headline.ts'
import { findRecordGroups, groupAt } from './find-record-groups.ts'
import { clearRegionsAround } from './index-document.ts'
import type { LayoutProbe } from './layout-probe.ts'
import { gatherEvidence, type PageEvidence, type Pause } from './page-evidence.ts'
import { readGallery } from './read-gallery.ts'
import { createPlace } from './read-labelled.ts'
import { readListing } from './read-listing.ts'
import { readPairs } from './read-pairs.ts'
import { readRows } from './read-rows.ts'
import type { Trace } from './reading.ts'
import { lineOfNode, type PriceCandidate, scorePrices } from './score-price.ts'
import { selectRecord } from './select-record.ts'
import { matchHints } from './site-hints.ts'

export interface ReadOptions {
  readonly url: string | null
  /** ISO 8601. */
  readonly now: string
  readonly probe: LayoutProbe
  readonly hints?: readonly SiteHint[]
}

export interface ExplainedReading {
  readonly reading: PageReading
  readonly trace: Trace
}

export function* readInSteps(document: Document, options: ReadOptions): Generator<Pause, ExplainedReading> {
  try {
    return yield* readAll(document, options)
  } catch (error) {
    // A page must never break the reader for its caller; the trace says what happened.
    const note = error instanceof Error ? error.message : String(error)
    return {
      reading: { kind: 'none', url: options.url },
      trace: {
        kind: { decision: 'none', listing: 0, results: 0, reasons: [] },
        headline: null,
        prices: [],
        groups: [],
        notes: [`the reader failed: ${note}`],
      },
    }
  }
}

function* readAll(document: Document, options: ReadOptions): Generator<Pause, ExplainedReading> {
  const evidence = yield* gatherEvidence(document, options)
  yield undefined
  const groups = findRecordGroups(evidence)
  yield undefined
  const headline = findHeadline(evidence, groups)
  if (headline) clearRegionsAround(evidence.index, headline.node)
  yield undefined
  const selection = selectRecord(evidence, headline)
  yield undefined
  const actions = findActions(evidence, groups)
  yield undefined
  const pairs = yield* readPairs(evidence)
  const record = selection.main
  const stated = statedPrices(evidence, record)
  yield undefined
  const prices = scorePrices(evidence, {
    headline,
    groups,
    actions: [...actions.buy, ...actions.bid],
    pairs,
    dataAmounts: stated.record ? [stated.record.money.amount] : [],
    metaAmounts: stated.meta ? [stated.meta.money.amount] : [],
  })
  const place = createPlace({
    evidence,
    pairs,
    groups,
    headlineLine: headline ? lineOfNode(evidence, headline.node) : 0,
    headlineNode: headline?.node ?? -1,
    headlineRow: headline ? (groupAt(evidence.index, groups, headline.node)?.row ?? -1) : -1,
  })
  yield undefined
  const photos = readGallery(evidence, { headline, groups, record })
  yield undefined
  const decision = decideKind(evidence, {
    headline,
    groups,
    selection,
    prices,
    pairs,
    actions,
    photos: photos.length,
  })
  yield undefined
  const hinted = matchHints(document, options.url, options.hints ?? [])
  let reading: PageReading
  if (
    decision.kind === 'listing' ||
    hinted.matches.some(({ hint }) => hint.field === 'price' || hint.field === 'title')
  )
    reading = yield* readListing(evidence, { headline, selection, prices, photos, actions, place, hints: hinted })
  else if (decision.kind === 'results') {
    reading = {
      kind: 'results',
      url: options.url,
      rows: yield* readRows(evidence, decision.resultGroups, prices, headline?.text ?? ''),
      partlyRead: evidence.cut,
    }
  } else reading = { kind: 'none', url: options.url }
  return {
    reading,
    trace: traceOf(
      evidence,
      decision,
      headline,
      prices.ranked,
      groups,
      hinted.stale.map((hint) => `the hint for ${hint.field} on ${hint.host} finds nothing any more`),
    ),
  }
}

function traceOf(
  evidence: PageEvidence,
  decision: KindDecision,
  headline: Headline | null,
  ranked: readonly PriceCandidate[],
  groups: ReturnType<typeof findRecordGroups>,
  notes: readonly string[],
): Trace {
  const { index } = evidence
  return {
    kind: { decision: decision.kind, listing: decision.listing, results: decision.results, reasons: decision.reasons },
    headline: headline ? { text: headline.text.slice(0, 200), score: headline.score } : null,
    prices: ranked.slice(0, 8).map((each) => ({
      text:
        index.lines[each.source.line]!.text.slice(Math.max(0, each.source.start - 30), each.source.end + 20) ||
        each.source.amount.money.amount,
      score: Math.round(each.score * 100) / 100,
      role: each.role,
      features: each.features,
      where: buildSelector(index, each.source.node),
    })),
    groups: groups.map((group) => ({
      rows: group.rows.length,
      priced: group.priced,
      where: buildSelector(index, group.container),
    })),
    notes,
  }
}
