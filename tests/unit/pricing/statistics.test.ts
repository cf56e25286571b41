/** The statistics of the valuation against published tables, certified values and a general-purpose reference library. */

import fc from 'fast-check'
import { mean, median, sampleStandardDeviation } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { conformalRank } from '../../../src/domain/pricing/statistics/conformal-rank.ts'
import { esdSteps, findOutliers } from '../../../src/domain/pricing/statistics/generalized-esd.ts'
import { isotonic } from '../../../src/domain/pricing/statistics/isotonic.ts'
import { MAD_TO_SD, scaledMad } from '../../../src/domain/pricing/statistics/robust.ts'
import { studentCdf, studentQuantile } from '../../../src/domain/pricing/statistics/student-t.ts'
import { theilSen } from '../../../src/domain/pricing/statistics/theil-sen.ts'
import { effectiveCount, hodgesLehmann, weightedMedian } from '../../../src/domain/pricing/statistics/weighted.ts'
import { describeWithReferences, readReference } from '../../published-references.ts'

const relative = (value: number, truth: number) => Math.abs(value - truth) / Math.abs(truth)
const equal = (values: readonly number[]) => values.map(() => 1)

interface References {
  univariate: {
    name: string
    n: number
    certified: { mean: number; sd: number }
    data?: number[]
    data_digits?: string
    data_rule?: { first: number; then_repeat: number[]; times: number }
  }[]
  linear_regression: { x: number[]; y: number[]; certified: { b1: number; sd_b1: number } }
  generalized_esd: {
    data: number[]
    alpha: number
    max_outliers: number
    R: number[]
    lambda: number[]
    removed_in_order: number[]
    outlier_values: number[]
  }
  grubbs: { data: number[]; alpha: number; G: number; critical_two_sided: number; outlier: number }
  theil_sen: { x: number[]; y: number[]; slope: number; ci: { lower: number; upper: number; nominal_level: number } }
  hodges_lehmann: { differences: number[]; hodges_lehmann: number }
}

