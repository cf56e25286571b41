/**
 * What a JPEG file says before its picture: size, quantisation tables, EXIF orientation. Walks the marker segments and
 * never decodes. A file that ends early gives what stood before the end.
 * ITU-T T.81, Annex B; EXIF 2.3, section 4.6.4 (tag 0x0112).
 */
export interface JpegFacts {
  readonly width: number | null
  readonly height: number | null
  /** By destination (0 is luma in every common encoder), 64 values in zig-zag order as stored. */
  readonly quantisation: ReadonlyMap<number, readonly number[]>
  /** 1–8; 1 where the file states none. */
  readonly orientation: number
}

const START_OF_SCAN = 0xda
const QUANTISATION = 0xdb
const EXIF_SEGMENT = 0xe1
const ORIENTATION_TAG = 0x0112

/** Frame headers: SOF0–SOF15 without DHT (c4), JPG (c8) and DAC (cc). */
function isFrameHeader(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc
}

export function walkJpeg(bytes: Uint8Array): JpegFacts {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const quantisation = new Map<number, readonly number[]>()
  let width: number | null = null
  let height: number | null = null
  let orientation = 1
  let at = 2
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) break
    const marker = bytes[at + 1] as number
    if (marker === 0xff) {
      at += 1
      continue
    }
    if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)) {
      at += 2
      continue
    }
    if (marker === START_OF_SCAN || marker === 0xd9) break
    const start = at + 4
    const end = at + 2 + view.getUint16(at + 2)
    if (end < start || end > bytes.length) break
    if (marker === QUANTISATION) readQuantisation(view, start, end, quantisation)
    else if (marker === EXIF_SEGMENT) orientation = readOrientation(view, start, end) ?? orientation
    else if (isFrameHeader(marker) && end - start >= 5) {
      height = view.getUint16(start + 1)
      width = view.getUint16(start + 3)
    }
    at = end
  }
  return { width, height, quantisation, orientation }
}

function readQuantisation(view: DataView, start: number, end: number, tables: Map<number, readonly number[]>): void {
  let at = start
  while (at < end) {
    const head = view.getUint8(at)
    const wide = head >> 4 !== 0
    const size = wide ? 128 : 64
    if (at + 1 + size > end) return
    const table = Array.from({ length: 64 }, (_, i) =>
      wide ? view.getUint16(at + 1 + 2 * i) : view.getUint8(at + 1 + i),
    )
    tables.set(head & 15, table)
    at += 1 + size
  }
}

function readOrientation(view: DataView, start: number, end: number): number | null {
  // "Exif\0\0", then a TIFF header.
  if (end - start < 14 || view.getUint32(start) !== 0x45786966) return null
  const tiff = start + 6
  const little = view.getUint16(tiff) === 0x4949
  const directory = tiff + view.getUint32(tiff + 4, little)
  if (directory + 2 > end) return null
  const entries = view.getUint16(directory, little)
  for (let i = 0; i < entries; i++) {
    const entry = directory + 2 + 12 * i
    if (entry + 12 > end) return null
    if (view.getUint16(entry, little) !== ORIENTATION_TAG) continue
    const value = view.getUint16(entry + 8, little)
    return value >= 1 && value <= 8 ? value : null
  }
  return null
}
