/** Levels along a short line across an edge, one a pixel. */
import type { Point } from '../domain/photo-facts.ts'
import type { Grey } from './pixels.ts'

/** Bilinear; pixel centres lie at whole numbers plus a half. `null` outside the picture. */
export function levelAt({ width, height, data }: Grey, x: number, y: number): number | null {
  const [left, top] = [Math.floor(x - 0.5), Math.floor(y - 0.5)]
  if (left < 0 || top < 0 || left + 1 >= width || top + 1 >= height) return null
  const [fx, fy] = [x - 0.5 - left, y - 0.5 - top]
  const at = top * width + left
  const upper = (data[at] as number) * (1 - fx) + (data[at + 1] as number) * fx
  const lower = (data[at + width] as number) * (1 - fx) + (data[at + width + 1] as number) * fx
  return upper * (1 - fy) + lower * fy
}

/** `2 * reach + 1` levels through `centre`, which is at index `reach`. `null` where the line leaves the picture. */
export function sampleAlong(grey: Grey, centre: Point, direction: Point, reach: number): Float64Array | null {
  const n = 2 * Math.round(reach) + 1
  const profile = new Float64Array(n)
  const step = (2 * reach) / (n - 1)
  for (let i = 0; i < n; i++) {
    const t = -reach + i * step
    const level = levelAt(grey, centre[0] + direction[0] * t, centre[1] + direction[1] * t)
    if (level === null) return null
    profile[i] = level
  }
  return profile
}
