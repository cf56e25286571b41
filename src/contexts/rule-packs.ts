/**
 * The rule packs that the extension carries together with the buyer's own rules, in the words of one language. A fault in one of
 * ours is a fault of the build; an own rule that cannot be read any more is left out and named, and the others go on.
 */
import { SWITCHED_OFF_ID } from '../domain/own-rules.ts'
import { type OwnRule, ownPackFiles, ruleOfFault, switchedOffFile } from '../domain/rules/own-rules.ts'
import { type PackFault, type PackFile, type Packs, parsePacks } from '../domain/rules/packs.ts'
import type { RulePack } from '../domain/rules/rule.ts'
import type { InterfaceTexts } from './interface-texts.ts'
import type { Stores } from './stores.ts'

const FILES = import.meta.glob(['../../rules/**/*.json', '!../../rules/**/*.schema.json'], {
  eager: true,
  import: 'default',
})

export const BUILT_IN: readonly PackFile[] = Object.entries(FILES)
  .map(([path, pack]) => ({ file: path.replace(/^.*\/rules\//, ''), pack }))
  .sort((a, b) => (a.file < b.file ? -1 : 1))

export interface OwnRules {
  readonly rules: readonly OwnRule[]
  /** Ids of rules that are switched off, own ones and ours. */
  readonly off: readonly string[]
}

export async function readOwnRules(stores: Pick<Stores, 'rulePacks'>): Promise<OwnRules> {
  const records = await stores.rulePacks.list()
  const off = records.find(({ id }) => id === SWITCHED_OFF_ID)?.pack.off ?? []
  const rules = records.flatMap(({ pack, phrases }) => pack.rules.map((rule) => ({ rule, phrases })))
  return { rules: rules.sort((a, b) => (a.rule.id < b.rule.id ? -1 : 1)), off }
}

/** `rule`: the own rule that the fault speaks of, `null` where it names none. */
export type OwnFault = PackFault & { readonly rule: string | null }

export interface LoadedPacks {
  readonly packs: Packs
  /** Own rules that were left out, each with its fault. */
  readonly faults: readonly OwnFault[]
}

/** Ours and the buyer's. `more` are files on trial: their faults are told and nothing of theirs is left out quietly. */
export function loadAllPacks(texts: InterfaceTexts, own: OwnRules, more: readonly PackFile[] = []): LoadedPacks {
  let rules = own.rules
  const dropped: OwnFault[] = []
  for (;;) {
    const ids = new Set([...builtInRules(), ...rules.map(({ rule }) => rule.id)])
    const files = [...BUILT_IN, ...ownPackFiles(rules), ...more, ...switchedOffFile(own.off, ids)]
    const { packs, faults } = parsePacks(files, { ...texts.catalogue }, texts.language)
    const [ours] = faults.filter(({ file }) => BUILT_IN.some((known) => known.file === file))
    if (ours) throw new Error(`our own pack ${ours.file} has a fault at ${ours.path || 'its root'}: ${ours.fault}`)
    const named = faults.map((fault) => ({ ...fault, rule: ruleOfFault(fault, rules) }))
    const onTrial = named.filter(({ file }) => more.some((tried) => tried.file === file))
    const stored = named.filter((fault) => !onTrial.includes(fault))
    if (stored.length === 0) return { packs, faults: [...dropped, ...onTrial] }
    const bad = new Set(stored.map(({ rule }) => rule))
    dropped.push(...stored)
    // A fault of the whole, such as a circle, names no single rule: then none of them can be trusted.
    rules = bad.has(null) ? [] : rules.filter(({ rule }) => !bad.has(rule.id))
  }
}

export async function loadPacks(texts: InterfaceTexts, stores: Pick<Stores, 'rulePacks'>): Promise<Packs> {
  return loadAllPacks(texts, await readOwnRules(stores)).packs
}

let builtInIds: readonly string[] | null = null

/** Ids of the rules that the extension carries. */
export function builtInRules(): readonly string[] {
  builtInIds ??= BUILT_IN.flatMap(({ pack }) => {
    const { kind, rules } = pack as RulePack
    return kind === 'rules' ? rules.map(({ id }) => id) : []
  })
  return builtInIds
}
