/**
 * Student's t distribution. Written here because the libraries at hand either build functions from text, which an extension's
 * content security policy forbids, or weigh more than the rest of the pricing together.
 * The distribution function through the regularised incomplete beta function as a continued fraction, evaluated by
 * Lentz's method: W. Press et al., Numerical Recipes (3rd ed., 2007), section 6.4; NIST DLMF 8.17.22.
 */
import { gammaln } from 'simple-statistics'

const TINY = 1e-300
const MOST_TERMS = 500

function betaFraction(x: number, a: number, b: number): number {
  let c = 1
  let d = 1 - ((a + b) * x) / (a + 1)
  d = 1 / (Math.abs(d) < TINY ? TINY : d)
  let result = d
  for (let m = 1; m <= MOST_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    for (const term of [even, odd]) {
      d = 1 + term * d
      c = 1 + term / c
      if (Math.abs(d) < TINY) d = TINY
      if (Math.abs(c) < TINY) c = TINY
      d = 1 / d
      result *= d * c
    }
    if (Math.abs(d * c - 1) < 1e-15) break
  }
  return result
}

/** Regularised incomplete beta function I_x(a, b). */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0
  if (x >= 1) return 1
  const front = Math.exp(gammaln(a + b) - gammaln(a) - gammaln(b) + a * Math.log(x) + b * Math.log1p(-x))
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(x, a, b)) / a : 1 - (front * betaFraction(1 - x, b, a)) / b
}

/** P(T ≤ t) with `freedom` degrees of freedom, any positive number. */
export function studentCdf(t: number, freedom: number): number {
  const tail = 0.5 * incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5)
  return t >= 0 ? 1 - tail : tail
}

/** The t with P(T ≤ t) = p, 0 < p < 1, by bisection: slow, certain, exact to the last digits that matter. */
export function studentQuantile(p: number, freedom: number): number {
  if (p < 0.5) return -studentQuantile(1 - p, freedom)
  let low = 0
  let high = 1
  while (studentCdf(high, freedom) < p) high *= 2
  for (let i = 0; i < 100 && high - low > 1e-14 * high; i++) {
    const middle = (low + high) / 2
    if (studentCdf(middle, freedom) < p) low = middle
    else high = middle
  }
  return (low + high) / 2
}
