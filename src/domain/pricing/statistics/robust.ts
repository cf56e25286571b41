/** Robust location and scale of a sample. No prices here, only numbers. */
import { median, medianAbsoluteDeviation } from 'simple-statistics'

/** Makes the MAD estimate a normal distribution's standard deviation: 1 / Φ⁻¹(3/4). */
export const MAD_TO_SD = 1.4826022185056018

export { median }

/**
 * The median absolute deviation, scaled to a standard deviation; `0` where more than half of the values are equal.
 * Iglewicz & Hoaglin (1993), How to Detect and Handle Outliers.
 */
export function scaledMad(values: readonly number[]): number {
  return MAD_TO_SD * medianAbsoluteDeviation(values as number[])
}
