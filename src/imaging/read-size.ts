/**
 * The size that an image file states in its header, read before anything is decoded: a picture that would not fit into
 * memory is refused by what it says of itself. `null` where the header is damaged.
 * PNG: ISO/IEC 15948; GIF89a; WebP: RFC 9649; BMP: BITMAPINFOHEADER; AVIF and HEIC: ISO/IEC 23008-12 `ispe`.
 */
import type { ImageType } from './sniff-media-type.ts'
import { walkJpeg } from './walk-jpeg.ts'

export interface Size {
  readonly width: number
  readonly height: number
}

export function readSize(bytes: Uint8Array, mediaType: ImageType): Size | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  try {
    const size = read(view, bytes, mediaType)
    return size && size.width > 0 && size.height > 0 ? size : null
  } catch (error) {
    // A header cut short: the view refuses to read past its end.
    if (error instanceof RangeError) return null
    throw error
  }
}

function read(view: DataView, bytes: Uint8Array, mediaType: ImageType): Size | null {
  switch (mediaType) {
    case 'image/jpeg': {
      const { width, height } = walkJpeg(bytes)
      return width !== null && height !== null ? { width, height } : null
    }
    case 'image/png':
      return { width: view.getUint32(16), height: view.getUint32(20) }
    case 'image/gif':
      return { width: view.getUint16(6, true), height: view.getUint16(8, true) }
    case 'image/bmp':
      return { width: Math.abs(view.getInt32(18, true)), height: Math.abs(view.getInt32(22, true)) }
    case 'image/webp':
      return readWebp(view)
    default:
      return readIspe(view, bytes)
  }
}

function readWebp(view: DataView): Size | null {
  const chunk = view.getUint32(12)
  if (chunk === 0x56503858) return { width: 1 + uint24(view, 24), height: 1 + uint24(view, 27) }
  if (chunk === 0x5650384c) {
    const bits = view.getUint32(21, true)
    return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) }
  }
  if (chunk === 0x56503820) {
    return { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff }
  }
  return null
}

function uint24(view: DataView, at: number): number {
  return view.getUint16(at, true) | (view.getUint8(at + 2) << 16)
}

// `ispe` boxes stand in the `meta` box near the start; a file that hides them deeper is not opened.
const SEARCHED_BYTES = 64 * 1024

/** The largest of the stated extents: a grid states its tiles and the whole. */
function readIspe(view: DataView, bytes: Uint8Array): Size | null {
  let largest: Size | null = null
  const end = Math.min(bytes.length, SEARCHED_BYTES) - 16
  for (let at = 0; at < end; at++) {
    if (bytes[at] !== 0x69 || view.getUint32(at) !== 0x69737065) continue
    const size = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) }
    if (!largest || size.width * size.height > largest.width * largest.height) largest = size
  }
  return largest
}
