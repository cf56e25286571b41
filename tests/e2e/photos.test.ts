/** Photos in the built extension, under its shipped content security policy: a label is read in the panel's worker. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { drawLabel } from '../bench/label-scenes/draw-label.ts'
import { photographLabel } from '../bench/label-scenes/photograph-label.ts'
import { FAMILIES, openWorld, type World, wordsOf } from './harness/world.ts'

describe.each(FAMILIES)('in %s', (family) => {
  let world: World
  beforeAll(async () => {
    world = await openWorld({ family })
  })
  afterAll(() => world?.close())

  it('a photo from disk: its label is read by machine, and nothing is loaded before', async () => {
    const { canvas, truth } = drawLabel(4711, 'validation')
    const shot = { widthPx: 640, blurPx: 0.6, jpeg: 85, turnDegrees: 2, tilt: 0, frame: 'holder', seed: 1 } as const
    const photo = await photographLabel(canvas, shot)

    const page = await world.openListing('q02')
    const panel = await world.openPanel(page)
    const loaded = () =>
      panel.evaluate('performance.getEntriesByType("resource").filter(({ name }) => /wasm|onnx/.test(name)).length')
    expect(await loaded()).toBe(0)
    await panel.evaluate('document.querySelector(".photo-groups details").open = true')
    // Dropped, as a person would: Firefox lets no test fill the file field of an extension's page.
    await panel.evaluate(
      `(() => {
        const bytes = Uint8Array.from(atob(${JSON.stringify(photo.bytes.toString('base64'))}), (c) => c.charCodeAt(0))
        const dataTransfer = new DataTransfer()
        dataTransfer.items.add(new File([bytes], 'holder.jpg', { type: 'image/jpeg' }))
        document.querySelector('.photo-intake').dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }))
      })()`,
    )

    await expect
      .poll(() => wordsOf(panel, '.label-read'), { timeout: 100_000, interval: 250 })
      .toContain(truth.certificate)
    expect(await wordsOf(panel, '.label-read')).toContain(truth.grade)
    await page.close()
  })
})
