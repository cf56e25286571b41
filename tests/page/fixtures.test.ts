// @vitest-environment node
/**
 * Reads every page fixture and holds it against what a careful person reads off it. The pages and expectations were written
 * without sight of the reader. Prints a table by field and by source; the floors below are what the reader reached, not wishes.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { JSDOM } from 'jsdom'
import { describe, expect, it } from 'vitest'
import { createStaticProbe } from '../../src/page/layout-probe.ts'
import { explainPage } from '../../src/page/read-page.ts'
import { compareListing, compareRows, type Outcome } from './compare-reading.ts'

const ROOT = resolve(import.meta.dirname, '../fixtures/pages')
const slugs = readdirSync(ROOT).sort()

interface Meta {
  url: string
  now: string
  split: 'train' | 'validation'
}

interface Read {
  slug: string
  split: Meta['split']
  expected: { kind: string; rows?: Record<string, unknown>[] } & Record<string, unknown>
  kind: string
  outcomes: Outcome[]
  rows: { wanted: number; found: number; matched: number } | null
  notes: readonly string[]
}

const json = <T>(slug: string, name: string): T => JSON.parse(readFileSync(resolve(ROOT, slug, name), 'utf8')) as T

function readFixture(slug: string): Read {
  const meta = json<Meta>(slug, 'meta.json')
  const expected = json<Read['expected']>(slug, 'expected.json')
  const { window } = new JSDOM(readFileSync(resolve(ROOT, slug, 'source.html'), 'utf8'), { url: meta.url })
  const { reading, trace } = explainPage(window.document, {
    url: meta.url,
    now: meta.now,
    probe: createStaticProbe(window.document),
  })
  let outcomes: Outcome[] = []
  let rows: Read['rows'] = null
  if (expected.kind === 'listing') outcomes = compareListing(expected, reading)
  else
    outcomes = [
      {
        field: 'kind',
        result: reading.kind === expected.kind ? 'right' : 'wrong',
        wanted: expected.kind,
        got: reading.kind,
        source: '-',
      },
    ]
  if (expected.kind === 'results') {
    const compared = compareRows(expected.rows ?? [], reading.kind === 'results' ? reading.rows : [])
    rows = compared
    outcomes = [...outcomes, ...compared.fields]
  }
  window.close()
  return { slug, split: meta.split, expected, kind: reading.kind, outcomes, rows, notes: trace.notes }
}

const reads = slugs.map(readFixture)

function share(outcomes: readonly Outcome[]): number {
  return outcomes.length === 0 ? 1 : outcomes.filter((outcome) => outcome.result === 'right').length / outcomes.length
}

function printTable(): void {
  const fields = new Map<string, Outcome[]>()
  for (const { outcomes } of reads)
    for (const outcome of outcomes) fields.set(outcome.field, [...(fields.get(outcome.field) ?? []), outcome])
  const count = (outcomes: readonly Outcome[], result: Outcome['result']): number =>
    outcomes.filter((each) => each.result === result).length
  const lines = [`field              right wrong missing invented   share  by source (right/all)`]
  for (const [field, outcomes] of [...fields].sort()) {
    const sources = new Map<string, Outcome[]>()
    for (const outcome of outcomes)
      if (outcome.source !== '-') sources.set(outcome.source, [...(sources.get(outcome.source) ?? []), outcome])
    const bySource = [...sources].map(([source, list]) => `${source} ${count(list, 'right')}/${list.length}`).join(', ')
    const cells = (['right', 'wrong', 'missing', 'invented'] as const).map((result) =>
      String(count(outcomes, result)).padStart(6),
    )
    lines.push(
      `${field.padEnd(17)} ${cells.join(' ')}   ${(100 * share(outcomes)).toFixed(1).padStart(5)}%  ${bySource}`,
    )
  }
  console.log(lines.join('\n'))
}

describe('page fixtures', () => {
  printTable()
  const items = reads.filter((read) => read.expected.kind === 'listing')
  const lists = reads.filter((read) => read.expected.kind === 'results')
  const negatives = reads.filter((read) => read.expected.kind === 'none')
  const of = (field: string): Outcome[] =>
    items.flatMap((read) => read.outcomes.filter((outcome) => outcome.field === field))

  it('has pages of every kind, and reads each without a fault', () => {
    expect(reads.length).toBeGreaterThanOrEqual(60)
    expect(reads.flatMap((read) => read.notes)).toEqual([])
  })

  it('reads no negative as a listing', () => {
    expect(negatives.filter((read) => read.kind === 'listing').map((read) => read.slug)).toEqual([])
  })

  it('tells the kinds apart', () => {
    expect(
      share(reads.flatMap((read) => read.outcomes.filter((outcome) => outcome.field === 'kind'))),
    ).toBeGreaterThanOrEqual(0.98)
  })

  it('answers prices, and hardly ever wrongly', () => {
    const prices = of('price').filter((outcome) => outcome.wanted !== null)
    const wrong = of('price').filter((outcome) => outcome.result === 'wrong' || outcome.result === 'invented')
    expect(wrong.length / prices.length).toBeLessThanOrEqual(0.015)
    expect(prices.filter((outcome) => outcome.result === 'right').length / prices.length).toBeGreaterThanOrEqual(0.95)
  })

  it.each([
    ['title', 0.97],
    ['priceKind', 0.9],
    ['saleFormat', 0.93],
    ['photos', 0.92],
    ['seller', 0.8],
    ['shipping', 0.75],
    ['endsAt', 0.95],
    ['estimate', 0.88],
    ['condition', 0.9],
  ])('%s is right on at least a share of %f', (field, floor) => {
    expect(share(of(field))).toBeGreaterThanOrEqual(floor)
  })

  it('finds the rows of result pages, and nothing else as rows', () => {
    const wanted = lists.reduce((sum, read) => sum + (read.rows?.wanted ?? 0), 0)
    const found = lists.reduce((sum, read) => sum + (read.rows?.found ?? 0), 0)
    const matched = lists.reduce((sum, read) => sum + (read.rows?.matched ?? 0), 0)
    console.log(`rows: wanted ${wanted}, found ${found}, matched ${matched}; negatives ${negatives.length}`)
    expect(matched / wanted).toBeGreaterThanOrEqual(0.98)
    expect(matched / found).toBeGreaterThanOrEqual(0.99)
  })
})
