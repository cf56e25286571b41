// @vitest-environment jsdom
import { describe, expect, it } from 'vitest'
import { createSelectors } from '../../../src/marking/create-selectors.ts'

function selectorsOf(markup: string): string[] {
  document.body.innerHTML = markup
  return createSelectors(document.querySelector('[data-here]')!)
}

const elsewhere = (markup: string, selector: string) => {
  document.body.innerHTML = markup
  return document.querySelector(selector)?.textContent
}

describe('selectors of a pointed element', () => {
  it('each find that element and no other', () => {
    const selectors = selectorsOf(
      '<div class="offer"><span class="price">1</span></div><div class="offer"><span class="price" data-here>2</span></div>',
    )
    expect(selectors.length).toBeGreaterThan(0)
    for (const selector of selectors) {
      expect([...document.querySelectorAll(selector)].map((found) => found.textContent)).toEqual(['2'])
    }
  })

  it('begin with what says what the thing is', () => {
    expect(selectorsOf('<b itemprop="price" class="x" data-here>2</b>')[0]).toBe('b[itemprop="price"]')
    expect(selectorsOf('<b id="asking-price" data-here>2</b>')[0]).toBe('#asking-price')
  })

  it.each(['css-1q2w3e', 'sc-AbCd', 'Price__amount__x7Yz1', 'item-4711023', 'a1B2c3'])(
    'pass over the made name %s',
    (name) => {
      const selectors = selectorsOf(`<main><b class="${name}" id="${name}" data-here>2</b></main>`)
      expect(selectors.join(' ')).not.toContain(name)
      expect(selectors.length).toBeGreaterThan(0)
    },
  )

  it('find the same field on the next listing of the site', () => {
    const listing = (price: string, extra: string) =>
      `<main>${extra}<section class="buy"><dl><dt>Price</dt><dd data-here>${price}</dd><dt>Post</dt><dd>3</dd></dl></section></main>`
    const [first] = selectorsOf(listing('120', ''))
    expect(elsewhere(listing('75', '<p>Notice</p><p>Another</p>'), first!)).toBe('75')
  })

  it('survive names with signs in them', () => {
    const [first] = selectorsOf('<b class="w:full 2col" data-here>2</b>')
    expect(document.querySelector(first!)?.textContent).toBe('2')
  })
})
