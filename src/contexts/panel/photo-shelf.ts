/**
 * The photos of the listing in front: fetched where permitted, or handed over by the person; examined one after the other, their
 * bytes kept until the listing is left. A photo that fails is one photo that was not seen; the others go on.
 */
import { emptyPhotoFacts, type PhotoFacts, type Quadrilateral } from '../../domain/photo-facts.ts'
import { fetchPhoto } from '../../platform/fetch-photo.ts'
import { pictureBlob } from '../../platform/picture-blob.ts'
import { createWorkerQueue } from '../../platform/worker-queue.ts'
import { sha256 } from '../../storage/sha256.ts'
import type { PhotoStep } from '../../ui/panel/panel-state.ts'
import { OWN_PHOTO } from '../examine-files.ts'
import type { ExamineTask } from '../worker/examine-photo.worker.ts'

export interface ShelvedPhoto {
  readonly bytes: Uint8Array<ArrayBuffer> | null
  readonly mediaType: string | null
  /** An object URL of this window. */
  readonly address: string | null
  readonly facts: PhotoFacts
}

/** A photo from elsewhere than the page. */
export interface AddedPhoto {
  readonly url: string
  /** The file's name, or the video's and the second. */
  readonly alt: string
}

type Corners = Quadrilateral['corners']

export interface PhotoShelf {
  get(url: string): ShelvedPhoto | null
  /** With the corners that the person set. */
  facts(): PhotoFacts[]
  step(url: string): PhotoStep
  /** Whether the card's outline is the person's. */
  hasCard(url: string): boolean
  added(): readonly AddedPhoto[]
  /** Bytes that were kept before. */
  put(url: string, bytes: Uint8Array<ArrayBuffer>, mediaType: string | null, facts: PhotoFacts, alt?: string): void
  /** Files of the person's own; the same one twice is one. They wait for `examine`. */
  add(files: readonly File[]): Promise<AddedPhoto[]>
  /** Takes an added photo away; it can be brought back until the listing is left. */
  remove(url: string): void
  restore(url: string): void
  /** The card's outline by the person; `null` gives it back to the examination. */
  setCard(url: string, corners: Corners | null): void
  /** Fetches and examines what is not here yet; `onChange` hears of each step. */
  examine(urls: readonly string[], onChange: (done: number, total: number) => void, signal: AbortSignal): Promise<void>
  clear(): void
}

// Each photo may leave some tens of MB of wasm memory behind; text recognition holds about 250 MB of its own. Measured in Chromium.
const RENEW_AFTER = 12

const queue = createWorkerQueue<ExamineTask, PhotoFacts>({
  create: () => new Worker(new URL('../worker/examine-photo.worker.ts', import.meta.url), { type: 'module' }),
  renewAfter: RENEW_AFTER,
})