describeWithReferences('published worked examples (statistics.json)', (folder) => {
  const references = readReference<References>(folder, 'statistics.json')

  // The library's mean and deviation are what the outlier test rests on.
  const sets = references.univariate
  it('has all nine sets', () => expect(sets).toHaveLength(9))
  it.each(sets)('NIST StRD $name: mean and deviation', ({ name, certified, data, data_digits, data_rule }) => {
    const made = data_rule && [
      data_rule.first,
      ...Array.from({ length: data_rule.times }, () => data_rule.then_repeat).flat(),
    ]
    const values = data ?? made ?? [...data_digits!].map(Number)
    expect(relative(mean(values), certified.mean)).toBeLessThan(1e-9)
    // Doubles cannot hold 10000000.1: NIST's own notes and the folder's README put 8 to 9 digits there.
    expect(relative(sampleStandardDeviation(values), certified.sd)).toBeLessThan(/NumAcc[34]/.test(name) ? 1e-8 : 1e-9)
  })

  it('Norris (NIST StRD): the robust trend lies within three certified deviations of the certified slope', () => {
    const { x, y, certified } = references.linear_regression
    const trend = theilSen(x, y, 0.95)!
    expect(Math.abs(trend.slope - certified.b1)).toBeLessThan(3 * certified.sd_b1)
    expect(trend.low).toBeLessThan(certified.b1)
    expect(trend.high).toBeGreaterThan(certified.b1)
  })

  it('Rosner (1983): every deviate, every critical value, three outliers behind a mask', () => {
    const { data, alpha, max_outliers, R, lambda, removed_in_order, outlier_values } = references.generalized_esd
    const steps = esdSteps(data, alpha, max_outliers)
    steps.forEach(({ index, deviate, critical }, i) => {
      expect(Math.abs(deviate - R[i]!)).toBeLessThan(1e-6)
      expect(Math.abs(critical - lambda[i]!)).toBeLessThan(1e-6)
      expect(data[index]).toBe(removed_in_order[i])
    })
    expect(steps).toHaveLength(max_outliers)
    expect(findOutliers(data, alpha, max_outliers).map((i) => data[i])).toEqual(outlier_values)
  })

  it('takes all outliers up to the last that exceeds its critical value', () => {
    const values = [...Array.from({ length: 20 }, (_, i) => Math.sin(i)), 40, 90]
    expect(findOutliers(values, 0.05, 4).map((i) => values[i])).toEqual([90, 40])
  })

  it('Grubbs (1972): the first step of the same test', () => {
    const { data, alpha, G, critical_two_sided, outlier } = references.grubbs
    const [step] = esdSteps(data, alpha, 1)
    expect(Math.abs(step!.deviate - G)).toBeLessThan(1e-6)
    expect(Math.abs(step!.critical - critical_two_sided)).toBeLessThan(1e-6)
    expect(data[step!.index]).toBe(outlier)
  })

  it('Sen (1968): slope and interval', () => {
    const { x, y, slope, ci } = references.theil_sen
    const trend = theilSen(x, y, ci.nominal_level)!
    expect(trend.slope).toBe(slope)
    expect(Math.abs(trend.low - ci.lower)).toBeLessThan(1e-12)
    expect(Math.abs(trend.high - ci.upper)).toBeLessThan(1e-12)
  })

  it('Hollander & Wolfe (1973): the Hodges–Lehmann estimate', () => {
    const { differences, hodges_lehmann } = references.hodges_lehmann
    expect(Math.abs(hodgesLehmann(differences, equal(differences)) - hodges_lehmann)).toBeLessThan(1e-12)
  })

  it('conformal ranks, with the places where plain doubles go wrong (evidence.json)', () => {
    const { conformal_rank } = readReference<{
      conformal_rank: Record<'cases' | 'floating_point_traps', { n: number; alpha: number; rank: number | null }[]>
    }>(folder, 'evidence.json')
    for (const { n, alpha, rank } of [...conformal_rank.cases, ...conformal_rank.floating_point_traps]) {
      expect(conformalRank(n, alpha), `${n}, ${alpha}`).toBe(rank)
    }
  })
})

