/** A grey picture at half, a quarter … of its size, so that a coarse look at a large photo neither aliases nor costs its pixels. */
import type { Grey } from './pixels.ts'

const kept = new WeakMap<Grey, readonly Grey[]>()
const LEAST_SIDE = 48

/** The picture itself first; each next one has half the sides. Kept as long as the picture is. */
export function pyramidOf(grey: Grey): readonly Grey[] {
  const known = kept.get(grey)
  if (known) return known
  const levels = [grey]
  for (let last = grey; Math.min(last.width, last.height) >= 2 * LEAST_SIDE; ) {
    last = halve(last)
    levels.push(last)
  }
  kept.set(grey, levels)
  return levels
}

function halve({ width, height, data }: Grey): Grey {
  const [w, h] = [width >> 1, height >> 1]
  const half = new Float32Array(w * h)
  for (let y = 0; y < h; y++) {
    let at = 2 * y * width
    const to = y * w
    for (let x = 0; x < w; x++, at += 2) {
      half[to + x] =
        ((data[at] as number) +
          (data[at + 1] as number) +
          (data[at + width] as number) +
          (data[at + width + 1] as number)) /
        4
    }
  }
  return { width: w, height: h, data: half }
}
