/**
 * What a schema cannot see: ids twice, references into nothing or in a circle, conditions that no offer can meet.
 * Each fault names its place; a pack with a fault is refused whole.
 */
import { type Condition, verbOf, walkCondition } from './conditions.ts'
import { FACTS, type FactId } from './fact-ids.ts'
import type { Rule, RulePack } from './rule.ts'

export interface PlacedFault {
  readonly path: string
  readonly fault: string
}

export interface KnownIds {
  readonly phraseLists: ReadonlySet<string>
  /** Rules of this pack and of those before it. */
  readonly rules: ReadonlySet<string>
}

const NUMBERS: readonly string[] = ['number']

function isNumber(fact: FactId): boolean {
  return NUMBERS.includes(FACTS[fact])
}

function checkLeaf(condition: Condition, known: KnownIds): string | null {
  if ('phrase' in condition && !known.phraseLists.has(condition.phrase.list)) {
    return `no such phrase list: "${condition.phrase.list}"`
  }
  if ('raised' in condition && !known.rules.has(condition.raised.rule))
    return `no such rule: "${condition.raised.rule}"`
  if ('atLeast' in condition && !isNumber(condition.atLeast.fact)) return `"${condition.atLeast.fact}" is no number`
  if ('below' in condition && !isNumber(condition.below.fact)) return `"${condition.below.fact}" is no number`
  if ('is' in condition) {
    const { fact, value } = condition.is
    if (FACTS[fact] === 'flag' && typeof value !== 'boolean') return `"${fact}" is true or false`
    if (FACTS[fact] !== 'flag' && typeof value === 'boolean') return `"${fact}" is neither true nor false`
    if (isNumber(fact)) return `"${fact}" is a number: use atLeast or below`
  }
  if ('differ' in condition && FACTS[condition.differ.fact] !== FACTS[condition.differ.from]) {
    return `"${condition.differ.fact}" and "${condition.differ.from}" cannot be compared`
  }
  if ('count' in condition && condition.count.atLeast > condition.count.of.length) {
    return `asks for ${condition.count.atLeast} of ${condition.count.of.length}`
  }
  return null
}

/** Parts of one `all` that can never hold together; `null` where none is seen. No solver: it finds the plain slips. */
export function findContradiction(parts: readonly Condition[]): string | null {
  const said = new Set(parts.map((part) => JSON.stringify(part)))
  const values = new Map<FactId, string>()
  const atLeast = new Map<FactId, number>()
  const below = new Map<FactId, number>()
  const views = new Map<string, ReadonlySet<string>>()
  for (const part of parts) {
    if ('not' in part && said.has(JSON.stringify(part.not))) return `${verbOf(part.not)} both holds and does not`
    if ('is' in part) {
      const value = String(part.is.value)
      const before = values.get(part.is.fact)
      if (before !== undefined && before !== value) return `"${part.is.fact}" is both "${before}" and "${value}"`
      values.set(part.is.fact, value)
    }
    if ('unknown' in part && parts.some((other) => factOf(other) === part.unknown.fact && !('unknown' in other))) {
      return `"${part.unknown.fact}" is both unknown and known`
    }
    if ('atLeast' in part) atLeast.set(part.atLeast.fact, part.atLeast.threshold.value)
    if ('below' in part) below.set(part.below.fact, part.below.threshold.value)
    if ('view' in part) {
      const before = views.get(part.view.view)
      const both = part.view.status.filter((status) => !before || before.has(status))
      if (both.length === 0) return `the view "${part.view.view}" has two statuses`
      views.set(part.view.view, new Set(both))
    }
  }
  for (const [fact, low] of atLeast) {
    const high = below.get(fact)
    if (high !== undefined && low >= high) return `"${fact}" is at least ${low} and below ${high}`
  }
  return null
}

function factOf(condition: Condition): FactId | null {
  const inside = Object.values(condition)[0] as { fact?: FactId }
  return typeof inside === 'object' && inside !== null && 'fact' in inside ? (inside.fact ?? null) : null
}

function* conditionsOf(rule: Rule, at: number): Generator<{ path: string; condition: Condition }> {
  for (const [index, ruleCase] of rule.cases.entries()) {
    for (const condition of walkCondition(ruleCase.when)) yield { path: `rules.${at}.cases.${index}.when`, condition }
  }
  if (rule.settledWhen) {
    for (const condition of walkCondition(rule.settledWhen)) yield { path: `rules.${at}.settledWhen`, condition }
  }
}

export function checkRulePack(
  pack: RulePack,
  before: ReadonlySet<string>,
  phraseLists: ReadonlySet<string>,
): PlacedFault[] {
  const faults: PlacedFault[] = []
  const own = new Set<string>()
  for (const [at, rule] of pack.rules.entries()) {
    if (own.has(rule.id) || before.has(rule.id))
      faults.push({ path: `rules.${at}.id`, fault: `the id "${rule.id}" stands twice` })
    own.add(rule.id)
  }
  const known: KnownIds = { phraseLists, rules: new Set([...before, ...own]) }
  for (const [at, rule] of pack.rules.entries()) {
    for (const { path, condition } of conditionsOf(rule, at)) {
      const fault = checkLeaf(condition, known)
      if (fault !== null) faults.push({ path, fault })
      const contradiction = 'all' in condition ? findContradiction(condition.all) : null
      if (contradiction !== null) faults.push({ path, fault: `can never hold: ${contradiction}` })
    }
    for (const [place, id] of (rule.supersededBy ?? []).entries()) {
      const path = `rules.${at}.supersededBy.${place}`
      if (id === rule.id) faults.push({ path, fault: 'a rule cannot supersede itself' })
      else if (!known.rules.has(id)) faults.push({ path, fault: `no such rule: "${id}"` })
    }
  }
  for (const [at, id] of (pack.off ?? []).entries()) {
    if (!before.has(id)) faults.push({ path: `off.${at}`, fault: `no such rule in an earlier pack: "${id}"` })
  }
  return faults
}

/** Rules that this one refers to, in its conditions or as those that supersede it. */
export function referencesOf(rule: Rule): readonly string[] {
  const ids: string[] = [...(rule.supersededBy ?? [])]
  for (const { condition } of conditionsOf(rule, 0)) if ('raised' in condition) ids.push(condition.raised.rule)
  return ids
}

/**
 * The rules with every one after those that it refers to, else in their order.
 * @returns the circle's ids where references run in one.
 */
export function orderRules(rules: readonly Rule[]): {
  readonly rules: readonly Rule[]
  readonly circle: readonly string[]
} {
  const byId = new Map(rules.map((rule) => [rule.id, rule]))
  const ordered: Rule[] = []
  const state = new Map<string, 'open' | 'done'>()
  function visit(rule: Rule, trail: readonly string[]): readonly string[] {
    if (state.get(rule.id) === 'done') return []
    if (state.get(rule.id) === 'open') return [...trail.slice(trail.indexOf(rule.id)), rule.id]
    state.set(rule.id, 'open')
    for (const id of referencesOf(rule)) {
      const next = byId.get(id)
      const circle = next ? visit(next, [...trail, rule.id]) : []
      if (circle.length > 0) return circle
    }
    state.set(rule.id, 'done')
    ordered.push(rule)
    return []
  }
  for (const rule of rules) {
    const circle = visit(rule, [])
    if (circle.length > 0) return { rules: [], circle }
  }
  return { rules: ordered, circle: [] }
}
