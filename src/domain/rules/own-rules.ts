/**
 * The buyer's own rules between form, store, file and `parsePacks`: one rule with the phrase lists that only it uses.
 * Pure. What may stand in a rule is the schemas' business; nothing here lets more through.
 */
import type { OwnRulePack } from '../own-rules.ts'
import { type Condition, walkCondition } from './conditions.ts'
import { FACTS, type FactId } from './fact-ids.ts'
import type { PackFault, PackFile } from './packs.ts'
import type { PhrasePack } from './phrase-pack.ts'
import type { Rule, RulePack } from './rule.ts'

export interface OwnRule {
  readonly rule: Rule
  readonly phrases: readonly PhrasePack[]
}

/** Sorted behind every file of ours and before the list of what is switched off. */
const OWN_FILE = 'user/rules.json'
const OFF_FILE = 'user~off.json'

/** What a fact of words can be, where that is a closed list. */
export const FACT_VALUES: Readonly<Partial<Record<FactId, readonly string[]>>> = {
  'claim.encapsulation': ['raw', 'encapsulated', 'unclear'],
  'claim.holder-kind': ['sealed', 'screw-down', 'one-touch', 'toploader', 'semi-rigid', 'sleeve'],
  'claim.reprint': ['stated', 'hedged', 'ambiguous', 'no'],
  'claim.object': ['card', 'lot', 'sealed-product', 'digital', 'other'],
  'claim.period': ['vintage', 'later'],
  'grader.status': ['accepted', 'conditional', 'not-accepted', 'unknown'],
  'title.encapsulation': ['raw', 'encapsulated', 'unclear'],
  'title.reprint': ['stated', 'hedged', 'ambiguous', 'no'],
  'specifics.encapsulation': ['raw', 'encapsulated', 'unclear'],
  'description.encapsulation': ['raw', 'encapsulated', 'unclear'],
  'description.reprint': ['stated', 'hedged', 'ambiguous', 'no'],
  'listing.sale-format': ['auction', 'fixed', 'classified'],
  'listing.price-kind': ['fixed', 'current-bid', 'starting-bid', 'asking', 'sold'],
  'listing.returns': ['accepted', 'refused'],
  'worth.basis': ['sales', 'risky-issue', 'asking-price'],
  'photos.holder-kind': ['sealed', 'screw-down', 'one-touch', 'toploader', 'semi-rigid', 'sleeve'],
}

export type FactVerb = 'is' | 'oneOf' | 'known' | 'unknown' | 'atLeast' | 'below' | 'differ'

/** What can be said of a fact; two facts can be compared only where they are of one kind of writing. */
export function verbsOf(fact: FactId): readonly FactVerb[] {
  const kind = FACTS[fact]
  if (kind === 'number') return ['atLeast', 'below', 'known', 'unknown']
  if (kind === 'flag') return ['is', 'known', 'unknown']
  if (kind === 'text') return ['is', 'oneOf', 'known', 'unknown']
  return ['is', 'differ', 'known', 'unknown']
}

/** An id of small letters, digits and hyphens from a name in any language; one that stands already gets a number. */
export function idFromName(name: string, taken: ReadonlySet<string>): string {
  const words = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter(Boolean)
  const stem = ['own', ...words].join('-').slice(0, 60).replace(/-+$/, '')
  let id = stem
  for (let number = 2; taken.has(id); number++) id = `${stem}-${number}`
  return id
}

/** The condition with every own list called as `rename` says; other conditions stay as they are. */
function renameLists(condition: Condition, rename: ReadonlyMap<string, string>): Condition {
  if ('all' in condition) return { all: condition.all.map((part) => renameLists(part, rename)) }
  if ('any' in condition) return { any: condition.any.map((part) => renameLists(part, rename)) }
  if ('not' in condition) return { not: renameLists(condition.not, rename) }
  if ('count' in condition) {
    const { of, atLeast } = condition.count
    return { count: { of: of.map((part) => renameLists(part, rename)), atLeast } }
  }
  if ('phrase' in condition) {
    const { list, in: fields } = condition.phrase
    return { phrase: { list: rename.get(list) ?? list, in: fields } }
  }
  return condition
}

