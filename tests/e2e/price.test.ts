/** A page of sold results becomes a valuation in four clicks: the panel, its rows looked at, added, and a listing of the card opened. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { FAMILIES, openWorld, press, type World, waitForPhase, wordsOf } from './harness/world.ts'

describe.each(FAMILIES)('prices in %s', (family) => {
  let world: World
  beforeAll(async () => {
    world = await openWorld({ family })
    const page = await world.started.openExtensionPage('desk/index.html#sales')
    await page.evaluate(`new Promise((resolve, reject) => {
      const opening = indexedDB.open('touchstone')
      opening.onsuccess = () => {
        const stores = ['sales', 'saleSegments', 'saleWords']
        const transaction = opening.result.transaction(stores, 'readwrite')
        for (const store of stores) transaction.objectStore(store).clear()
        transaction.oncomplete = () => (opening.result.close(), resolve())
        transaction.onerror = () => reject(transaction.error)
      }
    })`)
    await page.close()
  })
  afterAll(() => world?.close())

  it('four clicks lead from sold results to a valuation', async () => {
    const results = await world.started.browser.newPage()
    await results.goto(`${world.market.origins.quayside}/sold?q=odo+marrable+17`, { waitUntil: 'domcontentloaded' })
    const panel = await world.openPanel(results)
    await waitForPhase(panel)
    await press(panel, 'Add these sales')
    await panel.waitForSelector('.row-sale', { timeout: 10_000 })
    const count = (await panel.evaluate('document.querySelectorAll(".row-sale").length')) as number
    expect(count).toBeGreaterThan(20)
    await press(panel, `Add ${count} sales`)
    await expect.poll(() => wordsOf(panel), { timeout: 10_000 }).toContain(`${count} sales added`)

    const listing = await world.openListing('q02')
    const beside = await world.openPanel(listing)
    await expect.poll(() => wordsOf(beside, '.valuation'), { timeout: 10_000 }).toMatch(/of the centre of \d+ sales/)
    await beside.waitForSelector('.sales-plot canvas', { timeout: 10_000 })
    expect(await wordsOf(beside, '.valuation')).toMatch(/90\s?% band/)
  })

  it('the desk lists them, searches them and values a card in words', async () => {
    const desk = await world.started.openExtensionPage('desk/index.html#sales')
    await desk.waitForSelector('.ledger-row .sale-price', { timeout: 10_000 })
    expect(await wordsOf(desk, '.list-count')).toMatch(/^\d+ sales/)
    await desk.close()
    const words = encodeURIComponent('1931-32 Skerryball Stars #17 Odo Marrable KVX 5')
    const value = await world.started.openExtensionPage(`desk/index.html#value/${words}`)
    await value.waitForSelector('.sales-plot canvas', { timeout: 10_000 })
    expect(await wordsOf(value, '.valuation-line')).toMatch(/Centre of \d+ sales/)
    await value.close()
  })
})
