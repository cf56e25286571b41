/**
 * Finds a card that lies whole on an even background: what differs from the photo's rim, the largest piece of it, the four
 * sides of that piece, each refined to a part of a pixel. Anything less clear comes back as `null`, and the person
 * gives the corners. It starts from outside, so that a printed inner frame is not taken for the cut edge.
 */
import type { Point, Quadrilateral } from '../domain/photo-facts.ts'
import { type Corners, isConvex } from './homography.ts'
import { convexHull, largestQuadrilateral } from './largest-quadrilateral.ts'
import type { Grey, Pixels } from './pixels.ts'
import { refineSides } from './refine-sides.ts'

const WORKING_SIDE = 400
// The piece has to fill this much of its quadrilateral: rounded and worn corners do, a hand beside the card does not. Ours.
const LEAST_FILL = 0.94
// Smaller than this share of the photo it is no photo of a card. Ours.
const LEAST_AREA = 0.06

export function findCard(pixels: Pixels, grey: Grey): Quadrilateral | null {
  const { apart, width, height, scale } = measureApart(pixels)
  const mask = largestPiece(apart, width, height)
  if (!mask) return null
  const hull = convexHull(mask.boundary)
  const rough = largestQuadrilateral(hull)
  if (!rough) return null
  const area = areaOf(rough)
  const fill = mask.area / area
  if (area < LEAST_AREA * width * height || fill < LEAST_FILL || fill > 1 / LEAST_FILL) return null
  if (rough.some(([x, y]) => x < 2 || y < 2 || x > width - 2 || y > height - 2)) return null
  const scaled = rough.map(([x, y]): Point => [x * scale, y * scale])
  const refined = refineSides(grey, scaled as unknown as Corners, scale)
  if (!refined || !isConvex(refined.corners)) return null
  const corners = fromTopLeft(refined.corners)
  return { corners, confidence: Math.round(Math.min(1, fill) * refined.support * 100) / 100 }
}

/** Distance of each place from the rim's colour, on a picture shrunk by whole steps. */
function measureApart({ width, height, data }: Pixels) {
  const scale = Math.max(1, Math.ceil(Math.max(width, height) / WORKING_SIDE))
  const [w, h] = [Math.floor(width / scale), Math.floor(height / scale)]
  const small = new Float32Array(w * h * 3)
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      for (let channel = 0; channel < 3; channel++) {
        let sum = 0
        for (let dy = 0; dy < scale; dy++) {
          for (let dx = 0; dx < scale; dx++)
            sum += data[4 * ((y * scale + dy) * width + x * scale + dx) + channel] as number
        }
        small[3 * (y * w + x) + channel] = sum / (scale * scale)
      }
    }
  }
  const rim: number[] = []
  for (let x = 0; x < w; x++) rim.push(x, (h - 1) * w + x)
  for (let y = 1; y < h - 1; y++) rim.push(y * w, y * w + w - 1)
  const background = [0, 1, 2].map((channel) => {
    const levels = rim.map((at) => small[3 * at + channel] as number).sort((a, b) => a - b)
    return levels[Math.floor(levels.length / 2)] as number
  })
  const distance = (at: number) =>
    Math.hypot(...background.map((level, channel) => (small[3 * at + channel] as number) - level))
  const noise = rim.map(distance).sort((a, b) => a - b)[Math.floor(rim.length * 0.9)] as number
  // Well above what the rim itself varies by, and never so low that paper grain counts. Ours.
  const threshold = Math.max(18, 2.5 * noise)
  const apart = new Uint8Array(w * h)
  for (let at = 0; at < apart.length; at++) apart[at] = distance(at) > threshold ? 1 : 0
  return { apart, width: w, height: h, scale }
}

/** The largest connected piece, its holes counted as part of it, and the outermost of its pixels by rows. */
function largestPiece(apart: Uint8Array, width: number, height: number): { area: number; boundary: Point[] } | null {
  const label = new Int32Array(width * height)
  let best = { label: 0, size: 0 }
  let labels = 0
  for (let start = 0; start < apart.length; start++) {
    if (apart[start] === 0 || label[start] !== 0) continue
    labels++
    const size = flood(apart, label, width, start, labels)
    if (size > best.size) best = { label: labels, size }
  }
  if (best.size === 0) return null
  let area = 0
  const boundary: Point[] = []
  for (let y = 0; y < height; y++) {
    let [first, last] = [-1, -1]
    for (let x = 0; x < width; x++) {
      if (label[y * width + x] !== best.label) continue
      if (first < 0) first = x
      last = x
    }
    if (first < 0) continue
    area += last - first + 1
    boundary.push([first, y], [last + 1, y], [first, y + 1], [last + 1, y + 1])
  }
  return { area, boundary }
}

function flood(apart: Uint8Array, label: Int32Array, width: number, start: number, value: number): number {
  const open = [start]
  label[start] = value
  let size = 0
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    size++
    const x = at % width
    for (const next of [x > 0 ? at - 1 : -1, x < width - 1 ? at + 1 : -1, at - width, at + width]) {
      if (next < 0 || next >= apart.length || apart[next] === 0 || label[next] !== 0) continue
      label[next] = value
      open.push(next)
    }
  }
  return size
}

function areaOf(corners: readonly Point[]): number {
  let sum = 0
  for (let i = 0; i < corners.length; i++) {
    const [a, b] = [corners[i], corners[(i + 1) % corners.length]] as [Point, Point]
    sum += a[0] * b[1] - b[0] * a[1]
  }
  return Math.abs(sum) / 2
}

/** Clockwise on the screen, from the corner nearest the photo's top left. */
function fromTopLeft(corners: Corners): Corners {
  const start = corners.reduce((best, [x, y], i) => (x + y < corners[best]![0] + corners[best]![1] ? i : best), 0)
  return [0, 1, 2, 3].map((i) => corners[(start + i) % 4]) as unknown as Corners
}
