// @vitest-environment jsdom
/** A page may name its fields, zones and conditions like what every object of JavaScript answers to; they stay words. */
import { expect, it } from 'vitest'
import { parseTime } from '../../src/domain/parse-time.ts'
import { createStaticProbe } from '../../src/page/layout-probe.ts'
import { readPage } from '../../src/page/read-page.ts'

const NOW = '2026-11-20T12:00:00Z'
const TITLE = 'Odo Marrable 1931 Skerryball Stars 17'

it.each(['constructor', '__proto__', 'toString', 'hasOwnProperty', 'valueOf'])('%s', (word) => {
  const record = {
    '@context': 'https://schema.org',
    '@type': ['Product', word],
    name: TITLE,
    image: `https://photos.example/${word}/${word}.jpg`,
    additionalProperty: [{ '@type': 'PropertyValue', name: word, value: 'v' }],
    offers: { '@type': 'Offer', price: '12.50', priceCurrency: 'EUR', itemCondition: word, availability: word },
  }
  document.documentElement.lang = word
  document.body.innerHTML = `<main><h1>${TITLE}</h1><img src="https://photos.example/${word}/2.jpg" alt="">
    <p>Price: 12.50 EUR</p><p>Ends 20 November 2026 18:00 ${word.toUpperCase()}</p>
    <table><tr><th>${word}</th><td>x</td></tr><tr><th>Year</th><td>1931</td></tr></table>
    <form><button>Add to basket</button></form></main>
    <script type="application/ld+json">${JSON.stringify(record)}</script>
    <script>window.__STATE__ = {"${word}": {"polluted": 1}, "product": {"${word}": "x"}}</script>`
  const url = `https://lots.${word}/7`
  const reading = readPage(document, { url, now: NOW, probe: createStaticProbe(document) })
  if (reading.kind !== 'listing') throw new Error(reading.kind)
  expect(reading.price).toEqual({ amount: '12.50', currency: 'EUR' })
  expect(reading.condition).toBe(word)
  expect(reading.specifics.Year).toBe('1931')
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined()
  // What goes to the panel is cloned on the way: a function in it would lose the whole reading.
  expect(() => structuredClone(reading)).not.toThrow()
  expect(() => parseTime('tomorrow 18:00', { now: NOW, locale: word })).not.toThrow()
})
