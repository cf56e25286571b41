/** A bag inside a zip file, read where it lies: only the entry that is asked for is unpacked, in pieces. */
import { BlobReader, configure, type FileEntry, ZipReader } from '@zip.js/zip.js'
import type { BagSource } from './verify-bag.ts'

// No workers: their code would have to be fetched, which our pages forbid; hashing is the slower half anyway.
configure({ useWebWorkers: false })

/** The file is no zip, or holds no bag. */
export class NoBag extends Error {
  override readonly name = 'NoBag'
}

export async function openZipSource(file: Blob): Promise<BagSource> {
  const reader = new ZipReader(new BlobReader(file))
  const entries = await reader.getEntries().catch((error: unknown) => {
    throw new NoBag(`is no zip file (${error instanceof Error ? error.message : String(error)})`)
  })
  const files = entries.filter((entry): entry is FileEntry => !entry.directory)
  // RFC 8493, 4.1: a serialised bag is one folder; a zip made inside the folder has none.
  const declaration = files
    .map(({ filename }) => filename)
    .filter((name) => /^(?:[^/]+\/)?bagit\.txt$/.test(name))
    .sort((a, b) => a.length - b.length)[0]
  if (declaration === undefined) throw new NoBag('holds no bagit.txt: it is no bag')
  const root = declaration.slice(0, -'bagit.txt'.length)
  const byPath = new Map<string, FileEntry>()
  const twice: string[] = []
  for (const entry of files) {
    const path = entry.filename.startsWith(root) ? entry.filename.slice(root.length) : `../${entry.filename}`
    if (byPath.has(path)) twice.push(path)
    byPath.set(path, entry)
  }
  if (twice[0] !== undefined) throw new NoBag(`holds ${twice[0]} twice`)
  return {
    paths: [...byPath.keys()],
    async *read(path) {
      const entry = byPath.get(path)
      if (entry === undefined) throw new Error('is not in the zip')
      const pipe = new TransformStream<Uint8Array, Uint8Array>()
      const unpacked = entry.getData(pipe.writable)
      // Its failure reaches the reader as the stream's own.
      unpacked.catch(() => {})
      const chunks = pipe.readable.getReader()
      for (;;) {
        const { done, value } = await chunks.read()
        if (done) break
        yield value
      }
      await unpacked
    },
  }
}
