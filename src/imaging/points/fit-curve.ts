/**
 * Least squares for a curved model, by Levenberg and Marquardt, with the covariance of what was fitted: the uncertainty of every
 * measure that comes from a fit starts here. Levenberg (1944), Marquardt (1963).
 */
import { invert, solveLinear } from './solve-linear.ts'

export interface CurveFit {
  readonly values: readonly number[]
  /** Standard deviation of each value, from the residuals. */
  readonly errors: readonly number[]
  /** Standard deviation of the residuals. */
  readonly residual: number
}

const MOST_ROUNDS = 40
const GOOD_ENOUGH = 1e-7

/**
 * @param model value of the curve at observation `i`.
 * @param steps by how much each value is moved to see its slope: a thousandth of its usual size.
 * @returns `null` where it does not settle or the observations cannot tell the values apart.
 */
export function fitCurve(
  model: (values: readonly number[], i: number) => number,
  observed: ArrayLike<number>,
  start: readonly number[],
  steps: readonly number[],
): CurveFit | null {
  const n = observed.length
  const count = start.length
  if (n <= count) return null
  const residualsOf = (values: readonly number[]) => {
    const residuals = new Float64Array(n)
    for (let i = 0; i < n; i++) residuals[i] = (observed[i] as number) - model(values, i)
    return residuals
  }
  const squares = (residuals: Float64Array) => residuals.reduce((sum, r) => sum + r * r, 0)
  let values = [...start]
  let residuals = residualsOf(values)
  let cost = squares(residuals)
  let damping = 1e-3
  let normal: number[][] = []
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const slopes = values.map((_, k) => {
      const moved = [...values]
      moved[k]! += steps[k]!
      const slope = new Float64Array(n)
      for (let i = 0; i < n; i++) slope[i] = (model(moved, i) - (observed[i] as number) + residuals[i]!) / steps[k]!
      return slope
    })
    normal = slopes.map((a) => slopes.map((b) => dot(a, b)))
    const gradient = slopes.map((slope) => dot(slope, residuals))
    let better = false
    for (let attempt = 0; attempt < 8; attempt++) {
      const damped = normal.map((row, i) => row.map((x, j) => (i === j ? x * (1 + damping) : x)))
      const change = solveLinear(damped, gradient)
      if (!change) return null
      const tried = values.map((value, k) => value + change[k]!)
      const triedResiduals = residualsOf(tried)
      const triedCost = squares(triedResiduals)
      if (triedCost < cost) {
        better = cost - triedCost > GOOD_ENOUGH * cost
        values = tried
        residuals = triedResiduals
        cost = triedCost
        damping = Math.max(1e-9, damping / 5)
        break
      }
      damping *= 4
    }
    if (!better) break
  }
  if (!values.every(Number.isFinite)) return null
  const inverse = invert(normal)
  if (!inverse) return null
  const variance = cost / (n - count)
  return {
    values,
    errors: inverse.map((row, i) => Math.sqrt(Math.max(0, row[i]! * variance))),
    residual: Math.sqrt(variance),
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}
