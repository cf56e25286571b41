/**
 * A mutation check over the rule packs: each condition of each rule is changed in turn, and at least one fixture must notice.
 * A condition that can be changed unseen is a condition that nobody has tested.
 */
import { describe, expect, it } from 'vitest'
import { inspect } from '../../src/domain/inspect.ts'
import { referencesOf } from '../../src/domain/rules/check-rules.ts'
import type { Condition } from '../../src/domain/rules/conditions.ts'
import type { Packs } from '../../src/domain/rules/packs.ts'
import type { Rule } from '../../src/domain/rules/rule.ts'
import { loadPacks } from '../unit/rules/load-packs.ts'
import { type RuleCase, readRuleFixtures } from '../unit/rules/rule-fixtures.ts'

interface Mutant {
  readonly what: string
  readonly condition: Condition
}

/** Each way of changing this condition at exactly one place. */
function* mutate(condition: Condition, where = 'when'): Generator<Mutant> {
  yield { what: `${where}: negated`, condition: { not: condition } }
  if ('all' in condition) {
    if (condition.all.length > 1) yield { what: `${where}: all → any`, condition: { any: condition.all } }
    yield* mutateList(condition.all, where, (all) => ({ all }))
  } else if ('any' in condition) {
    if (condition.any.length > 1) yield { what: `${where}: any → all`, condition: { all: condition.any } }
    yield* mutateList(condition.any, where, (any) => ({ any }))
  } else if ('not' in condition) {
    for (const inner of mutate(condition.not, `${where}.not`)) yield { ...inner, condition: { not: inner.condition } }
  } else if ('count' in condition) {
    const { of, atLeast } = condition.count
    yield { what: `${where}: one fewer`, condition: { count: { of, atLeast: atLeast - 1 } } }
    yield { what: `${where}: one more`, condition: { count: { of, atLeast: atLeast + 1 } } }
    yield* mutateList(of, where, (rest) => ({ count: { of: rest, atLeast } }))
  } else if ('oneOf' in condition) {
    const { fact, values } = condition.oneOf
    for (const gone of values) {
      const rest = values.filter((value) => value !== gone)
      yield { what: `${where}: without ${gone}`, condition: { oneOf: { fact, values: rest } } }
    }
  } else if ('is' in condition) {
    const { fact, value } = condition.is
    const other = typeof value === 'boolean' ? !value : 'something else'
    yield { what: `${where}: ${fact} is another`, condition: { is: { fact, value: other } } }
  } else if ('atLeast' in condition || 'below' in condition) {
    yield* mutateThreshold(condition, where)
  } else if ('phrase' in condition) {
    const { list, in: fields } = condition.phrase
    for (const gone of fields) {
      const rest = fields.filter((field) => field !== gone)
      yield { what: `${where}: not in ${gone}`, condition: { phrase: { list, in: rest } } }
    }
  } else if ('view' in condition) {
    const { view, status } = condition.view
    for (const gone of status) {
      const rest = status.filter((item) => item !== gone)
      yield { what: `${where}: ${view} not ${gone}`, condition: { view: { view, status: rest } } }
    }
  }
}

function* mutateList(
  parts: readonly Condition[],
  where: string,
  build: (parts: readonly Condition[]) => Condition,
): Generator<Mutant> {
  for (const [at, part] of parts.entries()) {
    const replaced = (with_: readonly Condition[]) => build([...parts.slice(0, at), ...with_, ...parts.slice(at + 1)])
    if (parts.length > 1) yield { what: `${where}.${at}: left out`, condition: replaced([]) }
    for (const inner of mutate(part, `${where}.${at}`)) yield { ...inner, condition: replaced([inner.condition]) }
  }
}

/** A fifth up and a fifth down, for counts at least one. */
function* mutateThreshold(
  condition: Extract<Condition, { atLeast: unknown } | { below: unknown }>,
  where: string,
): Generator<Mutant> {
  const verb = 'atLeast' in condition ? 'atLeast' : 'below'
  const { fact, threshold } = 'atLeast' in condition ? condition.atLeast : condition.below
  const counted = ['dossiers', 'photos', 'places', 'words'].includes(threshold.unit)
  const step = counted ? 1 : threshold.value / 5
  for (const value of [threshold.value - step, threshold.value + Math.max(step, Number.EPSILON)]) {
    const changed = { fact, threshold: { ...threshold, value } }
    yield {
      what: `${where}: ${fact} ${verb} ${value} instead of ${threshold.value}`,
      condition: (verb === 'atLeast' ? { atLeast: changed } : { below: changed }) as Condition,
    }
  }
}

function* mutateRule(rule: Rule): Generator<{ what: string; rule: Rule }> {
  for (const [at, ruleCase] of rule.cases.entries()) {
    const withCase = (cases: Rule['cases']): Rule => ({ ...rule, cases })
    if (rule.cases.length > 1) {
      yield { what: `case ${at}: left out`, rule: withCase(rule.cases.filter((_, other) => other !== at)) }
    }
    for (const { what, condition } of mutate(ruleCase.when, `case ${at}`)) {
      const cases = rule.cases.map((item, other) => (other === at ? { ...item, when: condition } : item))
      yield { what, rule: withCase(cases) }
    }
  }
  if (!rule.settledWhen) return
  const { settledWhen: _, ...unsettled } = rule
  yield { what: 'settledWhen: left out', rule: unsettled }
  for (const { what, condition } of mutate(rule.settledWhen, 'settledWhen')) {
    yield { what, rule: { ...rule, settledWhen: condition } }
  }
}

function resultOf(item: RuleCase, packs: Packs): string | null {
  const concern = inspect(item.facts, item.book, packs).concerns.find(({ rule }) => rule === item.rule)
  if (!concern) return null
  return concern.settledBy === null ? concern.strength : 'settled'
}

const packs = loadPacks()
const fixtures = readRuleFixtures()

/** The rule alone with those that it refers to: the others cannot change what it says. */
function packsOf(rule: Rule): Packs {
  const needed = new Set([rule.id, ...referencesOf(rule)])
  return {
    ...packs,
    rules: packs.rules.flatMap((other) => (other.id === rule.id ? [rule] : needed.has(other.id) ? [other] : [])),
  }
}

describe('no condition can be changed unseen', () => {
  it.each(packs.rules.map((rule) => [rule.id, rule] as const))('%s', (id, rule) => {
    const cases = fixtures.get(id) ?? []
    const unseen: string[] = []
    for (const mutant of mutateRule(rule)) {
      const changed = packsOf(mutant.rule)
      if (cases.every((item) => resultOf(item, changed) === item.expect)) unseen.push(mutant.what)
    }
    expect(unseen).toEqual([])
  })
})
