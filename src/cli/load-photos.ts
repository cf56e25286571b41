/**
 * A folder of saved photos, examined, and matched to the photos that the listing names by file name.
 * A photo of the folder that the listing does not name is an additional photo.
 */
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Listing } from '../domain/listing.ts'
import type { PhotoFacts } from '../domain/photo-facts.ts'
import { BadInput } from './bad-input.ts'
import { readBytes, reasonOf } from './read-file.ts'

// Camera originals stay far below. Ours, no source.
const PHOTO_LIMIT_BYTES = 64 * 2 ** 20
const PHOTO_NAME = /\.(jpe?g|png|webp|gif|avif|heic|heif|bmp|tiff?)$/i

/** Examines photo files one after the other, so that only one is in memory. @param files path and name to report */
export async function examinePhotoFiles(files: readonly { path: string; file: string }[]): Promise<PhotoFacts[]> {
  const { examinePhoto } = await import('../imaging/examine-photo.ts')
  const { decodeInNode } = await import('../imaging/decode-node.ts')
  const { createBarcodeReader } = await import('../imaging/read-barcodes-node.ts')
  const { createLabelReaderInNode } = await import('../imaging/label/label-reader-node.ts')
  const readBarcodes = await createBarcodeReader()
  const readLabel = createLabelReaderInNode()
  const facts: PhotoFacts[] = []
  for (const { path, file } of files) {
    const bytes = await readBytes(path, PHOTO_LIMIT_BYTES)
    facts.push(await examinePhoto(bytes, { file, decode: decodeInNode, readBarcodes, readLabel }))
  }
  return facts
}

async function photoNames(folder: string): Promise<string[]> {
  try {
    const entries = await readdir(folder, { withFileTypes: true })
    return entries
      .filter((entry) => entry.isFile() && PHOTO_NAME.test(entry.name))
      .map((entry) => entry.name)
      .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }))
  } catch (error) {
    throw new BadInput(`--photos: ${folder}: ${reasonOf(error)}.`)
  }
}

/** The last part of an address, as a saved copy of it would be called. */
export function fileNameOf(url: string): string {
  const path = (URL.canParse(url) ? new URL(url).pathname : url).split(/[?#]/)[0] ?? ''
  const last = path.split('/').filter(Boolean).at(-1) ?? ''
  try {
    return decodeURIComponent(last)
  } catch {
    return last
  }
}

/** @returns facts in the listing's order, named by the listing's URLs; then the additional ones, by file name. */
export async function loadPhotos(folder: string | null, listing: Listing): Promise<readonly PhotoFacts[]> {
  if (folder === null) return []
  const waiting = new Map((await photoNames(folder)).map((name) => [name.toLowerCase(), name]))
  const matched: { name: string; file: string }[] = []
  for (const { url } of listing.photos) {
    const key = fileNameOf(url).toLowerCase()
    const name = waiting.get(key)
    if (name === undefined) continue
    waiting.delete(key)
    matched.push({ name, file: url })
  }
  const additional = [...waiting.values()].map((name) => ({ name, file: name }))
  return examinePhotoFiles([...matched, ...additional].map(({ name, file }) => ({ path: join(folder, name), file })))
}
