/**
 * A photo without what its file says about it: where and by whom it was taken, captions, comments. Its pixels stay byte for byte, and so
 * does the way up. For handing photos to somebody who is not to know where they come from.
 */

const APP0 = 0xe0
const APP1 = 0xe1
const APP2 = 0xe2
const APP14 = 0xee
const APP15 = 0xef
const COMMENT = 0xfe
const START_OF_SCAN = 0xda
/** Tag 0x0112 of TIFF 6.0: 1 is upright. */
const ORIENTATION = 0x0112

/** Segments of a JPEG file are named in ITU-T T.81, B.1.1.3; PNG and WebP carry such words in chunks, which are left out too. */
export function stripMetadata(bytes: Uint8Array, mediaType: string): Uint8Array {
  if (mediaType === 'image/jpeg') return stripJpeg(bytes)
  if (mediaType === 'image/png') return stripPng(bytes)
  return bytes
}

function stripJpeg(bytes: Uint8Array): Uint8Array {
  const parts: Uint8Array[] = [bytes.subarray(0, 2)]
  let orientation = 1
  const kept: Uint8Array[] = []
  let at = 2
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!
    if (marker === START_OF_SCAN) break
    const end = at + 2 + bytes[at + 2]! * 256 + bytes[at + 3]!
    const segment = bytes.subarray(at, end)
    if (marker === APP1) orientation = readOrientation(segment) ?? orientation
    // Colour profile (APP2), colour transform (APP14) and density (APP0) belong to the pixels.
    const isWords = marker === COMMENT || (marker >= APP0 && marker <= APP15)
    if (!isWords || marker === APP0 || marker === APP2 || marker === APP14) kept.push(segment)
    at = end
  }
  if (orientation !== 1) parts.push(exifOf(orientation))
  return join([...parts, ...kept, bytes.subarray(at)])
}

function readOrientation(segment: Uint8Array): number | null {
  const view = new DataView(segment.buffer, segment.byteOffset, segment.byteLength)
  // Marker, length, "Exif\0\0": the TIFF header begins at 10.
  if (segment.length < 24 || view.getUint32(4) !== 0x45786966) return null
  const little = view.getUint16(10) === 0x4949
  const first = 10 + view.getUint32(14, little)
  if (first + 2 > segment.length) return null
  const count = view.getUint16(first, little)
  for (let i = 0; i < count; i++) {
    const entry = first + 2 + 12 * i
    if (entry + 12 > segment.length) return null
    if (view.getUint16(entry, little) === ORIENTATION) return view.getUint16(entry + 8, little)
  }
  return null
}

/** An Exif segment that says nothing but the way up. */
function exifOf(orientation: number): Uint8Array {
  return Uint8Array.from([
    ...[0xff, APP1, 0, 34, 0x45, 0x78, 0x69, 0x66, 0, 0],
    ...[0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1],
    ...[0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0],
  ])
}

const WORDS_OF_PNG = new Set(['tEXt', 'zTXt', 'iTXt', 'tIME'])

function stripPng(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const parts = [bytes.subarray(0, 8)]
  let at = 8
  while (at + 12 <= bytes.length) {
    const end = at + 12 + view.getUint32(at)
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8))
    if (!WORDS_OF_PNG.has(name)) parts.push(bytes.subarray(at, end))
    at = end
  }
  return join(parts)
}

function join(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const part of parts) {
    all.set(part, at)
    at += part.length
  }
  return all
}