describe('Student’s t', () => {
  it.each([
    [0.95, 1, 6.313751514675037],
    [0.95, 5, 2.0150483733330233],
    [0.975, 3, 3.1824463052837078],
    [0.975, 30, 2.0422724563012378],
    [0.995, 10, 3.16927267261695],
    [0.9999, 2, 70.70007107496818],
    [0.95, 2.5, 2.5582186141359355],
    [0.999, 200, 3.131479814221121],
  ])('quantile %f at %f degrees of freedom (scipy 1.17.1, stats.t.ppf)', (p, freedom, quantile) => {
    expect(relative(studentQuantile(p, freedom), quantile)).toBeLessThan(1e-9)
    expect(relative(studentQuantile(1 - p, freedom), -quantile)).toBeLessThan(1e-9)
  })

  it('is the Cauchy distribution at one degree of freedom, in closed form', () => {
    for (const t of [-20, -1, 0, 0.3, 5]) expect(studentCdf(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 12)
  })
})

describe('monotone regression', () => {
  /** scipy 1.17.1: `scipy.optimize.isotonic_regression(values, weights=weights).x`, numpy default_rng(5). */
  it.each([
    { values: [-0.802], weights: [3.27], fitted: [-0.802] },
    { values: [-0.248, 0.72], weights: [0.4, 1.66], fitted: [-0.248, 0.72] },
    {
      values: [-0.553, -0.485, 1.349, 2.535, 1.473],
      weights: [1.09, 1.85, 3.9, 3.61, 3.41],
      fitted: [-0.553, -0.485, 1.349, 2.0191282051282053, 2.0191282051282053],
    },
    {
      values: [-0.084, -0.863, -0.029, 0.412, 0.487, 2.053, 1.737, 1.511, 2.81],
      weights: [3.51, 1.06, 3.6, 3.51, 0.27, 2.89, 0.2, 2.11, 1.86],
      fitted: [
        -0.2646870897155361, -0.2646870897155361, -0.029, 0.412, 0.487, 1.8209192307692308, 1.8209192307692308,
        1.8209192307692308, 2.81,
      ],
    },
    {
      values: [-1.048, -0.096, -0.491, -0.455, 1.425, 0.391, 2.97, 2.817, 0.402, 2.972, 1.898, 3.333, 3.644, 1.912],
      weights: [0.26, 3.75, 0.53, 3.41, 1.6, 3.81, 1.72, 3.76, 2.31, 1.11, 3.02, 2.76, 2.8, 1.96],
      fitted: [
        -1.048, -0.2824161248374512, -0.2824161248374512, -0.2824161248374512, 0.6968040665434381, 0.6968040665434381,
        2.134652118100129, 2.134652118100129, 2.134652118100129, 2.1866537530266346, 2.1866537530266346,
        3.0784308510638296, 3.0784308510638296, 3.0784308510638296,
      ],
    },
  ])('$values', ({ values, weights, fitted }) => {
    isotonic(values, weights).forEach((value, i) => {
      expect(value).toBeCloseTo(fitted[i]!, 12)
    })
  })

  it('is the largest of the smallest means (min–max formula; Robertson, Wright & Dykstra 1988, theorem 1.4.4)', () => {
    const sample = fc.array(fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: 1, max: 9 })), {
      minLength: 1,
      maxLength: 9,
    })
    fc.assert(
      fc.property(sample, (pairs) => {
        const values = pairs.map(([value]) => value)
        const weights = pairs.map(([, weight]) => weight)
        const meanOf = (from: number, to: number) => {
          let [sum, weight] = [0, 0]
          for (let i = from; i <= to; i++) [sum, weight] = [sum + values[i]! * weights[i]!, weight + weights[i]!]
          return sum / weight
        }
        isotonic(values, weights).forEach((fitted, i) => {
          const formula = Math.max(
            ...values.slice(0, i + 1).map((_, j) => Math.min(...values.slice(i).map((_, k) => meanOf(j, i + k)))),
          )
          expect(fitted).toBeCloseTo(formula, 9)
        })
      }),
    )
  })
})

describe('weighted centres', () => {
  const sample = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 25 })

  it('are the plain ones under equal weights', () => {
    fc.assert(
      fc.property(sample, (values) => {
        expect(weightedMedian(values, equal(values))).toBeCloseTo(median(values), 9)
        const averages = values.flatMap((a, i) => values.slice(i).map((b) => (a + b) / 2))
        expect(hodgesLehmann(values, equal(values))).toBeCloseTo(median(averages), 9)
      }),
    )
  })

  it('count a whole weight as repetition', () => {
    fc.assert(
      fc.property(sample, fc.integer({ min: 1, max: 4 }), (values, k) => {
        const weights = values.map((_, i) => (i === 0 ? k : 1))
        const repeated = [...new Array<number>(k - 1).fill(values[0]!), ...values]
        expect(weightedMedian(values, weights)).toBeCloseTo(median(repeated), 9)
      }),
    )
  })

  it('count sales', () => {
    expect(effectiveCount([1, 1, 1, 1])).toBeCloseTo(4, 12)
    expect(effectiveCount([1, 0.5])).toBeCloseTo(1.8, 12)
  })
})

it('the MAD is scaled to a standard deviation by 1 / Φ⁻¹(0.75), 1.4826 (Iglewicz & Hoaglin 1993)', () => {
  expect(MAD_TO_SD).toBeCloseTo(1.482602218505602, 12)
  expect(scaledMad([1, 1, 2, 2, 4, 6, 9])).toBeCloseTo(1.482602218505602, 12)
})
