/** A picture small enough to stand in a report, drawn by the browser. The original stays as it is. */

/** Pixels of the longer edge: sharp on half a printed page. */
const LONGEST_EDGE = 1200
const QUALITY = 0.82

/** `null` where the bytes are no picture that the browser can draw. */
export async function shrinkPicture(
  bytes: Uint8Array<ArrayBuffer>,
  mediaType: string,
): Promise<{ bytes: Uint8Array<ArrayBuffer>; mediaType: string } | null> {
  try {
    const image = await createImageBitmap(new Blob([bytes], { type: mediaType }))
    const scale = Math.min(1, LONGEST_EDGE / Math.max(image.width, image.height))
    const canvas = new OffscreenCanvas(
      Math.max(1, Math.round(image.width * scale)),
      Math.max(1, Math.round(image.height * scale)),
    )
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height)
    image.close()
    const small = await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY })
    return { bytes: new Uint8Array(await small.arrayBuffer()), mediaType: 'image/jpeg' }
  } catch {
    return null
  }
}