export function createPhotoShelf(): PhotoShelf {
  const photos = new Map<string, ShelvedPhoto>()
  const steps = new Map<string, PhotoStep>()
  const own = new Map<string, AddedPhoto>()
  const cards = new Map<string, Corners>()
  const removed = new Map<string, { photo: ShelvedPhoto; named: AddedPhoto }>()

  function put(url: string, bytes: Uint8Array<ArrayBuffer> | null, mediaType: string | null, facts: PhotoFacts): void {
    const before = photos.get(url)
    const kept = before !== undefined && before.bytes === bytes && before.mediaType === mediaType
    if (before?.address && !kept) URL.revokeObjectURL(before.address)
    const address = kept ? before.address : bytes === null ? null : URL.createObjectURL(pictureBlob(bytes, mediaType))
    photos.set(url, { bytes, mediaType, address, facts })
  }

  async function bytesOf(url: string, signal: AbortSignal): Promise<Uint8Array<ArrayBuffer> | null> {
    const held = photos.get(url)?.bytes
    if (held) return held
    const fetched = await fetchPhoto(url, { signal })
    signal.throwIfAborted()
    if (!fetched.ok) {
      put(url, null, null, notSeen(url, `${fetched.fault}: ${fetched.detail}`))
      return null
    }
    put(url, fetched.bytes, fetched.mediaType, emptyPhotoFacts(url))
    return fetched.bytes
  }

  async function examineOne(url: string, signal: AbortSignal, onChange: () => void): Promise<void> {
    const bytes = await bytesOf(url, signal)
    if (bytes === null) return
    const mediaType = photos.get(url)?.mediaType ?? null
    steps.set(url, 'looking')
    onChange()
    try {
      // The worker takes its own copy along; ours is kept for the dossier.
      const copy = bytes.slice()
      const early = (facts: PhotoFacts) => {
        put(url, bytes, mediaType, facts)
        onChange()
      }
      const facts = await queue.run({ file: url, bytes: copy }, [copy.buffer], signal, early)
      put(url, bytes, facts.mediaType ?? mediaType, facts)
    } catch (error) {
      if (signal.aborted) put(url, bytes, mediaType, emptyPhotoFacts(url))
      signal.throwIfAborted()
      put(url, bytes, mediaType, notSeen(url, error instanceof Error ? error.message : String(error)))
    }
  }

  const withCard = (facts: PhotoFacts): PhotoFacts => {
    const corners = cards.get(facts.file)
    return corners === undefined
      ? facts
      : { ...facts, card: { corners, confidence: 1 }, pxPerMm: rescale(facts, corners) }
  }

  return {
    get(url) {
      const photo = photos.get(url)
      return photo === undefined ? null : { ...photo, facts: withCard(photo.facts) }
    },
    facts: () => [...photos.values()].map((photo) => withCard(photo.facts)),
    step: (url) => steps.get(url) ?? 'none',
    hasCard: (url) => cards.has(url),
    added: () => [...own.values()],
    put(url, bytes, mediaType, facts, alt) {
      if (alt !== undefined) own.set(url, { url, alt })
      put(url, bytes, mediaType, facts)
    },
    async add(files) {
      const added: AddedPhoto[] = []
      for (const file of files) {
        const bytes = new Uint8Array(await file.arrayBuffer())
        const photo = { url: OWN_PHOTO + (await sha256(bytes.buffer)), alt: file.name.replace(/\.(\w{3,4})$/, '') }
        if (!own.has(photo.url)) added.push(photo)
        own.set(photo.url, photo)
        if (!photos.has(photo.url)) put(photo.url, bytes, file.type || null, emptyPhotoFacts(photo.url))
      }
      return added
    },
    remove(url) {
      const [photo, named] = [photos.get(url), own.get(url)]
      if (photo === undefined || named === undefined) return
      removed.set(url, { photo, named })
      photos.delete(url)
      own.delete(url)
    },
    restore(url) {
      const before = removed.get(url)
      if (before === undefined) return
      removed.delete(url)
      photos.set(url, before.photo)
      own.set(url, before.named)
    },
    setCard(url, corners) {
      if (corners === null) cards.delete(url)
      else cards.set(url, corners)
    },
    async examine(urls, onChange, signal) {
      const waiting = urls.filter((url) => !photos.get(url)?.facts.examined)
      let done = urls.length - waiting.length
      const tell = () => onChange(done, urls.length)
      for (const url of waiting) steps.set(url, 'waiting')
      tell()
      try {
        for (const url of waiting) {
          steps.set(url, 'loading')
          tell()
          await examineOne(url, signal, tell)
          steps.delete(url)
          done++
          tell()
        }
      } finally {
        for (const url of waiting) steps.delete(url)
      }
    },
    clear() {
      const all = [...photos.values(), ...[...removed.values()].map(({ photo }) => photo)]
      for (const { address } of all) if (address) URL.revokeObjectURL(address)
      for (const map of [photos, steps, own, cards, removed]) map.clear()
    },
  }
}

function notSeen(file: string, detail: string): PhotoFacts {
  return { ...emptyPhotoFacts(file), problems: [{ problem: 'not-fetched', detail }] }
}

/** The scale that was found, with the outline that is so instead of the one that was found. `null`: no scale was found. */
function rescale({ pxPerMm, card }: PhotoFacts, corners: Corners): number | null {
  if (pxPerMm === null || card === null) return null
  const across = ([a, b, c, d]: Corners) => Math.hypot(b[0] - a[0], b[1] - a[1]) + Math.hypot(c[0] - d[0], c[1] - d[1])
  return Math.round(pxPerMm * (across(corners) / across(card.corners)) * 100) / 100
}
