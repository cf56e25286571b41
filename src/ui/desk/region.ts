/** Moving and sizing a region of a picture, kept inside it. Shares of the picture's sides, so that its scale is no matter. */
import type { Region } from './desk-ports.ts'

/** Smaller than this share of a side nothing can be measured, nor grasped. */
export const SMALLEST = 0.01

const within = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most)

export function moveRegion(region: Region, dx: number, dy: number): Region {
  return {
    ...region,
    x: within(region.x + dx, 0, 1 - region.width),
    y: within(region.y + dy, 0, 1 - region.height),
  }
}

export function sizeRegion(region: Region, dWidth: number, dHeight: number): Region {
  return {
    ...region,
    width: within(region.width + dWidth, SMALLEST, 1 - region.x),
    height: within(region.height + dHeight, SMALLEST, 1 - region.y),
  }
}

/** The region between two corners, in whichever order they were pointed at. */
export function spanRegion(ax: number, ay: number, bx: number, by: number): Region {
  const left = within(Math.min(ax, bx), 0, 1 - SMALLEST)
  const top = within(Math.min(ay, by), 0, 1 - SMALLEST)
  return {
    x: left,
    y: top,
    width: within(Math.max(ax, bx) - left, SMALLEST, 1 - left),
    height: within(Math.max(ay, by) - top, SMALLEST, 1 - top),
  }
}
