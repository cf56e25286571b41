/** What the desk's screens about rules ask of the world outside: rules, the buyer's own ones, and what outcomes taught. */
import type { RuleOutcomes } from '../../domain/grader-book.ts'
import type { Strength } from '../../domain/inspection.ts'
import type { FactId, FactKind } from '../../domain/rules/fact-ids.ts'
import type { OwnRule } from '../../domain/rules/own-rules.ts'
import type { PackFault } from '../../domain/rules/packs.ts'
import type { BrierScore } from '../../domain/weighing/score-brier.ts'
import type { Progress } from './desk-ports.ts'

export interface RuleLine {
  readonly id: string
  readonly title: string
  readonly why: string
  readonly settles: string
  readonly strength: Strength
  readonly group: string
  /** The group's name in the interface's language. */
  readonly groupName: string
  readonly likelihoodRatio: number
  readonly basis: 'assumed' | 'learned'
  /** Outcomes behind the weight. */
  readonly count: number
  /** What a learned weight says, with both propositions. */
  readonly words: string
  /** Written or taken in by the buyer. */
  readonly own: boolean
  readonly off: boolean
}

export interface RuleList {
  readonly rules: readonly RuleLine[]
  /** Own rules that cannot be read and are left out. */
  readonly faults: readonly PackFault[]
}

interface Named {
  readonly id: string
  readonly name: string
}

/** All that a condition can be put together from, with names in the interface's language. */
export interface RuleParts {
  readonly facts: readonly (Named & { readonly id: FactId; readonly kind: FactKind })[]
  readonly lists: readonly Named[]
  readonly groups: readonly Named[]
  readonly rules: readonly Named[]
}

export interface RulePreview {
  /** Dossiers that were looked at. */
  readonly looked: number
  readonly raised: readonly { readonly id: string; readonly title: string; readonly quotes: readonly string[] }[]
}

export interface Lesson {
  readonly rule: string
  readonly title: string
  readonly assumed: number
  readonly likelihoodRatio: number
  readonly basis: 'assumed' | 'learned'
  readonly words: string
  readonly outcomes: RuleOutcomes
}

export interface Lessons {
  readonly sound: number
  readonly wrong: number
  /** `null`: no dossier has ended yet whose weights were kept. */
  readonly score: BrierScore | null
  /** Rules that were raised in a dossier that has ended, the most often raised first. */
  readonly lessons: readonly Lesson[]
}

export interface RulePorts {
  listRules(): Promise<RuleList>
  readRuleParts(): Promise<RuleParts>
  openOwnRule(id: string): Promise<OwnRule | null>
  /** Faults of a rule as it stands in the form; `replaces`: the id under which it is stored, `null`: a new one. */
  checkOwnRule(draft: OwnRule, replaces: string | null): Promise<readonly PackFault[]>
  /** Answers the faults and writes nothing where there are any. */
  saveOwnRule(draft: OwnRule, replaces: string | null): Promise<readonly PackFault[]>
  deleteOwnRule(id: string): Promise<void>
  restoreOwnRule(id: string): Promise<void>
  switchRule(id: string, on: boolean): Promise<void>
  /** In which dossiers the rule would have been raised, by what was kept of them. */
  previewRule(draft: OwnRule, progress: Progress): Promise<RulePreview>
  /** Hands the buyer's own rules to the browser's download. */
  exportRules(): Promise<void>
  /** Checks the whole file first; with faults nothing is written. */
  importRules(
    file: File,
  ): Promise<{ readonly added: number; readonly known: number; readonly faults: readonly PackFault[] }>
  readLessons(): Promise<Lessons>
}
