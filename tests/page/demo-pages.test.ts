// @vitest-environment node
/** The demo market's own pages: what its data says must be read off each page build. Pages and data were made apart from the reader. */
import { JSDOM } from 'jsdom'
import { describe, expect, it } from 'vitest'
import { DEMO_NOW } from '../../src/demo/market/clock.ts'
import { EXAMPLE_ORIGINS } from '../../src/demo/market/listing-data.ts'
import { CURRENCIES, LISTINGS } from '../../src/demo/market/market-data.ts'
import { renderSavedBrambleboard } from '../../src/demo/market/pages/brambleboard.ts'
import { photoUrl } from '../../src/demo/market/pages/html.ts'
import { renderLamplight } from '../../src/demo/market/pages/lamplight.ts'
import { renderMoewenmarkt } from '../../src/demo/market/pages/moewenmarkt.ts'
import { renderQuayside } from '../../src/demo/market/pages/quayside.ts'
import type { Listing } from '../../src/domain/listing.ts'
import { createStaticProbe } from '../../src/page/layout-probe.ts'
import { readPage } from '../../src/page/read-page.ts'

const RENDER = {
  quayside: renderQuayside,
  moewenmarkt: renderMoewenmarkt,
  lamplight: renderLamplight,
  brambleboard: renderSavedBrambleboard,
}
const context = { now: DEMO_NOW, origins: EXAMPLE_ORIGINS }

describe('demo market', () => {
  for (const listing of LISTINGS) {
    it(`${listing.market} ${listing.id}`, () => {
      const url = EXAMPLE_ORIGINS[listing.market] + listing.path
      const source = RENDER[listing.market](listing.path, context)
      expect(source).not.toBeNull()
      const { document } = new JSDOM(source!, { url }).window
      const reading = readPage(document, { url, now: DEMO_NOW, probe: createStaticProbe(document) }) as Listing
      const money = (amount: string | null) =>
        amount === null ? null : { amount: Number(amount), currency: CURRENCIES[listing.market] }
      expect({
        kind: reading.kind,
        title: reading.title,
        price: reading.price && { ...reading.price, amount: Number(reading.price.amount) },
        priceKind: reading.priceKind,
        saleFormat: reading.saleFormat,
        shipping: reading.shipping && { ...reading.shipping, amount: Number(reading.shipping.amount) },
        seller: reading.seller?.name,
        // The auction house shows what is bid, not how often.
        bids: listing.market === 'lamplight' ? null : reading.bids,
        premiumPercent: reading.premiumPercent,
        photos: reading.photos.map((photo) => photo.url),
        specifics: Object.fromEntries(listing.specifics.map(([name]) => [name, reading.specifics[name]])),
      }).toEqual({
        kind: 'listing',
        title: listing.title,
        price: money(listing.price),
        priceKind: listing.priceKind,
        saleFormat: listing.format,
        shipping: money(listing.shipping),
        seller: listing.seller.name,
        bids: listing.market === 'lamplight' ? null : listing.bids,
        premiumPercent: listing.premiumPercent,
        photos: listing.photos.map((photo) => photoUrl(EXAMPLE_ORIGINS, photo.file, 'full')),
        specifics: Object.fromEntries(listing.specifics),
      })
      for (const words of listing.description) expect(reading.description ?? '').toContain(words)
    })
  }
})
