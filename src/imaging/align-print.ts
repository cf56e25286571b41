/**
 * Lays the print of a questioned photo over the exemplar's, block by block. The print wanders on the stock from copy to copy, so
 * the cut outline only says where to begin; what is compared is found by the print itself.
 */
import { type Matrix, multiply, type Plane, planeOf, shiftPlane } from './homography.ts'
import type { Grey } from './pixels.ts'
import { blurRaster } from './points/read-region.ts'
import { solveLinear } from './points/solve-linear.ts'
import { pyramidOf } from './pyramid.ts'

/** A picture of the card by millimetres, in levels; not a number where the photo does not show it. */
export interface CardRaster {
  readonly width: number
  readonly height: number
  readonly perMm: number
  readonly data: Float32Array
}

/** Read from the pyramid's level whose pixels are as large as the raster's, bilinear. */
export function rasterOf(
  grey: Grey,
  plane: Plane,
  box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  perMm: number,
): CardRaster {
  const [width, height] = [Math.max(1, Math.round(box.width * perMm)), Math.max(1, Math.round(box.height * perMm))]
  const levels = pyramidOf(grey)
  const scale = plane.scaleAt(box.x + box.width / 2, box.y + box.height / 2)
  const level = Math.max(0, Math.min(levels.length - 1, Math.round(Math.log2(scale / perMm))))
  const { width: w, height: h, data } = levels[level]!
  const shrink = 1 / 2 ** level
  const raster = new Float32Array(width * height)
  const [a, b, c, d, e, f, g, k, i] = plane.matrix
  for (let row = 0; row < height; row++) {
    const y = box.y + (row + 0.5) / perMm
    for (let column = 0; column < width; column++) {
      const x = box.x + (column + 0.5) / perMm
      const depth = g * x + k * y + i
      const px = ((a * x + b * y + c) / depth) * shrink - 0.5
      const py = ((d * x + e * y + f) / depth) * shrink - 0.5
      const left = Math.floor(px)
      const top = Math.floor(py)
      let value = Number.NaN
      if (left >= 0 && top >= 0 && left + 1 < w && top + 1 < h) {
        const at = top * w + left
        const [fx, fy] = [px - left, py - top]
        value =
          (data[at]! * (1 - fx) + data[at + 1]! * fx) * (1 - fy) +
          (data[at + w]! * (1 - fx) + data[at + w + 1]! * fx) * fy
      }
      raster[row * width + column] = value
    }
  }
  return { width, height, perMm, data: raster }
}

// A screen's dots repeat every 0.15 to 0.3 mm: blocks that see them can lock a dot aside. Ours, mm.
const SCREEN_BLUR_MM = 0.13

/** The raster without its dots. */
function soften(raster: CardRaster): CardRaster {
  const data = blurRaster(raster.data, raster.width, raster.height, SCREEN_BLUR_MM * raster.perMm)
  return { ...raster, data }
}

export interface Shift {
  readonly dxMm: number
  readonly dyMm: number
  /** Pearson's correlation at the best place. */
  readonly correlation: number
  /** Curvature of the correlation there, by mm²: how sharply each direction is told. */
  readonly curvature: readonly [xx: number, xy: number, yy: number]
  /** The best place lies at the rim of the search. */
  readonly atRim: boolean
}

/**
 * Where a block of the exemplar lies in the photo's raster of a larger box around it.
 * @param reach pixels of the raster to each side; the larger raster is wider by twice that.
 */
