/**
 * Collects a file that is written in pieces. Pieces are handed over to the browser as they come, which keeps large ones on disk, so that
 * no more than a few megabytes are ever held by the page.
 */

/** Bytes after which pieces become one blob. Ours, no source. */
const HAND_OVER_BYTES = 8 * 2 ** 20

export interface FileSink {
  write(chunk: Uint8Array): void
  /** All of it. */
  finish(mediaType: string): Blob
}

export function createFileSink(): FileSink {
  const blobs: Blob[] = []
  let pieces: Uint8Array<ArrayBuffer>[] = []
  let held = 0
  const handOver = () => {
    if (held > 0) blobs.push(new Blob(pieces))
    pieces = []
    held = 0
  }
  return {
    write(chunk) {
      // A copy: whoever writes may use its buffer again.
      pieces.push(chunk.slice() as Uint8Array<ArrayBuffer>)
      held += chunk.length
      if (held >= HAND_OVER_BYTES) handOver()
    },
    finish(type) {
      handOver()
      return new Blob(blobs, { type })
    },
  }
}
