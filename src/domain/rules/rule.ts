/**
 * One rule and one pack of rules as they stand in `rules/*.json`: types and the schema beside them.
 * Weights are assumed likelihood ratios from practice; nothing here says that they were measured.
 */
import * as v from 'valibot'
import type { Strength } from '../inspection.ts'
import { VIEW_IDS, type ViewId } from '../views.ts'
import { type Condition, conditionSchema, idSchema } from './conditions.ts'

/** The cases of a rule are tried in their order; the first that holds raises the concern with its strength. */
export interface RuleCase {
  readonly strength: Strength
  /** Assumed: how much likelier the sign is where something is wrong than where nothing is. Above 1. */
  readonly likelihoodRatio: number
  readonly when: Condition
}

export interface RuleText {
  readonly title: string
  readonly why: string
  readonly settles: string
}

export interface Rule {
  readonly id: string
  /** Rules that depend on each other; the group counts once, by its strongest. */
  readonly group: string
  /** Where the sign is known from. */
  readonly source: string
  /** Views whose arrival would help to settle it. */
  readonly request: readonly ViewId[]
  readonly cases: readonly RuleCase[]
  /** A fact that settles the concern although the sign still stands. */
  readonly settledWhen?: Condition
  /** Views that a photo shows but cannot be taken at its word while the concern is open: they are asked for again. */
  readonly doubts?: readonly ViewId[]
  /** Where one of these is raised and is at least as strong, it says the same and more: this rule then raises no concern of its own. */
  readonly supersededBy?: readonly string[]
  /** A user's pack carries its own words; the built-in ones have theirs in `_locales`. */
  readonly text?: RuleText
}

export interface RulePack {
  readonly schemaVersion: 1
  readonly kind: 'rules'
  readonly id: string
  readonly about: string
  readonly rules: readonly Rule[]
  /** Rules of earlier packs that this pack switches off. */
  readonly off?: readonly string[]
}

const sentence = v.pipe(v.string(), v.trim(), v.minLength(1, 'must not be empty'))

const caseSchema = v.strictObject({
  strength: v.picklist(['strong', 'medium', 'weak'] as const),
  // Above 1, since a sign that speaks for the listing raises no concern; 1000 is more than any assumed weight may claim.
  likelihoodRatio: v.pipe(
    v.number(),
    v.gtValue(1, 'must be above 1'),
    v.maxValue(1000, 'an assumed weight ends at 1000'),
  ),
  when: conditionSchema,
})

const ruleSchema = v.strictObject({
  id: idSchema,
  group: idSchema,
  source: sentence,
  request: v.array(v.picklist(VIEW_IDS, (issue) => `no such view: ${issue.received}`)),
  cases: v.pipe(v.array(caseSchema), v.minLength(1, 'a rule needs a case')),
  settledWhen: v.optional(conditionSchema),
  doubts: v.optional(
    v.pipe(v.array(v.picklist(VIEW_IDS, (issue) => `no such view: ${issue.received}`)), v.minLength(1)),
  ),
  supersededBy: v.optional(v.pipe(v.array(idSchema), v.minLength(1))),
  text: v.optional(v.strictObject({ title: sentence, why: sentence, settles: sentence })),
})

export const rulePackSchema: v.GenericSchema<RulePack> = v.strictObject({
  schemaVersion: v.literal(1),
  kind: v.literal('rules'),
  id: idSchema,
  about: sentence,
  rules: v.array(ruleSchema),
  off: v.optional(v.array(idSchema)),
})
