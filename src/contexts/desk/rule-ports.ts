/** The desk's rules: read, written, tried on the kept dossiers, shared, and what outcomes taught about them. Wiring only. */
import type { Dossier } from '../../domain/dossier.ts'
import { inspect } from '../../domain/inspect.ts'
import { SWITCHED_OFF_ID } from '../../domain/own-rules.ts'
import { referencesOf } from '../../domain/rules/check-rules.ts'
import { FACT_IDS, FACTS, factKey } from '../../domain/rules/fact-ids.ts'
import {
  idFromName,
  joinPacks,
  listsOf,
  nameOwnRule,
  type OwnRule,
  ownPackFiles,
  splitPacks,
  toOwnPack,
} from '../../domain/rules/own-rules.ts'
import { formatPack, type PackFault, type Packs, parsePack, textKey } from '../../domain/rules/packs.ts'
import type { RulePack } from '../../domain/rules/rule.ts'
import { createPhraseSearch } from '../../domain/rules/search-phrases.ts'
import { weighRule } from '../../domain/weighing/learn-weight.ts'
import { scoreEndings } from '../../domain/weighing/tally-endings.ts'
import { describeWeight } from '../../domain/weighing/verbal-scale.ts'
import { now } from '../../platform/clock.ts'
import { saveFile } from '../../platform/save-file.ts'
import { readEndings, readOutcomeTally } from '../../storage/outcomes.ts'
import type { Lesson, RulePorts } from '../../ui/desk/rule-ports.ts'
import type { InterfaceTexts } from '../interface-texts.ts'
import { builtInRules, loadAllPacks, type OwnRules, readOwnRules } from '../rule-packs.ts'
import type { Stores } from '../stores.ts'

/** Dossiers read at once while a rule is tried: some hundred kB, and the screen answers in between. Ours. */
const TRIED_AT_ONCE = 8
const QUOTES_SHOWN = 2
const TRIAL_FILE = 'user/trial.json'

