/**
 * Likelihood ratios of concerns, put together: a group of dependent rules counts once, by its strongest.
 * Assumed weights order concerns and set the stance. No probability that a card is anything comes out of here.
 */
import type { Concern, Weighing } from '../inspection.ts'

type Weighed = Pick<Concern, 'rule' | 'group' | 'weight' | 'settledBy'>

type GroupWeight = Weighing['groups'][number]

/** Open concerns only; strongest group first, ties by name so that the order never depends on the input's. */
export function weighGroups(concerns: readonly Weighed[]): readonly GroupWeight[] {
  const strongest = new Map<string, GroupWeight>()
  for (const { rule, group, weight, settledBy } of concerns) {
    if (settledBy !== null) continue
    const before = strongest.get(group)
    const above = before && weight.likelihoodRatio - before.weight.likelihoodRatio
    if (above === undefined || above > 0 || (above === 0 && rule < before!.rule))
      strongest.set(group, { group, rule, weight })
  }
  return [...strongest.values()].sort(
    (a, b) => b.weight.likelihoodRatio - a.weight.likelihoodRatio || (a.group < b.group ? -1 : 1),
  )
}

export function combineEvidence(concerns: readonly Weighed[]): Weighing {
  const groups = weighGroups(concerns)
  const log10 = groups.reduce((sum, { weight }) => sum + Math.log10(weight.likelihoodRatio), 0)
  const learned = groups.length > 0 && groups.every(({ weight }) => weight.basis === 'learned')
  return {
    log10,
    sensitivity: { halved: log10 / 2, doubled: log10 * 2 },
    basis: learned ? 'learned' : 'assumed',
    groups,
  }
}

/** Bayes in odds form: posterior odds = prior odds × likelihood ratio. Probabilities in (0, 1), ratio above 0. */
export function updateProbability(prior: number, likelihoodRatio: number): number {
  const odds = (prior / (1 - prior)) * likelihoodRatio
  return odds / (1 + odds)
}
