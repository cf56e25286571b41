/**
 * Conditions against facts: does it hold, on what evidence, and if not, at which part it failed.
 * Pure; knows the verbs and nothing of any single rule.
 */
import type { Grader } from '../grader-book.ts'
import type { Evidence } from '../inspection.ts'
import type { Translate } from '../translate.ts'
import type { ViewFinding, ViewId } from '../views.ts'
import { factsDiffer } from './compare-facts.ts'
import type { Condition } from './conditions.ts'
import { FACTS, type FactId } from './fact-ids.ts'
import { type FactValue, say, sayUnknown } from './read-fact.ts'
import { fieldOf, type PhraseHit } from './search-phrases.ts'

export interface Grounds {
  readonly read: (fact: FactId) => FactValue
  readonly phrases: ReadonlyMap<string, readonly PhraseHit[]>
  readonly views: ReadonlyMap<ViewId, ViewFinding>
  readonly graders: readonly Grader[]
  /** Rules raised so far, superseded ones included. */
  readonly raised: Pick<ReadonlySet<string>, 'has'>
  readonly translate: Translate
}

export interface Verdict {
  readonly holds: boolean
  readonly evidence: readonly Evidence[]
  /** The leaf that decided, as `fact verb value (what was found)`; the same in every language. */
  readonly decided: string
}

export function evaluate(condition: Condition, grounds: Grounds): Verdict {
  if ('all' in condition) {
    const evidence: Evidence[] = []
    let decided = ''
    for (const part of condition.all) {
      const verdict = evaluate(part, grounds)
      if (!verdict.holds) return { holds: false, evidence: [], decided: verdict.decided }
      evidence.push(...verdict.evidence)
      decided = decided === '' ? verdict.decided : `${decided}; ${verdict.decided}`
    }
    return { holds: true, evidence, decided }
  }
  if ('any' in condition) {
    const verdicts = condition.any.map((part) => evaluate(part, grounds))
    const holding = verdicts.filter((verdict) => verdict.holds)
    const shown = holding.length > 0 ? holding : verdicts
    return {
      holds: holding.length > 0,
      evidence: holding.flatMap((verdict) => verdict.evidence),
      decided: shown.map((verdict) => verdict.decided).join(holding.length > 0 ? '; ' : ' and '),
    }
  }
  if ('not' in condition) {
    const verdict = evaluate(condition.not, grounds)
    return { holds: !verdict.holds, evidence: [], decided: `not: ${verdict.decided}` }
  }
  if ('count' in condition) {
    const holding = condition.count.of.map((part) => evaluate(part, grounds)).filter((verdict) => verdict.holds)
    return {
      holds: holding.length >= condition.count.atLeast,
      evidence: holding.flatMap((verdict) => verdict.evidence),
      decided: `${holding.length} of ${condition.count.of.length} hold, ${condition.count.atLeast} needed`,
    }
  }
  return evaluateLeaf(condition, grounds)
}

function evaluateLeaf(condition: Condition, grounds: Grounds): Verdict {
  if ('phrase' in condition) {
    const { list, in: fields } = condition.phrase
    const hits = (grounds.phrases.get(list) ?? []).filter((hit) => fields.includes(fieldOf(hit.field)))
    const evidence = hits.map(({ quote, field, start, end }) => ({ quote, field, start, end }))
    const decided = hits.length > 0 ? `words of ${list}: "${hits[0]!.quote}"` : `no words of ${list}`
    return { holds: hits.length > 0, evidence, decided }
  }
  if ('view' in condition) {
    const { view, status } = condition.view
    const finding = grounds.views.get(view)
    const holds = finding !== undefined && status.includes(finding.status)
    const evidence = holds
      ? [
          say(grounds.translate, `says_view_${finding.status.replace(/-/g, '_')}`, {
            view: grounds.translate(`view_${view.replace(/-/g, '_')}`),
            reason: finding.reason,
          }),
        ]
      : []
    return { holds, evidence, decided: `view ${view} is ${finding?.status ?? 'unknown'}` }
  }
  if ('raised' in condition) {
    const { rule } = condition.raised
    const holds = grounds.raised.has(rule)
    const evidence = holds
      ? [say(grounds.translate, 'says_raised', { title: grounds.translate(`rule_${rule.replace(/-/g, '_')}_title`) })]
      : []
    return { holds, evidence, decided: `${rule} is ${holds ? '' : 'not '}raised` }
  }
  return evaluateFact(condition, grounds)
}

function evaluateFact(condition: Condition, grounds: Grounds): Verdict {
  if ('differ' in condition) {
    const { fact, from } = condition.differ
    const left = grounds.read(fact)
    const right = grounds.read(from)
    const known = left.value !== null && right.value !== null
    const holds = known && factsDiffer(FACTS[fact], String(left.value), String(right.value), grounds.graders)
    const evidence = holds ? [...left.evidence, ...right.evidence] : []
    return { holds, evidence, decided: `${fact} (${show(left)}) against ${from} (${show(right)})` }
  }
  const { fact } = Object.values(condition)[0] as { fact: FactId }
  const found = grounds.read(fact)
  const { value } = found
  const verdict = (holds: boolean, words: string, evidence = found.evidence): Verdict => ({
    holds,
    evidence: holds ? evidence : [],
    decided: `${fact} ${words} (${show(found)})`,
  })
  if ('is' in condition) return verdict(value === condition.is.value, `is ${condition.is.value}`)
  if ('oneOf' in condition) {
    const { values } = condition.oneOf
    return verdict(value !== null && values.includes(String(value)), `one of ${values.join(', ')}`)
  }
  if ('known' in condition) return verdict(value !== null, 'known')
  if ('unknown' in condition) return verdict(value === null, 'unknown', [sayUnknown(grounds.translate, fact)])
  if ('atLeast' in condition) {
    const { value: limit, unit } = condition.atLeast.threshold
    return verdict(typeof value === 'number' && value >= limit, `at least ${limit} ${unit}`)
  }
  if ('below' in condition) {
    const { value: limit, unit } = condition.below.threshold
    return verdict(typeof value === 'number' && value < limit, `below ${limit} ${unit}`)
  }
  throw new Error(`a verb that the schema knows and the engine does not: ${Object.keys(condition)[0]}`)
}

function show(found: FactValue): string {
  if (found.value === null) return 'unknown'
  return typeof found.value === 'number' ? String(Math.round(found.value * 1000) / 1000) : String(found.value)
}
