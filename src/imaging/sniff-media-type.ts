/**
 * What a file is by its first bytes, whatever its name or its server says.
 * Signatures: WHATWG MIME Sniffing Standard, section 6.1; ISO/IEC 14496-12 `ftyp` brands for AVIF and HEIC.
 */
export type ImageType =
  | 'image/jpeg'
  | 'image/png'
  | 'image/gif'
  | 'image/webp'
  | 'image/bmp'
  | 'image/avif'
  | 'image/heic'

export type Sniffed =
  | { readonly kind: 'image'; readonly mediaType: ImageType }
  /** In words, what it is instead. */
  | { readonly kind: 'other'; readonly what: string }

export function sniffMediaType(bytes: Uint8Array): Sniffed {
  const text = (start: number, end: number) => String.fromCharCode(...bytes.subarray(start, end))
  if (bytes.length === 0) return { kind: 'other', what: 'the file is empty' }
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return image('image/jpeg')
  if (text(0, 8) === '\x89PNG\r\n\x1a\n') return image('image/png')
  if (/^GIF8[79]a/.test(text(0, 6))) return image('image/gif')
  if (text(0, 4) === 'RIFF' && text(8, 12) === 'WEBP') return image('image/webp')
  if (text(0, 2) === 'BM' && bytes.length > 26) return image('image/bmp')
  if (text(4, 8) === 'ftyp') {
    const brands = text(8, 64)
    if (/avi[fs]/.test(brands)) return image('image/avif')
    if (/hei[cxms]|hev[cx]|mif1/.test(brands)) return image('image/heic')
    return { kind: 'other', what: 'the file is a video' }
  }
  const start = text(0, 512)
    .replace(/^\u00ef\u00bb\u00bf/, '')
    .trimStart()
    .toLowerCase()
  if (/^(<\?xml[^>]*>\s*)?(<!--[\s\S]*?-->\s*)*(<!doctype svg[^>]*>\s*)?<svg/.test(start)) {
    return { kind: 'other', what: 'the file is an SVG drawing, which is not opened' }
  }
  if (/^(<!doctype html|<html|<head|<body|<script|<!--)/.test(start)) {
    return { kind: 'other', what: 'the file is a web page, not a picture' }
  }
  if (text(0, 5) === '%PDF-') return { kind: 'other', what: 'the file is a PDF document' }
  return { kind: 'other', what: 'the file is no picture that can be read' }
}

function image(mediaType: ImageType): Sniffed {
  return { kind: 'image', mediaType }
}
