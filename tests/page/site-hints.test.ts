// @vitest-environment jsdom
/** A field pointed at once is found again on the next page of that site, and a place that is gone is said to be stale. */
import { describe, expect, it } from 'vitest'
import { createStaticProbe } from '../../src/page/layout-probe.ts'
import { explainPage, readPage } from '../../src/page/read-page.ts'
import { createSelectorLadder, fitsHost } from '../../src/page/site-hints.ts'

const now = '2026-11-18T12:00:00Z'
const page = (price: string, extra = ''): Document =>
  new DOMParser().parseFromString(
    `<html lang="en"><head><title>Anna Soderholm No. 14 | Quayside Lots</title></head><body><h1>Anna Soderholm No. 14</h1>
     <div class="a9f"><span class="zz1">${price}</span></div><p>The fee for others is £3.00.</p><button>Buy now</button>${extra}</body></html>`,
    'text/html',
  )
const read = (document: Document, hints: Parameters<typeof readPage>[1]['hints'] = []) =>
  readPage(document, { url: 'https://www.quayside.example/lot/7', now, probe: createStaticProbe(document), hints })

describe('site hints', () => {
  it('compares hosts by labels', () => {
    expect(fitsHost('quayside.example', 'www.quayside.example')).toBe(true)
    expect(fitsHost('quayside.example', 'my-quayside.example')).toBe(false)
    expect(fitsHost('quayside.example', 'quayside.example.evil.example')).toBe(false)
  })

  it('builds selectors that each find the one element, and no brittle chain first', () => {
    const document = page(
      '£12.00',
      '<section id="facts"><dl><dt>Seller</dt><dd data-testid="seller-name">oldpier</dd></dl></section>',
    )
    const element = document.querySelector('[data-testid]')!
    const ladder = createSelectorLadder(document, element)
    expect(ladder[0]).toBe('dd[data-testid="seller-name"]')
    for (const selector of ladder) expect([...document.querySelectorAll(selector)]).toEqual([element])
  })

  it('reads a pointed-at price first, and says where it came from', () => {
    const first = page('about twelve pounds, that is 12 £')
    const ladder = createSelectorLadder(first, first.querySelector('.zz1')!)
    const next = page('now 15 £')
    const reading = read(next, [{ host: 'quayside.example', field: 'price', selectors: ladder }])
    expect(reading.kind === 'listing' && reading.price).toEqual({ amount: '15', currency: 'GBP' })
    expect(reading.kind === 'listing' && reading.provenance.price?.from).toBe('hint')
  })

  it('ignores a stale hint and says so', () => {
    const document = page('£12.00')
    const hints = [{ host: 'quayside.example', field: 'price', selectors: ['#gone'] }]
    const { reading, trace } = explainPage(document, {
      url: 'https://quayside.example/lot/7',
      now,
      probe: createStaticProbe(document),
      hints,
    })
    expect(reading.kind === 'listing' && reading.price?.amount).toBe('12.00')
    expect(trace.notes).toEqual(['the hint for price on quayside.example finds nothing any more'])
  })

  it('keeps a hint to its own host', () => {
    const document = page('£12.00')
    const reading = read(document, [{ host: 'elsewhere.example', field: 'title', selectors: ['p'] }])
    expect(reading.kind === 'listing' && reading.title).toBe('Anna Soderholm No. 14')
  })
})
