/**
 * The verbal scale of the ENFSI Guideline for Evaluative Reporting (2015). Only for weights that were learned or measured:
 * an assumed weight has no word here. Both propositions always stand with the word.
 */
import type { Weight } from '../inspection.ts'
import type { Translate } from '../translate.ts'

export const SUPPORT_LEVELS = [
  'none',
  'weak',
  'moderate',
  'moderately-strong',
  'strong',
  'very-strong',
  'extremely-strong',
] as const
export type SupportLevel = (typeof SUPPORT_LEVELS)[number]

export interface Support {
  readonly level: SupportLevel
  /** Below 1 the reciprocal is taken and the propositions swap. */
  readonly swapped: boolean
}

/**
 * The bands share their ends and leave 1 to 2 open in the source. Ours: an end belongs to the band above it, and what is
 * below 2 is no support either way, since calling 1.4 weak would claim more than the scale does.
 */
const BANDS: readonly (readonly [from: number, level: SupportLevel])[] = [
  [1_000_000, 'extremely-strong'],
  [10_000, 'very-strong'],
  [1000, 'strong'],
  [100, 'moderately-strong'],
  [10, 'moderate'],
  [2, 'weak'],
]

/** @param likelihoodRatio above 0. */
export function expressSupport(likelihoodRatio: number): Support {
  const swapped = likelihoodRatio < 1
  const size = swapped ? 1 / likelihoodRatio : likelihoodRatio
  const level = BANDS.find(([from]) => size >= from)?.[1] ?? 'none'
  return { level, swapped: swapped && level !== 'none' }
}

/** A sentence with both propositions for a learned weight; for an assumed one that it is assumed, and no word of support. */
export function describeWeight(weight: Weight, translate: Translate): string {
  if (weight.basis === 'assumed') return translate('weight_assumed', { count: weight.count })
  const { level, swapped } = expressSupport(weight.likelihoodRatio)
  const support = translate(`support_${level.replace(/-/g, '_')}`)
  return translate(swapped ? 'weight_learned_swapped' : 'weight_learned', { count: weight.count, support })
}
