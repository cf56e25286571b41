/** An exemplar beside questioned photos, away from the screen: files in, judged points out. Wiring only. */
import type { MeasuredComparison } from '../../domain/examination.ts'
import type { DrawnCorners, Exemplar } from '../../domain/exemplar.ts'
import { comparePhotos, type QuestionedPhoto } from '../../imaging/compare-photos.ts'
import { decodeInBrowser } from '../../imaging/decode-browser.ts'
import { openPicture } from '../../imaging/open-picture.ts'
import type { Picture } from '../../imaging/placed-picture.ts'
import type { WorkerAnswer } from '../../platform/worker-queue.ts'

export interface CompareExemplarTask {
  readonly exemplar: Exemplar
  readonly pictures: readonly { readonly file: string; readonly bytes: Uint8Array<ArrayBuffer> }[]
  readonly photos: readonly {
    readonly file: string
    readonly bytes: Uint8Array<ArrayBuffer>
    readonly corners: DrawnCorners | null
  }[]
}

export type CompareExemplarResult = Pick<MeasuredComparison, 'registered' | 'pxPerMm' | 'points' | 'photos'>

async function compare({ exemplar, pictures, photos }: CompareExemplarTask): Promise<CompareExemplarResult> {
  const models = new Map<string, Picture>()
  for (const { file, bytes } of pictures) {
    const opened = await openPicture(bytes, { file, decode: decodeInBrowser })
    if ('picture' in opened) models.set(file, opened.picture)
  }
  const questioned: QuestionedPhoto[] = []
  for (const { file, bytes, corners } of photos) {
    const opened = await openPicture(bytes, { file, decode: decodeInBrowser })
    if ('problem' in opened) questioned.push({ file, picture: null, corners: null, problem: opened.problem })
    else {
      const { width, height } = opened.picture.pixels
      const given = corners?.map(([x, y]) => [x * width, y * height]) as QuestionedPhoto['corners'] | undefined
      questioned.push({ file, picture: opened.picture, corners: given ?? null, problem: null })
    }
  }
  const result = await comparePhotos({ exemplar }, models, questioned)
  return {
    registered: result.registered,
    pxPerMm: result.pxPerMm,
    points: result.points,
    photos: result.photos.map(({ file, registered, side, pxPerMm, corners, reason, cause }) => {
      const pixels = questioned.find((one) => one.file === file)?.picture?.pixels
      const outline =
        corners && pixels
          ? (corners.map(([x, y]) => [x / pixels.width, y / pixels.height]) as unknown as DrawnCorners)
          : null
      return { file, registered, side, pxPerMm, outline, reason, cause }
    }),
  }
}

self.addEventListener('message', async ({ data }: MessageEvent<CompareExemplarTask>) => {
  let answer: WorkerAnswer<CompareExemplarResult>
  try {
    answer = { ok: true, result: await compare(data) }
  } catch (error) {
    answer = { ok: false, message: error instanceof Error ? error.message : String(error) }
  }
  self.postMessage(answer)
})