export function createRulePorts(stores: Stores, texts: () => InterfaceTexts): RulePorts {
  const { database, rulePacks } = stores

  async function recordOf(id: string) {
    const records = await rulePacks.list()
    return records.find(({ pack }) => pack.rules.some((rule) => rule.id === id)) ?? null
  }

  function without(own: OwnRules, id: string | null): OwnRules {
    return { ...own, rules: own.rules.filter(({ rule }) => rule.id !== id) }
  }

  /** The draft under the id that it is stored by, among the other rules. */
  async function place(draft: OwnRule, replaces: string | null) {
    const own = without(await readOwnRules(stores), replaces)
    const taken = new Set([...builtInRules(), ...own.rules.map(({ rule }) => rule.id)])
    const id = replaces ?? idFromName(draft.rule.text?.title ?? '', taken)
    const named = nameOwnRule(draft, id)
    const loaded = loadAllPacks(texts(), { ...own, rules: [...own.rules, named] })
    const faults = loaded.faults.filter(({ rule }) => rule === id || rule === null)
    return { named, faults, packs: loaded.packs }
  }

  const write = async (named: OwnRule, replaces: string | null) => {
    const record = replaces === null ? null : await recordOf(replaces)
    const content = toOwnPack(named)
    if (record === null) await rulePacks.add(content)
    else await rulePacks.update(record.id, (current) => ({ ...current, ...content }))
  }

  return {
    async listRules() {
      const own = await readOwnRules(stores)
      const { packs, faults } = loadAllPacks(texts(), { ...own, off: [] })
      const { byRule } = await readOutcomeTally(database)
      const ours = new Set(builtInRules())
      const rules = packs.rules.map((rule) => {
        const [strongest] = [...rule.cases].sort((a, b) => b.likelihoodRatio - a.likelihoodRatio)
        const weight = weighRule(strongest!.likelihoodRatio, byRule[rule.id] ?? null)
        return {
          id: rule.id,
          title: packs.translate(textKey(rule.id, 'title')),
          why: packs.translate(textKey(rule.id, 'why')),
          settles: packs.translate(textKey(rule.id, 'settles')),
          strength: strongest!.strength,
          group: rule.group,
          groupName: groupName(rule.group, packs),
          ...weight,
          words: describeWeight(weight, packs.translate),
          own: !ours.has(rule.id),
          off: own.off.includes(rule.id),
        }
      })
      return { rules, faults }
    },

    async readRuleParts() {
      const { packs } = loadAllPacks(texts(), await readOwnRules(stores))
      const { translate } = packs
      const byName = <T extends { readonly name: string }>(items: readonly T[]) =>
        [...items].sort((a, b) => a.name.localeCompare(b.name, texts().language))
      const lists = packs.phraseLists.filter(({ id }) => listKey(id) in texts().catalogue)
      return {
        // In the order of the catalogue, which goes by subject.
        facts: FACT_IDS.map((id) => ({ id, kind: FACTS[id], name: translate(`fact_${factKey(id)}`) })),
        lists: byName(lists.map(({ id }) => ({ id, name: translate(listKey(id)) }))),
        groups: byName(
          [...new Set(packs.rules.map(({ group }) => group))].map((id) => ({ id, name: groupName(id, packs) })),
        ),
        rules: byName(packs.rules.map(({ id }) => ({ id, name: translate(textKey(id, 'title')) }))),
      }
    },

    async openOwnRule(id) {
      return (await readOwnRules(stores)).rules.find(({ rule }) => rule.id === id) ?? null
    },
    checkOwnRule: async (draft, replaces) => (await place(draft, replaces)).faults,
    async saveOwnRule(draft, replaces) {
      const { named, faults } = await place(draft, replaces)
      if (faults.length === 0) await write(named, replaces)
      return faults
    },
    async deleteOwnRule(id) {
      const record = await recordOf(id)
      if (record !== null) await rulePacks.remove(record.id)
    },
    async restoreOwnRule(id) {
      const all = await database.getAll('rulePacks')
      const gone = all.filter(({ pack, deletedAt }) => deletedAt !== null && pack.rules.some((rule) => rule.id === id))
      const last = gone.sort((a, b) => b.updatedAt.localeCompare(a.updatedAt))[0]
      if (last !== undefined) await rulePacks.restore(last.id)
    },
    async switchRule(id, on) {
      const record = await rulePacks.get(SWITCHED_OFF_ID)
      const before = record?.deletedAt === null ? (record.pack.off ?? []) : []
      const off = on ? before.filter((other) => other !== id) : [...new Set([...before, id])].sort()
      const pack: RulePack = {
        schemaVersion: 1,
        kind: 'rules',
        id: 'switched-off',
        about: 'Switched off.',
        rules: [],
        off,
      }
      if (record === null) await rulePacks.add({ pack, phrases: [] }, SWITCHED_OFF_ID)
      else await rulePacks.update(SWITCHED_OFF_ID, (current) => ({ ...current, pack, deletedAt: null }))
    },

    async previewRule(draft, { signal, onProgress }) {
      const { named, faults, packs } = await place(draft, null)
      if (faults.length > 0) return { looked: 0, raised: [] }
      const trial = onlyRule(named, packs)
      const book = await stores.readBook()
      const ids = (await database.getAllKeys('dossiers')) as string[]
      const raised: { id: string; title: string; quotes: string[] }[] = []
      let looked = 0
      for (let from = 0; from < ids.length; from += TRIED_AT_ONCE) {
        signal.throwIfAborted()
        const some = await Promise.all(ids.slice(from, from + TRIED_AT_ONCE).map((id) => database.get('dossiers', id)))
        for (const dossier of some) {
          if (dossier === undefined || dossier.deletedAt !== null) continue
          looked++
          const concern = inspect(factsOf(dossier), { ...book, settled: {} }, trial).concerns.find(
            ({ rule }) => rule === named.rule.id,
          )
          if (concern === undefined) continue
          const quotes = concern.evidence.slice(0, QUOTES_SHOWN).map(({ quote }) => quote)
          raised.push({ id: dossier.id, title: dossier.title, quotes })
        }
        onProgress((from + some.length) / ids.length)
        // The screen draws and takes a press of "Cancel" here.
        await new Promise((resolve) => setTimeout(resolve))
      }
      return { looked, raised }
    },

    async exportRules() {
      const { rules } = await readOwnRules(stores)
      const blob = new Blob([formatPack(joinPacks(rules))], { type: 'application/json' })
      saveFile(`touchstone-rules-${now().slice(0, 10)}.json`, blob)
    },

    async importRules(file) {
      const refused = (path: string, fault: string) => ({
        added: 0,
        known: 0,
        faults: [{ file: file.name, path, fault }],
      })
      let raw: unknown
      try {
        raw = JSON.parse(await file.text())
      } catch {
        return refused('', 'is not JSON')
      }
      const items: readonly unknown[] = Array.isArray(raw) ? raw : [raw]
      const read = items.map((item, at) => {
        const { pack, faults } = parsePack(file.name, item)
        const fits = pack === null || pack.kind === 'rules' || pack.kind === 'phrases'
        const kind = { file: file.name, path: 'kind', fault: 'holds no rules' }
        return { pack, faults: prefixed(fits ? faults : [kind], Array.isArray(raw) ? `${at}` : '') }
      })
      const faults = read.flatMap((one) => one.faults)
      if (faults.length > 0) return { added: 0, known: 0, faults }
      const own = await readOwnRules(stores)
      const likeness = (one: OwnRule) => formatPack(nameOwnRule(one, one.rule.id))
      const present = new Set(own.rules.map(likeness))
      const all = splitPacks(read.map((one) => one.pack))
      const fresh = all.filter((one) => !present.has(likeness(one))).map((one) => nameOwnRule(one, one.rule.id))
      const trial = ownPackFiles(fresh).map(({ file: name, pack }) => ({
        file: name.startsWith('user/words/') ? name : TRIAL_FILE,
        pack: name.startsWith('user/words/') ? pack : { ...(pack as RulePack), id: 'trial' },
      }))
      const found = loadAllPacks(texts(), { ...own, off: [] }, trial).faults.filter((fault) =>
        trial.some(({ file: name }) => name === fault.file),
      )
      if (found.length > 0) return { added: 0, known: 0, faults: found.map((fault) => ({ ...fault, file: file.name })) }
      for (const one of fresh) await rulePacks.add(toOwnPack(one))
      return { added: fresh.length, known: all.length - fresh.length, faults: [] }
    },

    async readLessons() {
      const [tally, endings, own] = await Promise.all([
        readOutcomeTally(database),
        readEndings(database),
        readOwnRules(stores),
      ])
      const { packs } = loadAllPacks(texts(), { ...own, off: [] })
      const lessons = packs.rules.flatMap((rule): Lesson[] => {
        const outcomes = tally.byRule[rule.id]
        if (outcomes === undefined || outcomes.raisedWrong + outcomes.raisedSound === 0) return []
        const assumed = Math.max(...rule.cases.map(({ likelihoodRatio }) => likelihoodRatio))
        const weight = weighRule(assumed, outcomes)
        const title = packs.translate(textKey(rule.id, 'title'))
        return [{ rule: rule.id, title, assumed, ...weight, words: describeWeight(weight, packs.translate), outcomes }]
      })
      const raised = ({ outcomes }: Lesson) => outcomes.raisedWrong + outcomes.raisedSound
      return {
        sound: tally.sound,
        wrong: tally.wrong,
        score: scoreEndings(endings),
        lessons: lessons.sort((a, b) => raised(b) - raised(a)),
      }
    },
  }
}

