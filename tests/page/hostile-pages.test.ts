// @vitest-environment node
/**
 * Pages that are broken, hostile or too large: no exception, no change of the page, the same answer twice and after a round trip
 * through a serialisation, and a stated cut instead of a frozen tab.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import fc from 'fast-check'
import { JSDOM } from 'jsdom'
import { describe, expect, it } from 'vitest'
import type { PageReading } from '../../src/domain/listing.ts'
import { createStaticProbe } from '../../src/page/layout-probe.ts'
import { explainPage } from '../../src/page/read-page.ts'
import { parseTolerantJson } from '../../src/page/structured/parse-json.ts'

const ROOT = resolve(import.meta.dirname, '../fixtures/pages')
const sources = readdirSync(ROOT)
  .sort()
  .filter((_, i) => i % 5 === 0)
  .map((slug) => readFileSync(resolve(ROOT, slug, 'source.html'), 'utf8'))
const url = 'https://quayside.example/lot/7'
const now = '2026-11-18T12:00:00Z'

function read(html: string): {
  reading: PageReading
  notes: readonly string[]
  writes: number
  after: string
  before: string
} {
  const { window } = new JSDOM(html, { url })
  const { document } = window
  let writes = 0
  const observer = new window.MutationObserver((records) => {
    writes += records.length
  })
  observer.observe(document, { subtree: true, childList: true, attributes: true, characterData: true })
  const before = document.documentElement?.outerHTML ?? ''
  const { reading, trace } = explainPage(document, { url, now, probe: createStaticProbe(document) })
  writes += observer.takeRecords().length
  const after = document.documentElement?.outerHTML ?? ''
  window.close()
  return { reading, notes: trace.notes, writes, before, after }
}

const junk = fc.constantFrom(
  '<div>',
  '</div></table>',
  '<form><form>',
  '<script type="application/ld+json">{"@type":"Product","name":{"__proto__":{"x":1}},"offers":[[[{"price":1e400}]]]}</script>',
  '<script>window.s = {"__proto__": {"price": 9}, "constructor": {"name": "x", "price": 3}}</script>',
  '<script type="application/json">{"a":</script>',
  '<table><tr><td>',
  '<h1 id="a">\u202Eecirp\u202C 1234</h1>',
  '<p hidden>£99999</p>',
  '<svg><a href="#"><text>£5</text></a></svg>',
  '<img srcset=",,, 2x, a 1w" src="data:image/png;base64,xx" data-zoom="javascript:alert(1)">',
  '<template shadowrootmode="open"><slot></slot><b>€ 4</b></template>',
  '<ul itemscope itemprop="offers" itemref="a a b"><li itemprop="price" content="12">',
  '\u0000\ufffe&#0;&#xD800;',
  '<base href="ht!tp://["><a href="//[">x</a>',
  '<dl><dd>x</dd><dt></dt></dl><time datetime="99999999999999">now</time>',
)

/** A page with pieces cut out, doubled, moved or replaced by rubbish. */
const mutated = fc
  .tuple(
    fc.constantFrom(...sources),
    fc.array(
      fc.tuple(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(400),
        fc.oneof(junk, fc.constant(''), fc.string({ unit: 'grapheme', maxLength: 30 })),
      ),
      { minLength: 1, maxLength: 8 },
    ),
  )
  .map(([source, edits]) => {
    let html = source
    for (const [where, length, insert] of edits) {
      const at = Math.floor(where * html.length)
      html = html.slice(0, at) + insert + html.slice(at + length)
    }
    return html
  })

describe('mutated pages', () => {
  it('never throw, are never written to, and read the same twice', () => {
    fc.assert(
      fc.property(mutated, (html) => {
        const first = read(html)
        expect(first.notes).toEqual([])
        expect(first.writes).toBe(0)
        expect(first.after).toBe(first.before)
        expect(read(html).reading).toEqual(first.reading)
      }),
      { numRuns: 60 },
    )
  }, 120_000)

  it('read the same after a round trip through a serialisation', () => {
    for (const source of sources) {
      const dom = new JSDOM(source, { url })
      const again = dom.serialize()
      dom.window.close()
      expect(read(again).reading).toEqual(read(source).reading)
    }
  }, 60_000)
})

describe('limits', () => {
  it('cuts a page of 200,000 elements off, says so, and stays quick', () => {
    const rows = '<div class="r"><a href="/x">name</a><b>£3</b></div>'.repeat(66_000)
    const { window } = new JSDOM(`<h1>Much</h1>${rows}`, { url })
    const probe = createStaticProbe(window.document)
    const start = performance.now()
    const { reading, trace } = explainPage(window.document, { url, now, probe })
    // A generous bound for jsdom on a loaded machine; the bench states the figure in a browser.
    expect(performance.now() - start).toBeLessThan(30_000)
    expect(trace.notes).toEqual([])
    expect(reading.kind === 'none' || reading.partlyRead).toBe(true)
    window.close()
  }, 120_000)

  it('leaves a 20 MB state unread and says so', () => {
    const state = `{"items":[${'{"name":"Grey Petrel","price":3},'.repeat(600_000)}{"name":"x","price":1}]}`
    const { reading, notes } = read(
      `<html lang="en"><title>Grey Petrel, 1931</title><h1>Grey Petrel, 1931</h1><p>Price: £12.00</p><button>Buy now</button><p>Condition: good</p><img src="/a.jpg"><script type="application/json">${state}</script>`,
    )
    expect(notes).toEqual([])
    expect(reading.kind === 'listing' && reading.partlyRead).toBe(true)
    expect(reading.kind === 'listing' && reading.price).toEqual({ amount: '12.00', currency: 'GBP' })
  }, 60_000)

  it('takes at most 200 of 10,000 photos', () => {
    const images = Array.from(
      { length: 10_000 },
      (_, i) => `<img src="/photos/p${i}x.jpg" width="600" class="gallery">`,
    ).join('')
    const { reading } = read(
      `<html lang="en"><title>Grey Petrel, 1931</title><h1>Grey Petrel, 1931</h1><p>Price: £12.00</p><button>Buy now</button><p>Condition: good</p><p>Seller: oldpier</p>${images}`,
    )
    expect(reading.kind).toBe('listing')
    expect(reading.kind === 'listing' && reading.photos.length).toBeLessThanOrEqual(200)
  }, 60_000)

  it('follows deep nesting only so far', () => {
    const { notes } = read(`${'<div>'.repeat(600)}£5${'</div>'.repeat(600)}`)
    expect(notes).toEqual([])
    expect(parseTolerantJson(`${'['.repeat(200_000)}`)).toEqual([])
    expect(parseTolerantJson('{"a": 1, /* why */ "b": [1, 2,], } ')).toEqual([{ a: 1, b: [1, 2] }])
    expect(({} as Record<string, unknown>).x).toBeUndefined()
  })
})
