/** One drawn region compared away from the screen: two files in, one judged point out. Wiring only. */
import type { DrawnCorners, PointComparison } from '../../domain/exemplar.ts'
import { compareDrawnRegion, type DrawnPoint, toPixels } from '../../imaging/compare-drawn-region.ts'
import { decodeInBrowser } from '../../imaging/decode-browser.ts'
import { examinePhoto } from '../../imaging/examine-photo.ts'
import type { Pixels } from '../../imaging/pixels.ts'
import { createPicture, type Picture } from '../../imaging/placed-picture.ts'
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

/** Through the same caps and refusals as any photo, keeping the pixels. */
async function loadPicture(bytes: Uint8Array): Promise<{ picture: Picture } | { problem: string }> {
  let pixels: Pixels | null = null
  const facts = await examinePhoto(bytes, {
    file: '',
    decode: async (data, mediaType) => {
      pixels = await decodeInBrowser(data, mediaType)
      return pixels
    },
  })
  if (!facts.examined || pixels === null)
    return { problem: facts.problems[0]?.detail ?? 'the photo could not be looked at' }
  return { picture: createPicture(pixels, facts.jpegQuality) }
}

async function compare({ drawn, exemplar, questioned, questionedCorners }: CompareTask): Promise<CompareResult> {
  const model = await loadPicture(exemplar)
  if ('problem' in model) return { fault: 'not-opened', detail: model.problem }
  const photo = await loadPicture(questioned)
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
