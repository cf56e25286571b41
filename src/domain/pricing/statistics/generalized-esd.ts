/**
 * Outliers by the generalized extreme studentized deviate test, which, unlike one test after the other, is not blind to outliers
 * that hide each other. B. Rosner (1983), Percentage Points for a Generalized ESD Many-Outlier Procedure,
 * Technometrics 25(2); NIST/SEMATECH e-Handbook 1.3.5.17.3.
 */
import { mean, sampleStandardDeviation } from 'simple-statistics'
import { studentQuantile } from './student-t.ts'

export interface EsdStep {
  /** Place of the value in the sample. */
  readonly index: number
  /** Its distance from the mean of what is left, in standard deviations. */
  readonly deviate: number
  readonly critical: number
}

/** @param most how many outliers are looked for, at most n − 2. @returns every step, in the order of removal. */
export function esdSteps(values: readonly number[], alpha: number, most: number): EsdStep[] {
  const left = values.map((value, index) => ({ value, index }))
  const steps: EsdStep[] = []
  for (let i = 1; i <= Math.min(most, values.length - 2); i++) {
    const sample = left.map(({ value }) => value)
    const centre = mean(sample)
    const spread = sampleStandardDeviation(sample)
    if (spread === 0) break
    const farthest = sample.reduce(
      (best, value, k) => (Math.abs(value - centre) > Math.abs((sample[best] as number) - centre) ? k : best),
      0,
    )
    const n = values.length
    const t = studentQuantile(1 - alpha / (2 * (n - i + 1)), n - i - 1)
    steps.push({
      index: (left[farthest] as { index: number }).index,
      deviate: Math.abs((sample[farthest] as number) - centre) / spread,
      critical: ((n - i) * t) / Math.sqrt((n - i - 1 + t * t) * (n - i + 1)),
    })
    left.splice(farthest, 1)
  }
  return steps
}

/** Places of the outliers: all up to the last step whose deviate exceeds its critical value. */
export function findOutliers(values: readonly number[], alpha: number, most: number): number[] {
  const steps = esdSteps(values, alpha, most)
  const last = steps.findLastIndex(({ deviate, critical }) => deviate > critical)
  return steps.slice(0, last + 1).map(({ index }) => index)
}
