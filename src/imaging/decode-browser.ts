/** Decoding in a worker or page of the extension, through the browser's own decoders. */
import type { Pixels } from './pixels.ts'

/** `createImageBitmap` turns the picture upright by its EXIF orientation, as its default says. */
export async function decodeInBrowser(bytes: Uint8Array, mediaType: string): Promise<Pixels> {
  const bitmap = await createImageBitmap(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: mediaType }))
  try {
    const { width, height } = bitmap
    const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true })
    if (!context) throw new Error('this browser gives no drawing surface for pictures')
    context.drawImage(bitmap, 0, 0)
    return { width, height, data: context.getImageData(0, 0, width, height).data }
  } finally {
    bitmap.close()
  }
}
