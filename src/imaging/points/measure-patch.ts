/** The average light of an even place, and how uneven it is: for tints, their order and the tone of the stock. */
import type { Region } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import { deltaE00, type Light, labOf, lightAt } from '../colour.ts'
import type { PlacedPicture } from '../placed-picture.ts'

// At most this many places a side are read; more would not change an average. Ours.
const MOST_PLACES = 48
const LEAST_PLACES = 64
// Channels from this share of full light on are clipped, and their colour is lost.
const CLIPPED = 0.97
const MOST_CLIPPED_SHARE = 0.02
// Below this the camera's noise and rounding make the colour, linear light 0–1: sRGB level 20 or so.
const LEAST_LIGHT = 0.006

export interface Patch {
  readonly light: Light
  /** Standard error of the patch's colour from its own unevenness, ΔE00. */
  readonly error: number
}

/** The average colour of a region, its rim left out by twice the blur, so that neighbouring ink does not bleed in. */
export function measurePatch({ pixels, plane, blurPx }: PlacedPicture, region: Region): Patch | CannotTell {
  const scale = plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2)
  const margin = (2 * (blurPx ?? 0)) / scale
  const [width, height] = [region.width - 2 * margin, region.height - 2 * margin]
  if (width <= 0 || height <= 0) return cannotTell('blur-wider-than-region')
  const [across, down] = [width, height].map((mm) => Math.min(MOST_PLACES, Math.floor(mm * scale))) as [number, number]
  if (across * down < LEAST_PLACES) {
    return cannotTell('region-too-small', { across: String(across), down: String(down) })
  }
  // Sixteen blocks: their spread gives the error of their mean.
  const blocks = Array.from({ length: 16 }, () => ({ light: [0, 0, 0] as [number, number, number], count: 0 }))
  let clipped = 0
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < across; i++) {
      const [x, y] = plane.toPixels(
        region.x + margin + (width * (i + 0.5)) / across,
        region.y + margin + (height * (j + 0.5)) / down,
      )
      const light = lightAt(pixels, x, y)
      if (!light) return cannotTell('region-outside')
      if (Math.max(...light) >= CLIPPED) clipped++
      const block = blocks[4 * Math.floor((4 * j) / down) + Math.floor((4 * i) / across)] as (typeof blocks)[number]
      for (let c = 0; c < 3; c++) block.light[c] = (block.light[c] as number) + (light[c] as number)
      block.count++
    }
  }
  if (clipped > MOST_CLIPPED_SHARE * across * down) return cannotTell('burnt-out')
  const means = blocks
    .filter(({ count }) => count > 0)
    .map(({ light, count }) => light.map((sum) => sum / count) as unknown as Light)
  const light = [0, 1, 2].map(
    (c) => means.reduce((sum, mean) => sum + (mean[c] as number), 0) / means.length,
  ) as unknown as Light
  if (Math.max(...light) < LEAST_LIGHT) return cannotTell('too-dark')
  const whole = labOf(light)
  const spread = Math.sqrt(means.reduce((sum, mean) => sum + deltaE00(labOf(mean), whole) ** 2, 0) / means.length)
  return { light, error: spread / Math.sqrt(means.length) }
}
