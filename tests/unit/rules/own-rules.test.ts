import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, it } from 'vitest'
import { createRulePorts } from '../../../src/contexts/desk/rule-ports.ts'
import { interfaceTexts } from '../../../src/contexts/interface-texts.ts'
import { loadAllPacks, readOwnRules } from '../../../src/contexts/rule-packs.ts'
import { openStores, type Stores } from '../../../src/contexts/stores.ts'
import { inspect } from '../../../src/domain/inspect.ts'
import { idFromName, joinPacks, nameOwnRule, type OwnRule, verbsOf } from '../../../src/domain/rules/own-rules.ts'
import { formatPack } from '../../../src/domain/rules/packs.ts'
import { sampleDraft } from '../../storage/sample-dossier.ts'
import { BOOK, FACTS, LISTING } from './sample-facts.ts'

const texts = interfaceTexts('en')

const RULE: OwnRule = {
  rule: {
    id: 'new-rule',
    group: 'new-rule',
    source: 'three purchases of mine',
    request: ['back'],
    cases: [
      {
        strength: 'medium',
        likelihoodRatio: 3,
        when: {
          all: [
            { phrase: { list: 'new-words-1', in: ['title', 'description'] } },
            { not: { is: { fact: 'claim.encapsulation', value: 'encapsulated' } } },
          ],
        },
      },
    ],
    text: { title: 'Smoke-free home praised', why: 'Little is shown of the card.', settles: 'More photos.' },
  },
  phrases: [
    {
      schemaVersion: 1,
      kind: 'phrases',
      id: 'new-words-1',
      about: 'Words of an own rule.',
      negation: 'kept',
      mention: 'cancels',
      phrases: { en: ['smoke free home'], de: ['nichtraucherhaushalt'] },
    },
  ],
}
const OWN_ID = 'own-smoke-free-home-praised'

let stores: Stores
let ports: ReturnType<typeof createRulePorts>

beforeEach(async () => {
  stores?.database.close()
  await new Promise((resolve) => {
    indexedDB.deleteDatabase('touchstone').onsuccess = resolve
  })
  stores = await openStores()
  ports = createRulePorts(stores, () => texts)
})

const keep = (description: string) => {
  const draft = sampleDraft()
  const listing = { ...LISTING, description }
  return stores.dossiers.keep({ ...draft, inspection: { ...draft.inspection, listing } })
}
const progress = { signal: new AbortController().signal, onProgress: () => {} }
const raisedWith = async (description: string) => {
  const { packs } = loadAllPacks(texts, await readOwnRules(stores))
  const { concerns } = inspect({ ...FACTS, listing: { ...LISTING, description } }, BOOK, packs)
  return concerns.map(({ rule }) => rule)
}

describe('a rule of the buyer', () => {
  it('is saved, raised beside ours, changed, deleted and brought back', async () => {
    expect(await ports.saveOwnRule(RULE, null)).toEqual([])
    expect(await raisedWith('Sold from a smoke free home.')).toEqual([OWN_ID])
    const stored = (await ports.openOwnRule(OWN_ID))!
    const text = { ...stored.rule.text!, title: 'Home praised' }
    expect(await ports.saveOwnRule({ ...stored, rule: { ...stored.rule, text } }, OWN_ID)).toEqual([])
    expect((await ports.listRules()).rules.filter(({ own }) => own)).toMatchObject([
      { id: OWN_ID, title: 'Home praised' },
    ])
    await ports.deleteOwnRule(OWN_ID)
    expect(await raisedWith('Sold from a smoke free home.')).toEqual([])
    await ports.restoreOwnRule(OWN_ID)
    expect(await raisedWith('Aus einem Nichtraucherhaushalt.')).toEqual([OWN_ID])
  })

  it('is tried on the kept dossiers before it is saved', async () => {
    const praised = await keep('From a smoke free home, as always.')
    await keep('Light wear at two corners.')
    const { looked, raised } = await ports.previewRule(RULE, progress)
    expect(looked).toBe(2)
    expect(raised).toEqual([{ id: praised.id, title: praised.title, quotes: ['smoke free home'] }])
  })

  it('is stopped while it is tried', async () => {
    await keep('From a smoke free home.')
    const controller = new AbortController()
    controller.abort()
    await expect(ports.previewRule(RULE, { ...progress, signal: controller.signal })).rejects.toThrow()
  })

  it('with a fault is not saved, and its place is named', async () => {
    const cases = [{ ...RULE.rule.cases[0]!, when: { all: [] } }]
    const faults = await ports.saveOwnRule({ ...RULE, rule: { ...RULE.rule, cases } }, null)
    expect(faults).toMatchObject([{ path: 'rules.0.cases.0.when.all', fault: 'must name at least one' }])
    expect((await readOwnRules(stores)).rules).toEqual([])
  })

  it('that can no longer be read is left out and named, and the others stay', async () => {
    await ports.saveOwnRule(RULE, null)
    const old = { ...RULE.rule, id: 'own-old', cases: [{ ...RULE.rule.cases[0]!, when: { known: { fact: 'gone' } } }] }
    const pack = { schemaVersion: 1, kind: 'rules', id: 'own-old', about: 'x', rules: [old] }
    await stores.rulePacks.add({ pack: pack as never, phrases: [] })
    const { rules, faults } = await ports.listRules()
    expect(rules.filter(({ own }) => own).map(({ id }) => id)).toEqual([OWN_ID])
    expect(faults).toMatchObject([{ rule: 'own-old', fault: expect.stringContaining('no such fact') }])
  })
})

