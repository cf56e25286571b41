/**
 * Lines of text as slanted boxes, from the detection's probability map. After the published post-processing of
 * differentiable binarisation (Liao et al., Real-time Scene Text Detection with Differentiable Binarization, AAAI 2020):
 * the network marks the heart of each line, which is found as a blob, boxed and grown back. Finds; does not read.
 */
import type { Point } from '../../domain/photo-facts.ts'
import type { Corners } from '../homography.ts'
import type { Pixels } from '../pixels.ts'
import type { TextModels } from './text-models.ts'

export interface TextBox {
  /** Clockwise from the line's own top left, in pixels of the picture given. */
  readonly corners: Corners
  /** 0–1: mean probability inside. */
  readonly score: number
}

// The published thresholds of the trained network: pixel, mean of the box, growth (PaddleOCR, deploy defaults).
const PIXEL_FROM = 0.3
const BOX_FROM = 0.5
const GROW = 1.6
// Pixels of the map: what is narrower is no line of text.
const LEAST_SIDE = 3
// A photo of a crowded shelf has more; a label has a dozen. Ours.
const MOST_BOXES = 80
// ImageNet's channel means and deviations, as the network was trained; the channels come as blue, green, red.
const MEAN = [0.485, 0.456, 0.406] as const
const DEVIATION = [0.229, 0.224, 0.225] as const

/** The sides of `pixels` must be multiples of 32. */
export async function findTextLines(pixels: Pixels, models: TextModels): Promise<TextBox[]> {
  const { width, height, data } = pixels
  const plane = width * height
  const planes = new Float32Array(plane * 3)
  for (let i = 0; i < plane; i++) {
    for (let channel = 0; channel < 3; channel++) {
      planes[channel * plane + i] = (data[i * 4 + 2 - channel]! / 255 - MEAN[channel]!) / DEVIATION[channel]!
    }
  }
  return boxText(await models.detect(planes, width, height), width, height)
}

/** The boxes on a probability map, top to bottom. */
export function boxText(map: Float32Array, width: number, height: number): TextBox[] {
  const boxes: TextBox[] = []
  for (const blob of findBlobs(map, width, height)) {
    const box = leastBox(convexHull(blob.rim))
    if (box === null || Math.min(box.across, box.along) < LEAST_SIDE || blob.score < BOX_FROM) continue
    const grown = growBox(box)
    boxes.push({ corners: uprightCorners(grown), score: blob.score })
  }
  return boxes
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST_BOXES)
    .sort((a, b) => a.corners[0][1] - b.corners[0][1])
}

interface Blob {
  readonly rim: Point[]
  readonly score: number
}

function findBlobs(map: Float32Array, width: number, height: number): Blob[] {
  const seen = new Uint8Array(map.length)
  const stack = new Int32Array(map.length)
  const blobs: Blob[] = []
  for (let start = 0; start < map.length; start++) {
    if (seen[start] || map[start]! < PIXEL_FROM) continue
    let top = 0
    stack[top++] = start
    seen[start] = 1
    const first = new Map<number, [number, number]>()
    let sum = 0
    let count = 0
    while (top > 0) {
      const at = stack[--top]!
      const x = at % width
      const y = (at - x) / width
      sum += map[at]!
      count++
      const span = first.get(y)
      if (span === undefined) first.set(y, [x, x])
      else if (x < span[0]) span[0] = x
      else if (x > span[1]) span[1] = x
      for (let dy = -1; dy <= 1; dy++) {
        for (let dx = -1; dx <= 1; dx++) {
          const [nx, ny] = [x + dx, y + dy]
          if (nx < 0 || ny < 0 || nx >= width || ny >= height) continue
          const next = ny * width + nx
          if (seen[next] || map[next]! < PIXEL_FROM) continue
          seen[next] = 1
          stack[top++] = next
        }
      }
    }
    // A row's ends are all that the hull needs; a pixel is a square, so its far edges count.
    const rim = [...first].flatMap(([y, [left, right]]): Point[] => [
      [left, y],
      [right + 1, y],
      [left, y + 1],
      [right + 1, y + 1],
    ])
    blobs.push({ rim, score: sum / count })
  }
  return blobs
}

/** Andrew's monotone chain. */
function convexHull(points: Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const turn = (o: Point, a: Point, b: Point) => (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])
  const half = (order: Point[]) => {
    const chain: Point[] = []
    for (const point of order) {
      while (chain.length > 1 && turn(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop()
      chain.push(point)
    }
    chain.pop()
    return chain
  }
  return [...half(sorted), ...half(sorted.reverse())]
}

interface SlantedBox {
  readonly centre: Point
  /** Unit vector along one side. */
  readonly direction: Point
  readonly along: number
  readonly across: number
}

/** The least rectangle around a hull: one of its sides lies on a side of the hull. */
function leastBox(hull: Point[]): SlantedBox | null {
  let best: SlantedBox | null = null
  for (let i = 0; i < hull.length; i++) {
    const [a, b] = [hull[i]!, hull[(i + 1) % hull.length]!]
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    if (length < 1e-9) continue
    const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
    let [minU, maxU, minV, maxV] = [Infinity, -Infinity, Infinity, -Infinity]
    for (const [x, y] of hull) {
      const u = x * ux + y * uy
      const v = -x * uy + y * ux
      minU = Math.min(minU, u)
      maxU = Math.max(maxU, u)
      minV = Math.min(minV, v)
      maxV = Math.max(maxV, v)
    }
    const [along, across] = [maxU - minU, maxV - minV]
    if (best !== null && along * across >= best.along * best.across) continue
    const [u, v] = [(minU + maxU) / 2, (minV + maxV) / 2]
    best = { centre: [u * ux - v * uy, u * uy + v * ux], direction: [ux, uy], along, across }
  }
  return best
}

/** The network is trained on lines shrunk by area over perimeter; this undoes it. */
function growBox(box: SlantedBox): SlantedBox {
  const by = (box.along * box.across * GROW) / (2 * (box.along + box.across))
  return { ...box, along: box.along + 2 * by, across: box.across + 2 * by }
}

/** Of the four ways to turn the box, the one whose reading direction points most to the right; a tall one reads downwards. */
function uprightCorners({ centre, direction, along, across }: SlantedBox): Corners {
  const candidates: [Point, number, number][] = []
  let [x, y] = direction
  for (let quarter = 0; quarter < 4; quarter++) {
    candidates.push([[x, y], quarter % 2 === 0 ? along : across, quarter % 2 === 0 ? across : along])
    ;[x, y] = [-y, x]
  }
  // A box half as high again as wide is a line that runs up or down; for a square one nobody can tell, and it is taken as upright.
  const lying = candidates.filter(([, length, height]) => height < length * 1.5)
  const [[ux, uy], length, height] = (lying.length > 0 ? lying : candidates).reduce((a, b) =>
    b[0][0] > a[0][0] + 1e-9 ? b : a,
  )
  const corner = (u: number, v: number): Point => [
    centre[0] + (u * length * ux) / 2 - (v * height * uy) / 2,
    centre[1] + (u * length * uy) / 2 + (v * height * ux) / 2,
  ]
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]
}
