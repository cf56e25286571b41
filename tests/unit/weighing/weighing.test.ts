import { existsSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Concern } from '../../../src/domain/inspection.ts'
import { combineEvidence, updateProbability, weighGroups } from '../../../src/domain/weighing/combine-evidence.ts'
import { countOutcomes, forecastEnds } from '../../../src/domain/weighing/count-outcomes.ts'
import { deviationOf, meanOf, priorOf, updateBeta, weighRule } from '../../../src/domain/weighing/learn-weight.ts'
import { scoreBrier } from '../../../src/domain/weighing/score-brier.ts'
import { describeWeight, expressSupport } from '../../../src/domain/weighing/verbal-scale.ts'
import { loadPacks } from '../rules/load-packs.ts'

const REFS = new URL('../../../../shared/refs/evidence.json', import.meta.url)

describe('against published examples', () => {
  if (!existsSync(REFS) && !process.env.CI) {
    it('left out: ../shared/refs/evidence.json is not beside this repository', () => {
      console.log('weighing: the checks against ../shared/refs/evidence.json were left out')
    })
    return
  }
  const refs = JSON.parse(readFileSync(REFS, 'utf8'))

  it('Bayes in odds form: Gigerenzer and Hoffrage 1995, after Eddy 1982', () => {
    const example = refs.bayes_mammography
    const { prior, sensitivity, false_positive_rate: falsePositive } = example
    const positive = sensitivity / falsePositive
    const negative = (1 - sensitivity) / (1 - falsePositive)
    expect(positive).toBeCloseTo(example.likelihood_ratio_positive, 6)
    expect(negative).toBeCloseTo(example.likelihood_ratio_negative, 6)
    expect(updateProbability(prior, positive)).toBeCloseTo(25 / 322, 12)
    expect(updateProbability(prior, positive)).toBeCloseTo(example.posterior_given_positive, 5)
    expect(updateProbability(prior, negative)).toBeCloseTo(example.posterior_given_negative, 5)
  })

  it('Beta-Binomial: Gelman et al., Bayesian Data Analysis, 3rd edition, section 2.4', () => {
    const example = refs.beta_binomial_placenta_previa
    const posterior = updateBeta(example.prior, example.successes, example.trials - example.successes)
    expect(posterior).toEqual(example.posterior)
    expect(Math.abs(meanOf(posterior) - example.mean)).toBeLessThan(1e-6)
    expect(Math.abs(deviationOf(posterior) - example.sd)).toBeLessThan(1e-6)
  })

  it('verbal scale: ENFSI Guideline for Evaluative Reporting 2015', () => {
    for (const band of refs.likelihood_ratio_bands.bands) {
      const words = (ratio: number) =>
        `${expressSupport(ratio).level.replace(/-/g, ' ')} support`.replace('none support', 'no support either way')
      expect(words(band.from)).toBe(band.verbal)
      // The ends are shared in the source; ours: an end belongs to the band above.
      if (band.to !== null)
        expect(words(band.to * 0.999999)).toBe(band.to === 1 ? 'no support either way' : band.verbal)
    }
  })
})

it('leaves 1 to 2 without a word of support, and swaps the propositions below 1', () => {
  expect(expressSupport(1.99)).toEqual({ level: 'none', swapped: false })
  expect(expressSupport(1 / 50)).toEqual({ level: 'moderate', swapped: true })
  expect(expressSupport(0.9)).toEqual({ level: 'none', swapped: false })
})

describe('words for a weight', () => {
  const { translate } = loadPacks()
  it('never speak of support where the weight is assumed', () => {
    const text = describeWeight({ likelihoodRatio: 500, basis: 'assumed', count: 3 }, translate)
    expect(text).toBe('Assumed weight, from practice; 3 outcomes of yours are too few to learn from.')
  })
  it('name both propositions where it is learned', () => {
    const text = describeWeight({ likelihoodRatio: 20, basis: 'learned', count: 31 }, translate)
    expect(text).toBe(
      'Learned from 31 outcomes of yours: moderate support for “something is wrong with the offer” over “the offer is as described”.',
    )
    const swapped = describeWeight({ likelihoodRatio: 0.05, basis: 'learned', count: 31 }, translate)
    expect(swapped).toContain('for “the offer is as described” over “something is wrong with the offer”')
  })
})

const weighed = fc.record({
  rule: fc.string({ minLength: 1, maxLength: 3 }),
  group: fc.constantFrom('a', 'b', 'c'),
  weight: fc.record({
    likelihoodRatio: fc.double({ min: 1.01, max: 1000, noNaN: true }),
    basis: fc.constantFrom('assumed' as const, 'learned' as const),
    count: fc.nat(),
  }),
  settledBy: fc.constantFrom(null, null, 'seen'),
}) satisfies fc.Arbitrary<Pick<Concern, 'rule' | 'group' | 'weight' | 'settledBy'>>

describe('groups', () => {
  it('count once, by their strongest', () => {
    fc.assert(
      fc.property(fc.array(weighed), (concerns) => {
        const open = concerns.filter(({ settledBy }) => settledBy === null)
        for (const { group, weight } of weighGroups(concerns)) {
          const own = open.filter((concern) => concern.group === group).map((concern) => concern.weight.likelihoodRatio)
          expect(weight.likelihoodRatio).toBe(Math.max(...own))
        }
        expect(weighGroups(concerns).length).toBe(new Set(open.map(({ group }) => group)).size)
      }),
    )
  })

  it('do not depend on the order', () => {
    fc.assert(
      fc.property(fc.array(weighed), (concerns) => {
        const here = combineEvidence(concerns)
        const there = combineEvidence([...concerns].reverse())
        expect(there.log10).toBeCloseTo(here.log10, 9)
        expect(there.groups.map(({ group, rule }) => [group, rule])).toEqual(
          here.groups.map(({ group, rule }) => [group, rule]),
        )
      }),
    )
  })

  it('show what halved and doubled weights would say', () => {
    const weight = { likelihoodRatio: 100, basis: 'assumed', count: 0 } as const
    expect(combineEvidence([{ rule: 'r', group: 'g', weight, settledBy: null }])).toMatchObject({
      log10: 2,
      sensitivity: { halved: 1, doubled: 4 },
      basis: 'assumed',
    })
  })
})

