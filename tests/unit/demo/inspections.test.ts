/**
 * The whole way on the fictional market: each page is read, claimed, valued and inspected, and held against what a careful
 * buyer wrote down before any rule ran. The words alone first, then with the photos' own bytes.
 */
import { JSDOM } from 'jsdom'
import { describe, expect, it } from 'vitest'
import { loadPacks } from '../../../src/cli/load-packs.ts'
import { renderPhoto } from '../../../src/demo/drawing/render-photo.ts'
import { DEMO_BOOK } from '../../../src/demo/expected/demo-book.ts'
import { EXPECTATIONS } from '../../../src/demo/expected/expectations.ts'
import { COVERED_RULES, expectedListing } from '../../../src/demo/expected/expected-inspection.ts'
import { DEMO_NOW } from '../../../src/demo/market/clock.ts'
import { type DemoListing, EXAMPLE_ORIGINS } from '../../../src/demo/market/listing-data.ts'
import { LISTINGS } from '../../../src/demo/market/market-data.ts'
import { findShot } from '../../../src/demo/market/photo-host.ts'
import { renderedPage } from '../../../src/demo/market/render-page.ts'
import { salesCsv } from '../../../src/demo/market/sales.ts'
import { inspect } from '../../../src/domain/inspect.ts'
import type { Inspection } from '../../../src/domain/inspection.ts'
import type { Listing } from '../../../src/domain/listing.ts'
import type { PhotoFacts } from '../../../src/domain/photo-facts.ts'
import { parseSalesCsv } from '../../../src/domain/pricing/parse-sales-csv.ts'
import { valueListing } from '../../../src/domain/pricing/value-listing.ts'
import { VIEW_IDS } from '../../../src/domain/views.ts'
import { decodeInNode } from '../../../src/imaging/decode-node.ts'
import { examinePhoto } from '../../../src/imaging/examine-photo.ts'
import { createStaticProbe } from '../../../src/page/layout-probe.ts'
import { readPage } from '../../../src/page/read-page.ts'

const packs = await loadPacks()
const { sales } = parseSalesCsv(salesCsv(DEMO_NOW))
const byId = LISTINGS.map((listing) => [listing.id, listing] as const)

function readDemo(listing: DemoListing, html = renderedPage(listing.market, listing.path)): Listing {
  const url = `${EXAMPLE_ORIGINS[listing.market]}${listing.path}`
  const { document } = new JSDOM(html, { url }).window
  const reading = readPage(document, { url, now: DEMO_NOW, probe: createStaticProbe(document) })
  if (reading.kind !== 'listing') throw new Error(`${listing.id} was read as ${reading.kind}`)
  return reading
}

function inspectDemo(listing: Listing, photos: readonly PhotoFacts[] = []): Inspection {
  const { graders } = DEMO_BOOK
  return inspect(
    {
      listing,
      photos,
      valuation: valueListing(listing, sales, { graders, packs, on: DEMO_NOW.slice(0, 10) }),
      traces: [],
      messageLanguage: 'en',
      messageMaxLength: null,
      now: DEMO_NOW,
    },
    DEMO_BOOK,
    packs,
  )
}

const raisedBy = ({ concerns }: Inspection) => concerns.map((concern) => concern.rule).sort()
const nameOf = (url: string) => url.split('/').at(-1) ?? url

describe('reading', () => {
  it.each(byId)('%s', (_id, listing) => {
    const expected = expectedListing(listing, DEMO_NOW)
    const read = readDemo(listing)
    const { sellerName, photoFiles, ...fields } = expected
    for (const [field, value] of Object.entries(fields)) {
      const found = read[field as keyof Listing]
      // A page shows its end to the minute.
      if (field === 'endsAt' && typeof value === 'string')
        expect(Math.abs(Date.parse(String(found)) - Date.parse(value)), field).toBeLessThanOrEqual(60_000)
      else expect({ [field]: comparable(found) }).toEqual({ [field]: comparable(value) })
    }
    expect(read.seller?.name).toBe(sellerName)
    expect(read.photos.map(({ url }) => nameOf(url))).toEqual(photoFiles.map(nameOf))
  })
})

