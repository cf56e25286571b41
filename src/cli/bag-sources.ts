/** Bags on disk for the verifier: a zip or a folder, read in pieces; and Node's own hashes, which know every algorithm of old bags. */
import { createHash, getHashes } from 'node:crypto'
import { createReadStream, openAsBlob } from 'node:fs'
import { readdir, stat } from 'node:fs/promises'
import { join, relative } from 'node:path'
import type { BagSource, Hasher } from '../storage/bag/verify-bag.ts'
import { NoBag, openZipSource } from '../storage/bag/zip-source.ts'
import { BadInput } from './bad-input.ts'
import { reasonOf } from './read-file.ts'

const KNOWN = new Set(getHashes().map((name) => name.toLowerCase()))

export function createNodeHasher(algorithm: string): Hasher | null {
  if (!KNOWN.has(algorithm)) return null
  const hash = createHash(algorithm)
  return { update: (chunk) => void hash.update(chunk), digest: () => hash.digest('hex') }
}

export async function openBag(path: string): Promise<BagSource> {
  try {
    if ((await stat(path)).isDirectory()) return await openFolderSource(path)
    return await openZipSource(await openAsBlob(path))
  } catch (error) {
    throw new BadInput(`${path}: ${error instanceof NoBag ? error.message : reasonOf(error)}.`)
  }
}

export async function openFolderSource(folder: string): Promise<BagSource> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true })
  const paths = entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .sort()
  return { paths, read: (path) => createReadStream(join(folder, path)) }
}
