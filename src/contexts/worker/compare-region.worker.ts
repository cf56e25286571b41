/** One drawn region compared away from the screen: two files in, one judged point out. Wiring only. */
import type { DrawnCorners, PointComparison } from '../../domain/exemplar.ts'
import { compareDrawnRegion, type DrawnPoint, toPixels } from '../../imaging/compare-drawn-region.ts'
import { decodeInBrowser } from '../../imaging/decode-browser.ts'
import { openPicture } from '../../imaging/open-picture.ts'
import type { WorkerAnswer } from '../../platform/worker-queue.ts'

export interface CompareTask {
  readonly drawn: DrawnPoint
  readonly exemplar: Uint8Array<ArrayBuffer>
  readonly questioned: Uint8Array<ArrayBuffer>
  /** Of the card in the photo in question; `null`: found here. */
  readonly questionedCorners: DrawnCorners | null
}

/** An exemplar that cannot serve: its file is no picture that opens, or no card was found in it. `detail` says it exactly. */
export interface UnusableExemplar {
  readonly fault: 'not-opened' | 'no-card'
  readonly detail: string
}

export type CompareResult = PointComparison | UnusableExemplar

async function compare({ drawn, exemplar, questioned, questionedCorners }: CompareTask): Promise<CompareResult> {
  const model = await openPicture(exemplar, { file: '', decode: decodeInBrowser })
  if ('problem' in model) return { fault: 'not-opened', detail: model.problem }
  const photo = await openPicture(questioned, { file: '', decode: decodeInBrowser })
  const result = compareDrawnRegion(drawn, model.picture, {
    file: '',
    picture: 'picture' in photo ? photo.picture : null,
    corners: 'picture' in photo && questionedCorners ? toPixels(questionedCorners, photo.picture) : null,
    problem: 'problem' in photo ? photo.problem : null,
  })
  return 'fault' in result ? { fault: 'no-card', detail: result.fault } : result
}

self.addEventListener('message', async ({ data }: MessageEvent<CompareTask>) => {
  let answer: WorkerAnswer<CompareResult>
  try {
    answer = { ok: true, result: await compare(data) }
  } catch (error) {
    answer = { ok: false, message: error instanceof Error ? error.message : String(error) }
  }
  self.postMessage(answer)
})
