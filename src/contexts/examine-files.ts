/** Examines photos that a person handed over, one after the other, in the worker. A photo that fails is one that was not seen. */
import { emptyPhotoFacts, type PhotoFacts } from '../domain/photo-facts.ts'
import { createWorkerQueue } from '../platform/worker-queue.ts'
import { sha256 } from '../storage/sha256.ts'
import type { ReplyPhoto, ReplyProgress } from '../ui/dossier/dossier-ports.ts'
import type { ExamineTask } from './worker/examine-photo.worker.ts'

/** A photo of ours has no address; its content is its name, so that the same one twice is one. */
export const OWN_PHOTO = 'photo:'

export interface ExaminedFile {
  readonly url: string
  readonly alt: string
  readonly bytes: ArrayBuffer
  readonly mediaType: string | null
  readonly facts: PhotoFacts
  readonly view: ReplyPhoto['view']
}

const queue = createWorkerQueue<ExamineTask, PhotoFacts>({
  create: () => new Worker(new URL('./worker/examine-photo.worker.ts', import.meta.url), { type: 'module' }),
})

/** Rejects with the signal's reason when given up; nothing is kept then. */
export async function examineFiles(
  photos: readonly ReplyPhoto[],
  { signal, onPhoto }: ReplyProgress,
): Promise<ExaminedFile[]> {
  const examined = new Map<string, ExaminedFile>()
  let done = 0
  onPhoto(0, photos.length)
  for (const { file, view } of photos) {
    signal.throwIfAborted()
    const bytes = await file.arrayBuffer()
    const url = OWN_PHOTO + (await sha256(bytes))
    const facts = await examine(url, bytes, signal)
    const mediaType = facts.mediaType ?? (file.type === '' ? null : file.type)
    // A file's name is often the only word on what it shows: `back.jpg`.
    const alt = file.name.replace(/\.\w+$/, '')
    examined.set(url, { url, alt, bytes, mediaType, facts, view })
    onPhoto(++done, photos.length)
  }
  return [...examined.values()]
}

async function examine(url: string, bytes: ArrayBuffer, signal: AbortSignal): Promise<PhotoFacts> {
  try {
    const copy = new Uint8Array(bytes.slice(0))
    return await queue.run({ file: url, bytes: copy }, [copy.buffer], signal)
  } catch (error) {
    signal.throwIfAborted()
    const detail = error instanceof Error ? error.message : String(error)
    return { ...emptyPhotoFacts(url), problems: [{ problem: 'damaged', detail }] }
  }
}