export function findShift(block: CardRaster, around: CardRaster, reach: number): Shift | null {
  const { width, height, perMm } = block
  const n = width * height
  let mean = 0
  for (let i = 0; i < n; i++) mean += block.data[i]!
  mean /= n
  if (Number.isNaN(mean)) return null
  const pattern = new Float32Array(n)
  let energy = 0
  for (let i = 0; i < n; i++) {
    pattern[i] = block.data[i]! - mean
    energy += pattern[i]! * pattern[i]!
  }
  // A block without a design fits everywhere: standard deviation under four levels.
  if (energy < 16 * n) return null
  const side = 2 * reach + 1
  const scores = new Float64Array(side * side)
  let best = -1
  for (let dy = 0; dy < side; dy++) {
    for (let dx = 0; dx < side; dx++) {
      let [sum, squares, product] = [0, 0, 0]
      for (let row = 0; row < height; row++) {
        let from = (row + dy) * around.width + dx
        let at = row * width
        for (let end = at + width; at < end; at++, from++) {
          const value = around.data[from]!
          sum += value
          squares += value * value
          product += value * pattern[at]!
        }
      }
      const spread = squares - (sum * sum) / n
      const score = spread > n ? product / Math.sqrt(spread * energy) : -1
      scores[dy * side + dx] = Number.isNaN(score) ? -1 : score
      if (best < 0 || scores[dy * side + dx]! > scores[best]!) best = dy * side + dx
    }
  }
  const [bx, by] = [best % side, Math.floor(best / side)]
  const atRim = bx === 0 || by === 0 || bx === side - 1 || by === side - 1
  const at = (dx: number, dy: number) => scores[(by + dy) * side + bx + dx]!
  if (atRim) {
    return {
      dxMm: (bx - reach) / perMm,
      dyMm: (by - reach) / perMm,
      correlation: scores[best]!,
      curvature: [0, 0, 0],
      atRim,
    }
  }
  const xx = at(1, 0) + at(-1, 0) - 2 * at(0, 0)
  const yy = at(0, 1) + at(0, -1) - 2 * at(0, 0)
  const xy = (at(1, 1) + at(-1, -1) - at(1, -1) - at(-1, 1)) / 4
  const gx = (at(1, 0) - at(-1, 0)) / 2
  const gy = (at(0, 1) - at(0, -1)) / 2
  const determinant = xx * yy - xy * xy
  const limit = (x: number) => Math.max(-0.7, Math.min(0.7, x))
  const sx = determinant > 1e-12 ? limit((xy * gy - yy * gx) / determinant) : 0
  const sy = determinant > 1e-12 ? limit((xy * gx - xx * gy) / determinant) : 0
  return {
    dxMm: (bx - reach + sx) / perMm,
    dyMm: (by - reach + sy) / perMm,
    correlation: scores[best]!,
    curvature: [-xx * perMm * perMm, -xy * perMm * perMm, -yy * perMm * perMm],
    atRim,
  }
}

interface Stage {
  readonly perMm: number
  readonly blockMm: number
  readonly reachMm: number
  readonly across: number
  readonly down: number
}

// Coarse first: the print may lie three millimetres off (cut-to-print offset, corners set by hand). Ours.
const STAGES: readonly Stage[] = [
  { perMm: 2, blockMm: 12, reachMm: 3, across: 5, down: 7 },
  { perMm: 5, blockMm: 6, reachMm: 1, across: 8, down: 11 },
  { perMm: 10, blockMm: 4, reachMm: 0.4, across: 9, down: 12 },
]
// Blocks that fit worse say nothing of where they lie. Ours.
const LEAST_CORRELATION = 0.55
const LEAST_BLOCKS = 8

export interface PrintAlignment {
  readonly plane: Plane
  /** Standard deviation of what the blocks disagree by, mm. */
  readonly residualMm: number
  /** Share of the blocks with a design that were found, in the last stage. */
  readonly found: number
}

