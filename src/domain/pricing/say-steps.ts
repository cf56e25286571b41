/** What was done to reach a valuation, step by step, as codes with figures. */
import type { Said } from '../valuation.ts'
import { type Estimate, LEVEL } from './estimate.ts'
import { HALF_LIFE_YEARS, SELLER_CAP } from './weigh-sales.ts'
import { said } from './words.ts'

/** A distance of logarithms as a share of one and its direction: 0.182 is 0.2 above. */
export function apart(logarithm: number): { share: number; side: 'above' | 'below' } {
  const share = Math.expm1(logarithm)
  return { share: Math.abs(share), side: share >= 0 ? 'above' : 'below' }
}

export function sayEstimate(estimate: Estimate, bounds: number): Said[] {
  const { trend, oddSellers, outliers, cappedSellers, method, pairs } = estimate
  const steps: Said[] = []
  if (trend) {
    const [slopeShare, lowShare, highShare] = [trend.slope, trend.low, trend.high].map(Math.expm1) as [
      number,
      number,
      number,
    ]
    steps.push(said(trend.applied ? 'step.trend' : 'step.no-trend', { slopeShare, lowShare, highShare }))
  }
  for (const odd of oddSellers) {
    const { share, side } = apart(odd.apart)
    steps.push(said(`step.odd-seller-${side}`, { sales: odd.places.length, seller: odd.seller, apartShare: share }))
  }
  if (outliers.length > 0) steps.push(said('step.outliers', { count: outliers.length }))
  steps.push(said('step.age', { years: HALF_LIFE_YEARS }))
  for (const seller of cappedSellers) steps.push(said('step.cap', { seller, capShare: SELLER_CAP }))
  if (bounds > 0) steps.push(said('step.bounds', { count: bounds }))
  steps.push(said(pairs ? 'step.pairs' : 'step.median'))
  steps.push(said(method === 'conformal' ? 'step.conformal' : 'step.t-in-logs', { levelShare: LEVEL }))
  return steps
}
