/**
 * Straight pieces of edges: gradient of luma or colour, whichever is steeper, thinned to its crest, grown along its direction, a
 * line through each piece. After the idea of line support regions (J. Burns, A. Hanson, E. Riseman, Extracting Straight
 * Lines, 1986).
 */
import type { WorkingPicture } from './working-picture.ts'

export interface Segment {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
  readonly length: number
  /** Direction along the piece, radians, 0 ≤ angle < π. */
  readonly angle: number
}

// Weaker than this is paper grain and JPEG noise after shrinking, levels a two-pixel step; stronger is never asked for. Ours.
const LEAST_SLOPE = 4
const MOST_SLOPE = 12
// Colour changes less than luma at most borders; seen as steeply they count the same. Ours.
const COLOUR_GAIN = 1.4
const LEAST_LENGTH = 11
// 15 degrees: a straight edge's gradient wavers less at five levels of slope. Ours.
const SAME_DIRECTION = Math.cos((15 * Math.PI) / 180)
const STRAIGHT_PX = 0.8

export function findSegments(picture: WorkingPicture): Segment[] {
  const { width, height } = picture
  const { slope, nx, ny } = measureGradient(picture)
  const threshold = chooseThreshold(slope)
  const crest: number[] = []
  const onCrest = new Uint8Array(width * height)
  for (let y = 2; y < height - 2; y++) {
    for (let x = 2; x < width - 2; x++) {
      const at = y * width + x
      const here = slope[at] as number
      if (here < threshold) continue
      const [ax, ay] = [Math.abs(nx[at] as number), Math.abs(ny[at] as number)]
      const step =
        ax > 2.4 * ay ? 1 : ay > 2.4 * ax ? width : (nx[at] as number) * (ny[at] as number) > 0 ? width + 1 : width - 1
      if (here < (slope[at - step] as number) || here <= (slope[at + step] as number)) continue
      onCrest[at] = 1
      crest.push(at)
    }
  }
  crest.sort((a, b) => (slope[b] as number) - (slope[a] as number))
  const segments: Segment[] = []
  for (const start of crest) {
    if (onCrest[start] === 0) continue
    const piece = grow(start, onCrest, nx, ny, width)
    if (piece.length >= LEAST_LENGTH) fitPieces(piece, slope, width, segments, 0)
  }
  return segments
}

function measureGradient({ width, height, luma, blue, red }: WorkingPicture) {
  const n = width * height
  const [slope, nx, ny] = [new Float32Array(n), new Float32Array(n), new Float32Array(n)]
  const channels = [luma, blue, red]
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const at = y * width + x
      let [best, bx, by] = [0, 0, 0]
      for (let c = 0; c < 3; c++) {
        const d = channels[c] as Float32Array
        const a = d[at - width - 1] as number
        const b = d[at - width + 1] as number
        const e = d[at + width - 1] as number
        const f = d[at + width + 1] as number
        const gain = c === 0 ? 0.25 : 0.25 * COLOUR_GAIN
        const gx = gain * (b - a + 2 * ((d[at + 1] as number) - (d[at - 1] as number)) + f - e)
        const gy = gain * (e - a + 2 * ((d[at + width] as number) - (d[at - width] as number)) + f - b)
        const size = gx * gx + gy * gy
        if (size > best) [best, bx, by] = [size, gx, gy]
      }
      if (best === 0) continue
      const size = Math.sqrt(best)
      slope[at] = size
      nx[at] = bx / size
      ny[at] = by / size
    }
  }
  return { slope, nx, ny }
}

function chooseThreshold(slope: Float32Array): number {
  const sample: number[] = []
  for (let i = 0; i < slope.length; i += 17) sample.push(slope[i] as number)
  sample.sort((a, b) => a - b)
  const median = sample[Math.floor(sample.length / 2)] ?? 0
  return Math.min(MOST_SLOPE, Math.max(LEAST_SLOPE, 2.2 * median))
}

/** Crest pixels joined to `start` whose gradient points the same or the opposite way; each is used once. */
function grow(start: number, onCrest: Uint8Array, nx: Float32Array, ny: Float32Array, width: number): number[] {
  const piece = [start]
  onCrest[start] = 0
  let [mx, my] = [nx[start] as number, ny[start] as number]
  for (let i = 0; i < piece.length; i++) {
    const at = piece[i] as number
    const size = Math.hypot(mx, my)
    for (let dy = -1; dy <= 1; dy++) {
      for (let dx = -1; dx <= 1; dx++) {
        const next = at + dy * width + dx
        if (onCrest[next] !== 1) continue
        const dot = ((nx[next] as number) * mx + (ny[next] as number) * my) / size
        if (Math.abs(dot) < SAME_DIRECTION) continue
        onCrest[next] = 0
        piece.push(next)
        const sign = dot < 0 ? -1 : 1
        mx += sign * (nx[next] as number)
        my += sign * (ny[next] as number)
      }
    }
  }
  return piece
}

function fitPieces(piece: number[], slope: Float32Array, width: number, into: Segment[], depth: number): void {
  let [sum, sx, sy] = [0, 0, 0]
  for (const at of piece) {
    const weight = slope[at] as number
    sum += weight
    sx += weight * (at % width)
    sy += weight * Math.floor(at / width)
  }
  const [cx, cy] = [sx / sum, sy / sum]
  let [xx, yy, xy] = [0, 0, 0]
  for (const at of piece) {
    const weight = slope[at] as number
    const [dx, dy] = [(at % width) - cx, Math.floor(at / width) - cy]
    xx += weight * dx * dx
    yy += weight * dy * dy
    xy += weight * dx * dy
  }
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy)
  const [ux, uy] = [Math.cos(angle), Math.sin(angle)]
  let [low, high, off] = [0, 0, 0]
  for (const at of piece) {
    const [dx, dy] = [(at % width) - cx, Math.floor(at / width) - cy]
    const t = ux * dx + uy * dy
    low = Math.min(low, t)
    high = Math.max(high, t)
    off += (uy * dx - ux * dy) ** 2
  }
  const length = high - low
  if (length < LEAST_LENGTH) return
  if (Math.sqrt(off / piece.length) > STRAIGHT_PX) {
    if (depth >= 3) return
    const middle = (low + high) / 2
    const side = (at: number) => ux * ((at % width) - cx) + uy * (Math.floor(at / width) - cy) < middle
    const [first, second] = [piece.filter(side), piece.filter((at) => !side(at))]
    for (const half of [first, second]) if (half.length >= LEAST_LENGTH) fitPieces(half, slope, width, into, depth + 1)
    return
  }
  into.push({
    x0: cx + low * ux + 0.5,
    y0: cy + low * uy + 0.5,
    x1: cx + high * ux + 0.5,
    y1: cy + high * uy + 0.5,
    length,
    angle: angle < 0 ? angle + Math.PI : angle >= Math.PI ? angle - Math.PI : angle,
  })
}