/** @returns `null` where too few blocks of the exemplar's print are found. */
export function alignPrint(
  model: { readonly grey: Grey; readonly plane: Plane },
  photo: { readonly grey: Grey; readonly plane: Plane },
): PrintAlignment | null {
  const { widthMm, heightMm } = model.plane.size
  let plane = photo.plane
  let result: PrintAlignment | null = null
  for (const stage of STAGES) {
    const scale = Math.min(model.plane.scaleAt(widthMm / 2, heightMm / 2), plane.scaleAt(widthMm / 2, heightMm / 2))
    const perMm = Math.min(stage.perMm, scale)
    const reach = Math.max(2, Math.round(stage.reachMm * perMm))
    const reachMm = reach / perMm
    const block = Math.min(stage.blockMm, widthMm / 3)
    const equations: Equation[] = []
    let [designs, found] = [0, 0]
    for (let row = 0; row < stage.down; row++) {
      for (let column = 0; column < stage.across; column++) {
        const x = 1 + ((widthMm - 2 - block) * column) / (stage.across - 1)
        const y = 1 + ((heightMm - 2 - block) * row) / (stage.down - 1)
        const box = { x, y, width: block, height: block }
        const pattern = soften(rasterOf(model.grey, model.plane, box, perMm))
        const wide = { x: x - reachMm, y: y - reachMm, width: block + 2 * reachMm, height: block + 2 * reachMm }
        const around = soften(rasterOf(photo.grey, plane, wide, perMm))
        const shift = findShift(pattern, around, reach)
        if (!shift) continue
        designs++
        if (shift.atRim || shift.correlation < LEAST_CORRELATION) continue
        found++
        equations.push(...equationsOf(x + block / 2, y + block / 2, shift))
      }
    }
    if (found < LEAST_BLOCKS) {
      if (result && stage.perMm > perMm) return result
      return null
    }
    const fit = fitCorrection(equations, widthMm / 2, heightMm / 2)
    if (!fit) return null
    plane = planeOf(multiply(plane.matrix, fit.matrix), plane.size)
    result = { plane, residualMm: fit.residualMm, found: found / designs }
  }
  return result
}

interface Equation {
  readonly x: number
  readonly y: number
  /** Unit direction in which the block is told, and by how much it lies off there. */
  readonly ex: number
  readonly ey: number
  readonly offset: number
  readonly weight: number
}

/** A block with edges in one direction only is told in one direction only. */
function equationsOf(x: number, y: number, { dxMm, dyMm, curvature: [xx, xy, yy] }: Shift): Equation[] {
  const mean = (xx + yy) / 2
  const half = Math.hypot((xx - yy) / 2, xy)
  const angle = Math.atan2(2 * xy, xx - yy) / 2
  const axes: [number, number][] = [
    [mean + half, angle],
    [mean - half, angle + Math.PI / 2],
  ]
  const strongest = mean + half
  return axes.flatMap(([strength, direction]) => {
    if (!(strength > 0.05 * strongest) || strongest <= 0) return []
    const [ex, ey] = [Math.cos(direction), Math.sin(direction)]
    return [{ x, y, ex, ey, offset: ex * dxMm + ey * dyMm, weight: Math.min(1, Math.sqrt(strength / 0.5)) }]
  })
}