function conditionsOf({ cases, settledWhen }: Rule): readonly Condition[] {
  return [...cases.map((ruleCase) => ruleCase.when), ...(settledWhen ? [settledWhen] : [])]
}

export function listsOf(rule: Rule): ReadonlySet<string> {
  const lists = new Set<string>()
  for (const root of conditionsOf(rule))
    for (const condition of walkCondition(root)) if ('phrase' in condition) lists.add(condition.phrase.list)
  return lists
}

/** The rule under `id`, with its lists called after it, so that two rules never share one; lists that it does not use fall away. */
export function nameOwnRule({ rule, phrases }: OwnRule, id: string): OwnRule {
  const used = listsOf(rule)
  const kept = phrases.filter((list) => used.has(list.id))
  const rename = new Map(kept.map((list, at) => [list.id, `${id}-words-${at + 1}`]))
  const cases = rule.cases.map((ruleCase) => ({ ...ruleCase, when: renameLists(ruleCase.when, rename) }))
  const settledWhen = rule.settledWhen && renameLists(rule.settledWhen, rename)
  return {
    rule: {
      ...rule,
      id,
      group: rule.group === rule.id ? id : rule.group,
      cases,
      ...(settledWhen ? { settledWhen } : {}),
    },
    phrases: kept.map((list) => ({ ...list, id: rename.get(list.id)! })),
  }
}

export function toOwnPack({ rule, phrases }: OwnRule): OwnRulePack {
  return { pack: rulePackOf(rule.id, [rule]), phrases }
}

function rulePackOf(id: string, rules: readonly Rule[]): RulePack {
  return { schemaVersion: 1, kind: 'rules', id, about: 'Rules of the buyer’s own.', rules }
}

/** Own rules as one pack, so that they may refer to each other in any order, and each phrase list as a file of its own. */
export function ownPackFiles(own: readonly OwnRule[]): PackFile[] {
  if (own.length === 0) return []
  const rules = own.map(({ rule }) => rule)
  return [
    { file: OWN_FILE, pack: rulePackOf('own-rules', rules) },
    ...own.flatMap(({ rule, phrases }) =>
      phrases.map((list) => ({ file: `user/words/${rule.id}/${list.id}.json`, pack: list })),
    ),
  ]
}

/** What is switched off, of the rules that there are: a rule that a later version no longer has is no fault of the buyer's. */
export function switchedOffFile(off: readonly string[], present: ReadonlySet<string>): PackFile[] {
  const known = off.filter((id) => present.has(id))
  if (known.length === 0) return []
  return [{ file: OFF_FILE, pack: { ...rulePackOf('switched-off', []), off: known } }]
}

/** Which of the own rules a fault speaks of; `null`: of none by name. */
export function ruleOfFault({ file, path }: PackFault, own: readonly OwnRule[]): string | null {
  const words = /^user\/words\/([^/]+)\//.exec(file)
  if (words) return words[1]!
  if (file !== OWN_FILE) return null
  const place = /^rules\.([^.]+)/.exec(path)?.[1]
  if (place === undefined) return null
  return own[Number(place)]?.rule.id ?? place
}

/** A shared file's packs taken apart into single rules; phrase lists go with the rules that name them. */
export function splitPacks(packs: readonly unknown[]): OwnRule[] {
  const lists = new Map<string, PhrasePack>()
  const rules: Rule[] = []
  for (const pack of packs as readonly (RulePack | PhrasePack)[]) {
    if (pack.kind === 'phrases') lists.set(pack.id, pack)
    else rules.push(...pack.rules)
  }
  return rules.map((rule) => ({ rule, phrases: [...listsOf(rule)].flatMap((id) => lists.get(id) ?? []) }))
}

/** What a shared file holds. */
export function joinPacks(own: readonly OwnRule[]): unknown[] {
  return ownPackFiles(own).map(({ pack }) => pack)
}