describe('inspecting by words alone', () => {
  it.each(byId)('%s', (id, listing) => {
    const expected = EXPECTATIONS[id]!
    const inspection = inspectDemo(readDemo(listing))
    const covered = new Set<string>(COVERED_RULES)
    const wanted = expected.concerns.filter((rule) => !expected.needsPixels.includes(rule)).sort()
    expect(raisedBy(inspection).filter((rule) => covered.has(rule))).toEqual(wanted)
    if (expected.concerns.length === 0) expect(raisedBy(inspection)).toEqual([])
    expect(inspection.stance).toBe(expected.stance)
    if (expected.stance === 'nothing-open') expect(inspection.request.text).toBe('')
    for (const [field, value] of Object.entries(expected.claim)) {
      const found = inspection.claim[field as keyof typeof inspection.claim]
      // Where a title can be cut in more than one way, no answer is right too.
      if (found === null && (field === 'subject' || field === 'set')) continue
      expect({ [field]: found }).toEqual({ [field]: value })
    }
    const statuses = Object.fromEntries(inspection.views.map(({ view, status }) => [view, status]))
    expect(statuses).toMatchObject(expected.views)
  })
})

describe('inspecting with the photos', () => {
  it.each(byId)(
    '%s',
    async (id, listing) => {
      const expected = EXPECTATIONS[id]!
      const read = readDemo(listing)
      const photos: PhotoFacts[] = []
      for (const { url } of read.photos) {
        const shot = listing.photos.find((photo) => nameOf(photo.file) === nameOf(url))
        const bytes = await renderPhoto(findShot(shot?.file ?? ''))
        photos.push(await examinePhoto(bytes, { file: url, decode: decodeInNode }))
      }
      const inspection = inspectDemo(read, photos)
      const covered = new Set<string>(COVERED_RULES)
      expect(raisedBy(inspection).filter((rule) => covered.has(rule))).toEqual([...expected.concerns].sort())
      if (expected.concerns.length === 0) expect(raisedBy(inspection)).toEqual([])
      const statuses = Object.fromEntries(inspection.views.map(({ view, status }) => [view, status]))
      expect(statuses).toMatchObject({ ...expected.views, ...expected.viewsFromPixels })
    },
    60_000,
  )
})

describe('removing one photo', () => {
  const clean = byId.filter(([id]) => EXPECTATIONS[id]!.concerns.length === 0)
  it.each(clean)(
    'of %s changes the views and the request lines that depend on it, and nothing else',
    (_id, listing) => {
      const read = readDemo(listing)
      const before = inspectDemo(read)
      for (const { url } of read.photos) {
        const after = inspectDemo({ ...read, photos: read.photos.filter((photo) => photo.url !== url) })
        const shownByIt = before.views.filter((view) => view.photo === url).map(({ view }) => view)
        // A view that is neither needed nor shown is not listed at all.
        const statusIn = ({ views }: Inspection, view: string) => views.find((one) => one.view === view)?.status ?? null
        const changed = VIEW_IDS.filter((view) => statusIn(before, view) !== statusIn(after, view))
        expect(changed, nameOf(url)).toEqual(VIEW_IDS.filter((view) => shownByIt.includes(view)))
        expect(after.request.views.filter((view) => !before.request.views.includes(view)).sort(), nameOf(url)).toEqual(
          [...shownByIt].filter((view) => after.request.views.includes(view)).sort(),
        )
        for (const view of before.request.views) expect(after.request.views, nameOf(url)).toContain(view)
      }
    },
  )
})

/** Amounts as numbers: "145" and "145.00" are one price. */
function comparable(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value ?? null), (key, inner) => (key === 'amount' ? Number(inner) : inner))
}
