/**
 * The rule language: what a condition may say. A tagged union, exactly one verb each, over facts of the catalogue.
 * The schema stands beside the types; unknown verbs, keys, facts and views are refused with their place.
 * Nothing here evaluates: see `evaluate.ts`.
 */
import * as v from 'valibot'
import { VIEW_IDS, type ViewId, type ViewStatus } from '../views.ts'
import { FACT_IDS, type FactId } from './fact-ids.ts'

/** A number with what it counts and why it stands where it does. */
export interface Threshold {
  readonly value: number
  readonly unit: string
  /** The reason and its source; "common practice, no source" and "from memory" are said so. */
  readonly reason: string
}

/** Where a phrase may stand. `specifics` are all values of the item specifics, `captions` the words beside the photos. */
export const TEXT_FIELDS = ['title', 'description', 'specifics', 'condition', 'payments', 'captions'] as const
export type TextField = (typeof TEXT_FIELDS)[number]

/**
 * What is unknown fails every verb but `unknown`; `not` turns that round, so `not` over an unknown fact holds.
 * Strings are compared as they are; `differ` compares as the facts' kind asks (a season overlaps its years).
 */
export type Condition =
  | { readonly all: readonly Condition[] }
  | { readonly any: readonly Condition[] }
  | { readonly not: Condition }
  | { readonly count: { readonly of: readonly Condition[]; readonly atLeast: number } }
  | { readonly is: { readonly fact: FactId; readonly value: string | boolean } }
  | { readonly oneOf: { readonly fact: FactId; readonly values: readonly string[] } }
  | { readonly known: { readonly fact: FactId } }
  | { readonly unknown: { readonly fact: FactId } }
  | { readonly atLeast: { readonly fact: FactId; readonly threshold: Threshold } }
  | { readonly below: { readonly fact: FactId; readonly threshold: Threshold } }
  /** Two known facts of one kind that do not fit together. */
  | { readonly differ: { readonly fact: FactId; readonly from: FactId } }
  /** A phrase of the list stands in one of the fields, and its scope does not cancel it. */
  | { readonly phrase: { readonly list: string; readonly in: readonly TextField[] } }
  | { readonly view: { readonly view: ViewId; readonly status: readonly ViewStatus[] } }
  /** Another rule is raised. References may not run in a circle. */
  | { readonly raised: { readonly rule: string } }

export const VERBS = [
  'all',
  'any',
  'not',
  'count',
  'is',
  'oneOf',
  'known',
  'unknown',
  'atLeast',
  'below',
  'differ',
  'phrase',
  'view',
  'raised',
] as const
export type Verb = (typeof VERBS)[number]

const sentence = v.pipe(v.string(), v.trim(), v.minLength(1, 'must not be empty'))

export const idSchema = v.pipe(
  v.string(),
  v.regex(/^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/, 'must be lower-case words joined by "-"'),
)

export const thresholdSchema = v.strictObject({
  value: v.pipe(v.number(), v.finite()),
  unit: sentence,
  reason: sentence,
})

const factSchema = v.picklist(FACT_IDS, (issue) => `no such fact: ${issue.received}`)
const viewSchema = v.picklist(VIEW_IDS, (issue) => `no such view: ${issue.received}`)
const statusSchema = v.picklist(['shown', 'missing', 'not-readable', 'cannot-tell'] as const)

function listOf<T extends v.GenericSchema>(item: T) {
  return v.pipe(v.array(item), v.minLength(1, 'must name at least one'))
}

const condition: v.GenericSchema<Condition> = v.lazy(chooseByVerb)

const schemaByVerb: Readonly<Record<Verb, v.GenericSchema<Condition>>> = {
  all: v.strictObject({ all: listOf(condition) }),
  any: v.strictObject({ any: listOf(condition) }),
  not: v.strictObject({ not: condition }),
  count: v.strictObject({
    count: v.strictObject({ of: listOf(condition), atLeast: v.pipe(v.number(), v.integer(), v.minValue(1)) }),
  }),
  is: v.strictObject({ is: v.strictObject({ fact: factSchema, value: v.union([v.string(), v.boolean()]) }) }),
  oneOf: v.strictObject({ oneOf: v.strictObject({ fact: factSchema, values: listOf(v.string()) }) }),
  known: v.strictObject({ known: v.strictObject({ fact: factSchema }) }),
  unknown: v.strictObject({ unknown: v.strictObject({ fact: factSchema }) }),
  atLeast: v.strictObject({ atLeast: v.strictObject({ fact: factSchema, threshold: thresholdSchema }) }),
  below: v.strictObject({ below: v.strictObject({ fact: factSchema, threshold: thresholdSchema }) }),
  differ: v.strictObject({ differ: v.strictObject({ fact: factSchema, from: factSchema }) }),
  phrase: v.strictObject({ phrase: v.strictObject({ list: idSchema, in: listOf(v.picklist(TEXT_FIELDS)) }) }),
  view: v.strictObject({ view: v.strictObject({ view: viewSchema, status: listOf(statusSchema) }) }),
  raised: v.strictObject({ raised: v.strictObject({ rule: idSchema }) }),
}

/** Exactly one known verb, or a fault that says so: a union's own message would name neither the verb nor the key. */
function chooseByVerb(input: unknown): v.GenericSchema<Condition> {
  const refuse = (message: string) => v.custom<Condition>(() => false, message)
  if (typeof input !== 'object' || input === null || Array.isArray(input)) return refuse('must be a condition')
  const keys = Object.keys(input)
  if (keys.length !== 1) return refuse(`a condition has exactly one verb, this one has ${keys.length}`)
  const verb = keys[0] as Verb
  return VERBS.includes(verb) ? schemaByVerb[verb] : refuse(`no such verb: "${verb}"`)
}

export const conditionSchema = condition

/** The one verb of a condition. */
export function verbOf(condition: Condition): Verb {
  return Object.keys(condition)[0] as Verb
}

/** The conditions directly inside this one. */
export function partsOf(condition: Condition): readonly Condition[] {
  if ('all' in condition) return condition.all
  if ('any' in condition) return condition.any
  if ('not' in condition) return [condition.not]
  if ('count' in condition) return condition.count.of
  return []
}

/** This condition and every one inside it. */
export function* walkCondition(condition: Condition): Generator<Condition> {
  yield condition
  for (const part of partsOf(condition)) yield* walkCondition(part)
}
