/** Lays a picture of a piece square, away from the screen: a file in, bitmaps in halving sizes out. Wiring only. */
import type { DrawnCorners } from '../../domain/exemplar.ts'
import { decodeInBrowser } from '../../imaging/decode-browser.ts'
import { type CardSize, type Corners, createPlane } from '../../imaging/homography.ts'
import { layoutOf, laySquare, matrixOf } from '../../imaging/lay-square.ts'
import { openPicture } from '../../imaging/open-picture.ts'
import type { Pixels } from '../../imaging/pixels.ts'
import { cornersOf, type Picture } from '../../imaging/placed-picture.ts'
import type { WorkerAnswer } from '../../platform/worker-queue.ts'

export interface LaySquareTask {
  readonly bytes: Uint8Array<ArrayBuffer>
  /** `null`: found here. */
  readonly corners: { readonly shares: DrawnCorners } | { readonly pixels: DrawnCorners } | null
  readonly size: CardSize
}

export interface LaidSquare {
  readonly levels: readonly ImageBitmap[]
  readonly pxPerMm: number
  readonly marginMm: number
  readonly toPhoto: readonly number[]
  readonly photo: ImageBitmap
  readonly corners: DrawnCorners
  readonly photoPxPerMm: number
}

/** `no-card`: the picture opens, its corners have to come from the person; it is handed over as it is. */
export type LaySquareResult =
  | LaidSquare
  | { readonly fault: 'not-opened'; readonly detail: string }
  | { readonly fault: 'no-card'; readonly detail: string }

async function lay({ bytes, corners, size }: LaySquareTask): Promise<LaySquareResult> {
  const opened = await openPicture(bytes, { file: '', decode: decodeInBrowser })
  if ('problem' in opened) return { fault: 'not-opened', detail: opened.problem }
  const { picture } = opened
  const given = corners && ('pixels' in corners ? corners.pixels : toPixels(corners.shares, picture))
  const found = cornersOf(picture, given)
  const plane = found && createPlane(found.corners, size)
  if (!plane) return { fault: 'no-card', detail: '' }
  const layout = layoutOf(plane)
  const levels = await halve(laySquare(picture.pixels, plane, layout))
  const { width, height } = picture.pixels
  return {
    levels,
    ...layout,
    toPhoto: matrixOf(plane),
    photo: await toBitmap(picture.pixels),
    corners: found.corners.map(([x, y]) => [x / width, y / height]) as unknown as DrawnCorners,
    photoPxPerMm: plane.scaleAt(size.widthMm / 2, size.heightMm / 2),
  }
}

const toPixels = (corners: DrawnCorners, { pixels: { width, height } }: Picture): Corners =>
  corners.map(([x, y]) => [x * width, y * height]) as unknown as Corners

const toBitmap = ({ width, height, data }: Pixels) =>
  createImageBitmap(new ImageData(data as Uint8ClampedArray<ArrayBuffer>, width, height))

/** Down to a size that any screen shows whole. */
async function halve(pixels: Pixels): Promise<ImageBitmap[]> {
  const levels = [await toBitmap(pixels)]
  for (;;) {
    const last = levels.at(-1)!
    if (Math.max(last.width, last.height) < 300) return levels
    const canvas = new OffscreenCanvas(Math.ceil(last.width / 2), Math.ceil(last.height / 2))
    const context = canvas.getContext('2d')
    if (!context) throw new Error('this browser gives no drawing surface for pictures')
    context.imageSmoothingQuality = 'high'
    context.drawImage(last, 0, 0, canvas.width, canvas.height)
    levels.push(canvas.transferToImageBitmap())
  }
}

self.addEventListener('message', async ({ data }: MessageEvent<LaySquareTask>) => {
  let answer: WorkerAnswer<LaySquareResult>
  let moved: Transferable[] = []
  try {
    const result = await lay(data)
    if ('levels' in result) moved = [...result.levels, result.photo]
    answer = { ok: true, result }
  } catch (error) {
    answer = { ok: false, message: error instanceof Error ? error.message : String(error) }
  }
  self.postMessage(answer, { transfer: moved })
})
