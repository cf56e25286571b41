/** Examines photos away from the screen: bytes in, PhotoFacts out, one at a time. Wiring only. */
import { prepareZXingModule } from 'zxing-wasm/reader'
import zxingWasm from 'zxing-wasm/reader/zxing_reader.wasm?url'
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import { decodeInBrowser } from '../../imaging/decode-browser.ts'
import { examinePhoto } from '../../imaging/examine-photo.ts'
import { readBarcodes } from '../../imaging/read-barcodes.ts'
import type { WorkerAnswer } from '../../platform/worker-queue.ts'
import { createLabelReaderInWorker } from './open-label-reader.ts'

export interface ExamineTask {
  readonly file: string
  readonly bytes: Uint8Array<ArrayBuffer>
}

// The library would fetch its wasm from a public server; ours travels with the extension.
prepareZXingModule({ overrides: { locateFile: () => new URL(zxingWasm, self.location.href).href } })

const readLabel = createLabelReaderInWorker()

self.addEventListener('message', async ({ data }: MessageEvent<ExamineTask>) => {
  let answer: WorkerAnswer<PhotoFacts>
  const onEarly = (early: PhotoFacts) => self.postMessage({ early } satisfies WorkerAnswer<PhotoFacts>)
  try {
    const result = await examinePhoto(data.bytes, {
      file: data.file,
      decode: decodeInBrowser,
      readBarcodes,
      readLabel,
      onEarly,
    })
    answer = { ok: true, result }
  } catch (error) {
    answer = { ok: false, message: error instanceof Error ? error.message : String(error) }
  }
  self.postMessage(answer)
})
