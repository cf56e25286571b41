/**
 * How far the answer to one request is expected to move the weight of what is open, in log₁₀ of the odds.
 * An order of questions, never a probability that something is wrong.
 */
import type { Concern } from '../inspection.ts'
import type { ViewId } from '../views.ts'

type Asking = Pick<Concern, 'request' | 'settledBy' | 'weight' | 'group'>

/**
 * The answers that a view can give are two: it settles the concern, or it does not and the concern stays as it was.
 * Without data both are taken for equally likely; the order of the views does not depend on the figure.
 */
const CHANCE_TO_SETTLE = 0.5

/** Groups count once, by their strongest: a view lifts what is lost when the concerns that ask for it fall away. */
export function expectChange(view: ViewId, concerns: readonly Asking[]): number {
  const before = new Map<string, number>()
  const after = new Map<string, number>()
  for (const { request, settledBy, weight, group } of concerns) {
    if (settledBy !== null) continue
    const size = Math.log10(weight.likelihoodRatio)
    before.set(group, Math.max(before.get(group) ?? 0, size))
    if (!request.includes(view)) after.set(group, Math.max(after.get(group) ?? 0, size))
  }
  let lifted = 0
  for (const [group, size] of before) lifted += size - (after.get(group) ?? 0)
  return CHANCE_TO_SETTLE * lifted
}
