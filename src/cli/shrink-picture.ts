/** A picture small enough to stand in a report. The original stays as it is. */
import { createCanvas, loadImage } from '@napi-rs/canvas'
import type { KeptBytes } from '../storage/bag/dossier-bag.ts'

/** Pixels of the longer edge: sharp on half a printed page. */
const LONGEST_EDGE = 1200
const QUALITY = 82

export async function shrinkPicture({ bytes }: KeptBytes): Promise<KeptBytes | null> {
  try {
    const image = await loadImage(bytes)
    const scale = Math.min(1, LONGEST_EDGE / Math.max(image.width, image.height))
    const canvas = createCanvas(
      Math.max(1, Math.round(image.width * scale)),
      Math.max(1, Math.round(image.height * scale)),
    )
    canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height)
    return { bytes: new Uint8Array(await canvas.encode('jpeg', QUALITY)), mediaType: 'image/jpeg' }
  } catch {
    // No picture that can be drawn: the report names the file and shows nothing.
    return null
  }
}