const listKey = (id: string) => `list_${id.replace(/-/g, '_')}`

/** Groups of the buyer's own making are called by their rule. */
function groupName(group: string, { translate, rules }: Packs): string {
  const own = rules.find(({ id }) => id === group)
  return own?.text
    ? translate(textKey(group, 'title'))
    : translateOr(translate, `group_${group.replace(/-/g, '_')}`, group)
}

function translateOr(translate: Packs['translate'], key: string, otherwise: string): string {
  try {
    return translate(key)
  } catch {
    return otherwise
  }
}

function prefixed(faults: readonly PackFault[], at: string): PackFault[] {
  return faults.map((fault) => ({ ...fault, path: [at, fault.path].filter(Boolean).join('.') }))
}

/** The rule alone with those that it refers to, and only the phrases that these look for: trying it on a dossier stays cheap. */
function onlyRule({ rule }: OwnRule, packs: Packs): Packs {
  const byId = new Map(packs.rules.map((one) => [one.id, one]))
  const needed = new Set<string>()
  const take = (id: string) => {
    const one = byId.get(id)
    if (one === undefined || needed.has(id)) return
    needed.add(id)
    referencesOf(one).forEach(take)
  }
  take(rule.id)
  const rules = packs.rules.filter(({ id }) => needed.has(id))
  const lists = new Set(rules.flatMap((one) => [...listsOf(one)]))
  const phraseLists = packs.phraseLists.filter(({ id }) => lists.has(id))
  return { ...packs, rules, phraseLists, searchPhrases: createPhraseSearch(phraseLists, packs.vocabulary.cues) }
}

function factsOf({ inspection, photos, viewCorrections, capturedAt }: Dossier) {
  return {
    listing: inspection.listing,
    photos: photos.flatMap(({ facts }) => facts ?? []),
    valuation: inspection.valuation,
    traces: [],
    messageLanguage: 'en',
    messageMaxLength: null,
    viewCorrections,
    now: capturedAt,
  }
}
