/** Whether two files are one photo, away from the screen. Wiring only. */
import { decodeInBrowser } from '../../imaging/decode-browser.ts'
import { compareForSamePhoto, type Hint, type Likeness, preparePhoto } from '../../imaging/fingerprints/same-photo.ts'
import { toGrey } from '../../imaging/pixels.ts'
import type { WorkerAnswer } from '../../platform/worker-queue.ts'

export interface PrintsTask {
  readonly here: Uint8Array<ArrayBuffer>
  readonly there: Uint8Array<ArrayBuffer>
  readonly hereType: string
  readonly thereType: string
  readonly hint: Hint
}

async function prepare(bytes: Uint8Array<ArrayBuffer>, mediaType: string, turn: Hint['turn']) {
  return preparePhoto(toGrey(await decodeInBrowser(bytes, mediaType)), turn)
}

self.addEventListener('message', async ({ data }: MessageEvent<PrintsTask>) => {
  let answer: WorkerAnswer<Likeness>
  try {
    const here = await prepare(data.here, data.hereType, data.hint.turn)
    const there = await prepare(data.there, data.thereType, 'upright')
    answer = { ok: true, result: compareForSamePhoto(here, there, data.hint) }
  } catch (error) {
    answer = { ok: false, message: error instanceof Error ? error.message : String(error) }
  }
  self.postMessage(answer)
})
