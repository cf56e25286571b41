/**
 * The photos of the listing in front: fetched where permitted, examined one after the other, their bytes kept until the
 * listing is left. A photo that fails is one photo that was not seen; the others go on.
 */
import { emptyPhotoFacts, type PhotoFacts } from '../../domain/photo-facts.ts'
import { fetchPhoto } from '../../platform/fetch-photo.ts'
import { pictureBlob } from '../../platform/picture-blob.ts'
import { createWorkerQueue } from '../../platform/worker-queue.ts'
import type { ExamineTask } from '../worker/examine-photo.worker.ts'

export interface ShelvedPhoto {
  readonly bytes: Uint8Array<ArrayBuffer> | null
  readonly mediaType: string | null
  /** An object URL of this window. */
  readonly address: string | null
  readonly facts: PhotoFacts
}

export interface PhotoShelf {
  get(url: string): ShelvedPhoto | null
  facts(): PhotoFacts[]
  /** Bytes that were kept before. */
  put(url: string, bytes: Uint8Array<ArrayBuffer>, mediaType: string | null, facts: PhotoFacts): void
  /** Fetches and examines what is not here yet; `onPhoto` hears of each. */
  examine(urls: readonly string[], onPhoto: (done: number, total: number) => void, signal: AbortSignal): Promise<void>
  clear(): void
}

const queue = createWorkerQueue<ExamineTask, PhotoFacts>({
  create: () => new Worker(new URL('../worker/examine-photo.worker.ts', import.meta.url), { type: 'module' }),
})

export function createPhotoShelf(): PhotoShelf {
  const photos = new Map<string, ShelvedPhoto>()

  function put(url: string, bytes: Uint8Array<ArrayBuffer> | null, mediaType: string | null, facts: PhotoFacts): void {
    const before = photos.get(url)?.address
    if (before) URL.revokeObjectURL(before)
    const address = bytes === null ? null : URL.createObjectURL(pictureBlob(bytes, mediaType))
    photos.set(url, { bytes, mediaType, address, facts })
  }

  async function examineOne(url: string, signal: AbortSignal): Promise<void> {
    const fetched = await fetchPhoto(url, { signal })
    signal.throwIfAborted()
    if (!fetched.ok) return put(url, null, null, notSeen(url, `${fetched.fault}: ${fetched.detail}`))
    try {
      // The worker takes its own copy along; ours is kept for the dossier.
      const bytes = fetched.bytes.slice()
      const facts = await queue.run({ file: url, bytes }, [bytes.buffer], signal)
      put(url, fetched.bytes, facts.mediaType ?? fetched.mediaType, facts)
    } catch (error) {
      signal.throwIfAborted()
      put(url, fetched.bytes, fetched.mediaType, notSeen(url, error instanceof Error ? error.message : String(error)))
    }
  }

  return {
    get: (url) => photos.get(url) ?? null,
    facts: () => [...photos.values()].map((photo) => photo.facts),
    put,
    async examine(urls, onPhoto, signal) {
      const waiting = urls.filter((url) => !photos.get(url)?.facts.examined)
      let done = urls.length - waiting.length
      onPhoto(done, urls.length)
      for (const url of waiting) {
        await examineOne(url, signal)
        onPhoto(++done, urls.length)
      }
    },
    clear() {
      for (const { address } of photos.values()) if (address) URL.revokeObjectURL(address)
      photos.clear()
    },
  }
}

function notSeen(file: string, detail: string): PhotoFacts {
  return { ...emptyPhotoFacts(file), problems: [{ problem: 'not-fetched', detail }] }
}
