/**
 * Likelihood ratios of concerns, put together: a group of dependent rules counts once, by its strongest.
 * Assumed weights order concerns and set the stance. No probability that a card is anything comes out of here.
 */
import type { Concern, Weight } from '../inspection.ts'

type Weighed = Pick<Concern, 'rule' | 'group' | 'weight' | 'settledBy'>

export interface GroupWeight {
  readonly group: string
  /** The rule that counts for the group. */
  readonly rule: string
  readonly weight: Weight
}

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

export interface CombinedWeight {
  /** Sum over groups of log₁₀ of the likelihood ratio. */
  readonly log10: number
  /** The same with every weight halved and doubled in log: what the result owes to the sizes assumed. */
  readonly sensitivity: { readonly halved: number; readonly doubled: number }
  /** `learned` only where every group's weight is. */
  readonly basis: 'assumed' | 'learned'
  readonly groups: readonly GroupWeight[]
}

export function combineEvidence(concerns: readonly Weighed[]): CombinedWeight {
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