describe('learning', () => {
  it('leaves an assumed weight as it is without outcomes', () => {
    expect(weighRule(8, null)).toEqual({ likelihoodRatio: 8, basis: 'assumed', count: 0 })
    const prior = priorOf(8)
    expect(meanOf(prior.raisedWhereWrong) / meanOf(prior.raisedWhereSound)).toBeCloseTo(8, 12)
  })

  it('calls it learned from twenty outcomes on', () => {
    const outcomes = (raisedSound: number) => ({ raisedWrong: 5, silentWrong: 5, raisedSound, silentSound: 5 })
    expect(weighRule(8, outcomes(4)).basis).toBe('assumed')
    expect(weighRule(8, outcomes(5)).basis).toBe('learned')
    expect(weighRule(8, outcomes(5)).count).toBe(20)
  })

  it('needs some ends of each kind, and a sign that was seen', () => {
    expect(weighRule(8, { raisedWrong: 3, silentWrong: 1, raisedSound: 3, silentSound: 40 }).basis).toBe('assumed')
    expect(weighRule(8, { raisedWrong: 3, silentWrong: 2, raisedSound: 3, silentSound: 40 }).basis).toBe('learned')
    const neverSeen = weighRule(8, { raisedWrong: 0, silentWrong: 30, raisedSound: 0, silentSound: 30 })
    expect(neverSeen).toEqual({ likelihoodRatio: 8, basis: 'assumed', count: 60 })
  })

  it('moves a weight by hand-reckoned counts', () => {
    // Assumed 4: priors Beta(2, 8) and Beta(0.5, 9.5). With 8 of 10 and 1 of 10: (10/20) ÷ (1.5/20) = 6.667.
    const learned = weighRule(4, { raisedWrong: 8, silentWrong: 2, raisedSound: 1, silentSound: 9 })
    expect(learned.likelihoodRatio).toBeCloseTo(10 / 1.5, 12)
  })

  it('approaches the observed rates with many outcomes', () => {
    const learned = weighRule(50, { raisedWrong: 3000, silentWrong: 7000, raisedSound: 1000, silentSound: 9000 })
    expect(learned.likelihoodRatio).toBeCloseTo(3, 1)
  })

  it('counts outcomes by rule, and those not known for nothing', () => {
    const looked = ['a', 'b']
    expect(
      countOutcomes([
        { outcome: 'counterfeit', raised: ['a'], looked },
        { outcome: 'never-arrived', raised: [], looked },
        { outcome: 'genuine', raised: ['a', 'b'], looked },
        { outcome: 'never-known', raised: ['a'], looked },
        { outcome: null, raised: ['a'], looked },
      ]),
    ).toEqual({
      a: { raisedWrong: 1, silentWrong: 1, raisedSound: 1, silentSound: 0 },
      b: { raisedWrong: 0, silentWrong: 2, raisedSound: 1, silentSound: 0 },
    })
  })
})

describe('Brier score', () => {
  it('is reckoned from ended dossiers only', () => {
    // One bad of two: prior (1 + 1) / (2 + 2) = 1/2; odds 1 × 10 gives 10/11.
    const forecasts = forecastEnds([
      { outcome: 'counterfeit', log10: 1 },
      { outcome: 'genuine', log10: 0 },
      { outcome: 'never-known', log10: 3 },
      { outcome: null, log10: 3 },
    ])
    expect(forecasts).toEqual([
      { probability: expect.closeTo(10 / 11, 12), happened: true },
      { probability: 0.5, happened: false },
    ])
  })

  const forecasts = fc.array(
    fc.record({ probability: fc.integer({ min: 0, max: 10 }).map((tenth) => tenth / 10), happened: fc.boolean() }),
    { minLength: 1 },
  )

  it('is reliability − resolution + uncertainty (Murphy 1973)', () => {
    fc.assert(
      fc.property(forecasts, (items) => {
        const { score, reliability, resolution, uncertainty } = scoreBrier(items)!
        expect(score).toBeCloseTo(reliability - resolution + uncertainty, 12)
      }),
    )
  })

  it('adds up in bins too', () => {
    fc.assert(
      fc.property(forecasts, fc.integer({ min: 1, max: 7 }), (items, bins) => {
        const { score, reliability, resolution, uncertainty } = scoreBrier(items, bins)!
        expect(score).toBeCloseTo(reliability - resolution + uncertainty, 12)
      }),
    )
  })

  it('of hand-reckoned forecasts', () => {
    // (0.9 − 1)² + (0.2 − 0)² + (0.6 − 0)² = 0.01 + 0.04 + 0.36, over three.
    const items = [
      { probability: 0.9, happened: true },
      { probability: 0.2, happened: false },
      { probability: 0.6, happened: false },
    ]
    expect(scoreBrier(items)?.score).toBeCloseTo(0.41 / 3, 12)
    expect(scoreBrier(items, 2)?.rows).toEqual([
      { forecast: 0.2, observed: 0, count: 1 },
      { forecast: 0.75, observed: 0.5, count: 2 },
    ])
    expect(scoreBrier([])).toBeNull()
  })
})