it('any rule can be switched off and on again, and one that is gone is no fault', async () => {
  const refused = { ...LISTING, returns: 'refused' as const }
  const raised = async () => {
    const { packs, faults } = loadAllPacks(texts, await readOwnRules(stores))
    expect(faults).toEqual([])
    return inspect({ ...FACTS, listing: refused }, BOOK, packs).concerns.map(({ rule }) => rule)
  }
  expect(await raised()).toEqual(['no-returns'])
  await ports.switchRule('no-returns', false)
  await ports.switchRule('rule-of-an-older-version', false)
  expect(await raised()).toEqual([])
  expect((await ports.listRules()).rules.find(({ id }) => id === 'no-returns')?.off).toBe(true)
  await ports.switchRule('no-returns', true)
  expect(await raised()).toEqual(['no-returns'])
})

describe('a file of rules', () => {
  const file = (content: unknown) =>
    new File([typeof content === 'string' ? content : JSON.stringify(content)], 'mine.json')

  it('comes out as it went in, and is known the second time', async () => {
    await ports.saveOwnRule(RULE, null)
    const { rules } = await readOwnRules(stores)
    const text = formatPack(joinPacks(rules))
    expect(await ports.importRules(file(text))).toEqual({ added: 0, known: 1, faults: [] })
    await ports.deleteOwnRule(OWN_ID)
    expect(await ports.importRules(file(text))).toEqual({ added: 1, known: 0, faults: [] })
    expect(await raisedWith('Sold from a smoke free home.')).toEqual([OWN_ID])
    expect(formatPack(joinPacks((await readOwnRules(stores)).rules))).toBe(text)
  })

  it.each<[string, unknown, string, string]>([
    ['no JSON', '{', '', 'is not JSON'],
    ['another kind of pack', [{ kind: 'wishes' }], '0.kind', 'no such kind of pack: "wishes"'],
    [
      'an unknown verb',
      [
        {
          schemaVersion: 1,
          kind: 'rules',
          id: 'x',
          about: 'x',
          rules: [{ ...RULE.rule, cases: [{ ...RULE.rule.cases[0], when: { matches: 1 } }] }],
        },
      ],
      '0.rules.0.cases.0.when',
      'no such verb: "matches"',
    ],
    [
      'an id of ours',
      [
        {
          schemaVersion: 1,
          kind: 'rules',
          id: 'x',
          about: 'x',
          rules: [
            {
              ...RULE.rule,
              id: 'no-returns',
              cases: [{ ...RULE.rule.cases[0], when: { known: { fact: 'claim.year' } } }],
            },
          ],
        },
      ],
      'rules.0.id',
      'the id "no-returns" stands twice',
    ],
    [
      'words of nobody',
      [{ schemaVersion: 1, kind: 'rules', id: 'x', about: 'x', rules: [RULE.rule] }],
      'rules.0.cases.0.when',
      'no such phrase list: "new-words-1"',
    ],
  ])('with %s is refused with the place, and nothing is written', async (_name, content, path, fault) => {
    const { added, faults } = await ports.importRules(file(content))
    expect(added).toBe(0)
    expect(faults).toContainEqual(expect.objectContaining({ file: 'mine.json', path, fault }))
    expect((await readOwnRules(stores)).rules).toEqual([])
  })
})

it('lessons are empty before anything ended, and hold what was raised after', async () => {
  expect(await ports.readLessons()).toMatchObject({ sound: 0, wrong: 0, score: null, lessons: [] })
  const draft = sampleDraft()
  const trace = [{ rule: 'no-returns', raised: true, reason: '' }]
  const { id } = await stores.dossiers.keep({ ...draft, inspection: { ...draft.inspection, trace } })
  await stores.dossiers.record(id, 'outcome', 'genuine', () => ({ outcome: 'genuine' as const }))
  expect(await ports.readLessons()).toMatchObject({ sound: 1, lessons: [{ rule: 'no-returns', basis: 'assumed' }] })
  expect((await stores.readBook()).outcomes?.['no-returns']).toMatchObject({ raisedSound: 1 })
})

it('names are made of any language and never taken twice', () => {
  expect(idFromName('Zu schön, um wahr zu sein!', new Set())).toBe('own-zu-schon-um-wahr-zu-sein')
  expect(idFromName('真贋', new Set(['own']))).toBe('own-2')
  expect(nameOwnRule(RULE, 'own-x').phrases[0]?.id).toBe('own-x-words-1')
  expect(nameOwnRule(RULE, 'own-x').rule.group).toBe('own-x')
  expect(verbsOf('photos.count')).not.toContain('is')
})
