/**
 * Looks a photo in hand up among all that are kept: candidates by fingerprint, then pixel by pixel in a worker where both files are
 * at hand. Wiring only; the answer for two files is remembered while the window is open.
 */
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import { hintOfMatch } from '../../imaging/fingerprints/hint-of-match.ts'
import type { Likeness } from '../../imaging/fingerprints/same-photo.ts'
import { pictureBlob } from '../../platform/picture-blob.ts'
import { createWorkerQueue } from '../../platform/worker-queue.ts'
import type { AlikePhoto } from '../../storage/fingerprints.ts'
import type { SeenElsewhere } from '../../ui/panel/panel-state.ts'
import type { Stores } from '../stores.ts'
import type { PrintsTask } from '../worker/compare-prints.worker.ts'

export interface PhotoInHand {
  readonly facts: PhotoFacts
  readonly bytes: Uint8Array<ArrayBuffer>
  /** Of the listing, whose own dossier is nothing new. */
  readonly listingUrl: string | null
}

const queue = createWorkerQueue<PrintsTask, Likeness>({
  create: () => new Worker(new URL('../worker/compare-prints.worker.ts', import.meta.url), { type: 'module' }),
})

export function createSeenBefore(stores: Stores) {
  const known = new Map<string, boolean>()

  async function isSame(
    inHand: PhotoInHand,
    { dossier, photo, match }: AlikePhoto,
    signal: AbortSignal,
  ): Promise<boolean> {
    const other = dossier.photos[photo]
    if (!other?.sha256 || !other.facts) return false
    const pair = `${inHand.facts.sha256} ${other.sha256}`
    const before = known.get(pair)
    if (before !== undefined) return before
    const blob = await stores.dossiers.readBlob(other.sha256)
    if (blob === null) return false
    const [here, there] = [inHand.bytes.slice(), new Uint8Array(blob.bytes)]
    const likeness = await queue.run(
      {
        here,
        there,
        hereType: inHand.facts.mediaType ?? '',
        thereType: blob.mediaType,
        hint: hintOfMatch(match, inHand.facts.prints, other.facts.prints),
      },
      [here.buffer, there.buffer],
      signal,
    )
    known.set(pair, likeness.same)
    return likeness.same
  }

  async function pictureOf(hash: string | null): Promise<string | null> {
    const blob = hash === null ? null : await stores.dossiers.readBlob(hash)
    return blob === null ? null : URL.createObjectURL(pictureBlob(blob.bytes, blob.mediaType))
  }

  return async function lookUp(inHand: PhotoInHand, signal: AbortSignal): Promise<SeenElsewhere[]> {
    await stores.fingerprints.refresh()
    const seen: SeenElsewhere[] = []
    for (const alike of await stores.fingerprints.findAlike(inHand.facts, inHand.listingUrl)) {
      signal.throwIfAborted()
      const { dossier } = alike
      const other = dossier.photos[alike.photo]
      if (other === undefined) continue
      const sameFile = other.sha256 !== null && other.sha256 === inHand.facts.sha256
      const same = sameFile || (await isSame(inHand, alike, signal))
      seen.push({
        photo: inHand.facts.file,
        sameness: sameFile ? 'same-file' : same ? 'same-photo-changed' : 'look-yourself',
        dossier: dossier.id,
        title: dossier.title,
        seller: dossier.inspection.listing.seller?.name ?? null,
        at: dossier.capturedAt,
        outcome: dossier.outcome,
        sha256: other.sha256,
        mediaType: other.mediaType,
        picture: await pictureOf(other.sha256),
      })
    }
    return seen
  }
}
