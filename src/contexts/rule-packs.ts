/** The rule packs that the extension carries, in the words of one language. A fault in one of our own is a fault of the build. */
import { type Packs, parsePacks, textKey } from '../domain/rules/packs.ts'
import type { RuleLine } from '../ui/desk/desk-ports.ts'
import type { InterfaceTexts } from './interface-texts.ts'

const FILES = import.meta.glob(['../../rules/**/*.json', '!../../rules/**/*.schema.json'], {
  eager: true,
  import: 'default',
})

export function loadPacks(texts: InterfaceTexts): Packs {
  const files = Object.entries(FILES)
    .map(([path, pack]) => ({ file: path.replace(/^.*\/rules\//, ''), pack }))
    .sort((a, b) => (a.file < b.file ? -1 : 1))
  const { packs, faults } = parsePacks(files, { ...texts.catalogue }, texts.language)
  const [fault] = faults
  if (fault) throw new Error(`our own pack ${fault.file} has a fault at ${fault.path || 'its root'}: ${fault.fault}`)
  return packs
}

/** One line a rule for the desk: a rule with several cases stands by its strongest. */
export function listRuleLines(texts: InterfaceTexts): RuleLine[] {
  const { rules, translate } = loadPacks(texts)
  return rules.map((rule) => {
    const [strongest] = [...rule.cases].sort((a, b) => b.likelihoodRatio - a.likelihoodRatio)
    return {
      id: rule.id,
      title: translate(textKey(rule.id, 'title')),
      why: translate(textKey(rule.id, 'why')),
      settles: translate(textKey(rule.id, 'settles')),
      strength: strongest!.strength,
      group: rule.group,
      likelihoodRatio: strongest!.likelihoodRatio,
      basis: 'assumed',
      count: 0,
    }
  })
}