/** The small projective correction that most equations agree on: least squares, outliers weighed down (Tukey's biweight). */
function fitCorrection(equations: readonly Equation[], cx: number, cy: number) {
  // Few blocks cannot carry a perspective: then only shift, turn and scale by axes.
  const terms = equations.length >= 30 ? 8 : 6
  const rowOf = ({ x, y, ex, ey }: Equation) => {
    const [u, v] = [(x - cx) / cx, (y - cy) / cy]
    const row = [ex, ex * u, ex * v, ey, ey * u, ey * v]
    if (terms === 8) row.push(ex * cx * u * u + ey * cy * u * v, ex * cx * u * v + ey * cy * v * v)
    return row
  }
  const rows = equations.map(rowOf)
  let weights = equations.map(({ weight }) => weight)
  let solution: number[] | null = null
  let spread = 0
  for (let round = 0; round < 8; round++) {
    const normal = Array.from({ length: terms }, () => new Array<number>(terms).fill(0))
    const right = new Array<number>(terms).fill(0)
    rows.forEach((row, k) => {
      const weight = weights[k]!
      for (let i = 0; i < terms; i++) {
        right[i]! += weight * row[i]! * equations[k]!.offset
        for (let j = 0; j < terms; j++) normal[i]![j]! += weight * row[i]! * row[j]!
      }
    })
    for (let i = 0; i < terms; i++) normal[i]![i]! += 1e-9
    const solved = solveLinear(normal, right)
    if (!solved) return null
    solution = solved
    const residuals = rows.map((row, k) =>
      Math.abs(row.reduce((sum, term, i) => sum + term * solved[i]!, 0) - equations[k]!.offset),
    )
    const sorted = [...residuals].sort((a, b) => a - b)
    spread = Math.max(0.003, 1.4826 * sorted[Math.floor(sorted.length / 2)]!)
    weights = residuals.map((r, k) =>
      r > 4.7 * spread ? 0 : equations[k]!.weight * (1 - (r / (4.7 * spread)) ** 2) ** 2,
    )
  }
  const [a0, a1, a2, b0, b1, b2, g = 0, h = 0] = solution as number[]
  // From terms about the middle, in halves of the card, back to millimetres from the corner.
  const about: Matrix = [1 / cx, 0, -1, 0, 1 / cy, -1, 0, 0, 1]
  const inner: Matrix = [cx + a1!, a2!, cx + a0!, b1!, cy + b2!, cy + b0!, -g, -h, 1]
  // x' = cx + cx·u + a0 + a1·u + a2·v + cx·u·(g·u + h·v): the middle itself must not move by the projective part.
  const corrected: Matrix = [
    inner[0] - g * cx,
    inner[1] - h * cx,
    inner[2],
    inner[3] - g * cy,
    inner[4] - h * cy,
    inner[5],
    inner[6],
    inner[7],
    1,
  ]
  return { matrix: multiply(corrected, about), residualMm: spread }
}

// Around one place the print is found again by itself: paper bends and lenses distort. Ours.
const LOCAL_REACH_MM = 0.5
const LOCAL_LEAST_SIDE_MM = 5

/** The plane moved so that the print around one region lies over the exemplar's; the given one where it cannot be told. */
export function alignRegion(
  model: { readonly grey: Grey; readonly plane: Plane },
  photo: { readonly grey: Grey; readonly plane: Plane },
  region: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): { readonly plane: Plane; readonly correlation: number | null } {
  const width = Math.max(region.width, LOCAL_LEAST_SIDE_MM)
  const height = Math.max(region.height, LOCAL_LEAST_SIDE_MM)
  const box = { x: region.x + (region.width - width) / 2, y: region.y + (region.height - height) / 2, width, height }
  const middle = [region.x + region.width / 2, region.y + region.height / 2] as const
  let plane = photo.plane
  let correlation: number | null = null
  for (const most of [8, 20]) {
    const perMm = Math.min(
      most,
      model.plane.scaleAt(...middle),
      plane.scaleAt(...middle),
      200 / Math.max(width, height),
    )
    const reach = Math.max(2, Math.round((most === 8 ? LOCAL_REACH_MM : 0.12) * perMm))
    const reachMm = reach / perMm
    const pattern = rasterOf(model.grey, model.plane, box, perMm)
    const wide = { x: box.x - reachMm, y: box.y - reachMm, width: width + 2 * reachMm, height: height + 2 * reachMm }
    const shift = findShift(pattern, rasterOf(photo.grey, plane, wide, perMm), reach)
    if (!shift || shift.atRim || shift.correlation < LEAST_CORRELATION) break
    const [xx, , yy] = shift.curvature
    // A direction that the region does not tell stays as it was.
    const told = (own: number, other: number) => own > 0.05 * Math.max(own, other) && own > 0
    correlation = shift.correlation
    plane = shiftPlane(plane, told(xx, yy) ? shift.dxMm : 0, told(yy, xx) ? shift.dyMm : 0)
  }
  return { plane, correlation }
}
