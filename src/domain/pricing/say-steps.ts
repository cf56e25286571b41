/** What was done to reach a valuation, in words, one sentence each. */
import { type Estimate, LEVEL } from './estimate.ts'
import { HALF_LIFE_YEARS, SELLER_CAP } from './weigh-sales.ts'

export function percent(share: number): string {
  const rounded = Math.round(share * 100)
  return `${rounded < 0 ? '−' : ''}${Math.abs(rounded)} %`
}

function counted(n: number, one: string, many: string): string {
  return n === 1 ? `one ${one}` : `${n} ${many}`
}

/** A distance of logarithms as a share: 0.182 is "20 % above". */
export function apartWords(logarithm: number): string {
  const share = Math.expm1(logarithm)
  return `${percent(Math.abs(share))} ${share >= 0 ? 'above' : 'below'}`
}

export function sayEstimate(estimate: Estimate): string[] {
  const { trend, oddSellers, outliers, cappedSellers, method, pairs } = estimate
  const steps: string[] = []
  if (trend) {
    const [by, low, high] = [trend.slope, trend.low, trend.high].map(Math.expm1) as [number, number, number]
    const range = `90 % interval ${percent(low)} to ${percent(high)}`
    steps.push(
      trend.applied
        ? `Prices moved by ${percent(by)} a year (Theil–Sen, ${range}); every sale was moved to the day by it.`
        : `No trend is supported (Theil–Sen ${percent(by)} a year, ${range}); none was applied.`,
    )
  }
  for (const { seller, places, apart } of oddSellers) {
    steps.push(`Left out the ${places.length} sales of ${seller}: together they lie ${apartWords(apart)} the others.`)
  }
  if (outliers.length > 0) {
    steps.push(`Left out ${counted(outliers.length, 'sale', 'sales')} whose price stands apart (generalized ESD test).`)
  }
  steps.push(`Weighed by age: a sale counts half after ${HALF_LIFE_YEARS} years.`)
  for (const seller of cappedSellers) steps.push(`Held ${seller} to ${percent(SELLER_CAP)} of the weight.`)
  steps.push(
    pairs
      ? 'Took the Hodges–Lehmann centre of the logarithms: the median of the averages of all pairs.'
      : 'Took the weighted median of the logarithms.',
  )
  steps.push(
    method === 'conformal'
      ? `The ${percent(LEVEL)} band reaches to the conformal rank among the distances from the centre.`
      : `The ${percent(LEVEL)} band is a t-interval in the logarithms for the next sale.`,
  )
  return steps
}
