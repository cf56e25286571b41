/** Jaccard index of two convex outlines, the measure of SmartDoc 2015 challenge 1. Clipping after Sutherland and Hodgman (1974). */
import type { Four, Xy } from './scene-truth.ts'

function area(outline: readonly Xy[]): number {
  let sum = 0
  outline.forEach(([x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]!
    sum += x * v - u * y
  })
  return Math.abs(sum) / 2
}

/** Both clockwise on the screen. */
export function jaccard(one: Four, other: Four): number {
  let shared: Xy[] = [...one]
  for (let i = 0; i < 4; i++) {
    const [a, b] = [other[i]!, other[(i + 1) % 4]!]
    const side = ([x, y]: Xy) => (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])
    const kept: Xy[] = []
    shared.forEach((p, j) => {
      const q = shared[(j + 1) % shared.length]!
      const [sp, sq] = [side(p), side(q)]
      if (sp >= 0) kept.push(p)
      if (sp >= 0 !== sq >= 0) {
        const t = sp / (sp - sq)
        kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])])
      }
    })
    shared = kept
    if (shared.length === 0) return 0
  }
  const both = area(shared)
  return both / (area(one) + area(other) - both)
}
