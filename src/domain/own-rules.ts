/** The buyer's own rules as they are stored: a pack of rules with the phrase lists that it brings along. */
import type { PhrasePack } from './rules/phrase-pack.ts'
import type { RulePack } from './rules/rule.ts'

export interface OwnRulePack {
  readonly pack: RulePack
  readonly phrases: readonly PhrasePack[]
}

/** The record that holds what is switched off: a pack without rules, loaded last. */
export const SWITCHED_OFF_ID = 'switched-off'
