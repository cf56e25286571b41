/** Convex hull, and the largest quadrilateral with its corners on it. */
import type { Point } from '../domain/photo-facts.ts'

function cross(o: Point, a: Point, b: Point): number {
  return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])
}

/** Andrew's monotone chain (1979); clockwise on a screen whose y axis points down. */
export function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (ordered: readonly Point[]) => {
    const chain: Point[] = []
    for (const point of ordered) {
      while (chain.length >= 2 && cross(chain.at(-2) as Point, chain.at(-1) as Point, point) <= 0) chain.pop()
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  return sorted.length < 3 ? sorted : [...half(sorted), ...half(sorted.reverse())]
}

/**
 * For each diagonal of the hull the farthest corner on either side; the pair of triangles with the largest sum wins.
 * @returns `null` for fewer than four corners.
 */
export function largestQuadrilateral(hull: readonly Point[]): readonly [Point, Point, Point, Point] | null {
  const n = hull.length
  if (n < 4) return null
  let best: readonly [Point, Point, Point, Point] | null = null
  let largest = 0
  for (let i = 0; i < n - 2; i++) {
    for (let k = i + 2; k < n; k++) {
      const [a, c] = [hull[i], hull[k]] as [Point, Point]
      let [near, far] = [-1, -1]
      let [nearArea, farArea] = [0, 0]
      for (let j = 0; j < n; j++) {
        const area = cross(a, c, hull[j] as Point)
        if (j > i && j < k) {
          if (Math.abs(area) > nearArea) [near, nearArea] = [j, Math.abs(area)]
        } else if (Math.abs(area) > farArea) [far, farArea] = [j, Math.abs(area)]
      }
      if (near < 0 || far < 0 || nearArea + farArea <= largest) continue
      largest = nearArea + farArea
      best = [a, hull[near] as Point, c, hull[far] as Point]
    }
  }
  return best
}
