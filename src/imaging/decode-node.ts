/** Decoding in Node, for the command line and tests, through Skia (@napi-rs/canvas). Never bundled into the extension. */
import { createCanvas, loadImage } from '@napi-rs/canvas'
import type { Pixels } from './pixels.ts'

/** Skia turns the picture upright by its EXIF orientation itself; a test holds it to that. */
export async function decodeInNode(bytes: Uint8Array): Promise<Pixels> {
  const image = await loadImage(Buffer.from(bytes))
  const { width, height } = image
  const context = createCanvas(width, height).getContext('2d')
  context.drawImage(image, 0, 0)
  return { width, height, data: context.getImageData(0, 0, width, height).data }
}
