/**
 * Kept bytes as something that the browser shows as a picture. A photo host or a backup may call its bytes a page; opened in a tab
 * such a page would run with our own origin, so whatever is no bitmap image stays unnamed bytes.
 */

const BITMAP = /^image\/(avif|bmp|gif|jpeg|png|webp)$/

export function pictureBlob(bytes: BlobPart, mediaType: string | null): Blob {
  return new Blob([bytes], {
    type: mediaType !== null && BITMAP.test(mediaType) ? mediaType : 'application/octet-stream',
  })
}
