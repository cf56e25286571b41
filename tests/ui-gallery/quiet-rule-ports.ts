/** The ports of the desk's rules for pictures: a few rules, one of them the buyer's own, and what thirty outcomes taught. */
import { FACT_IDS, FACTS, factKey } from '../../src/domain/rules/fact-ids.ts'
import type { OwnRule } from '../../src/domain/rules/own-rules.ts'
import { scoreEndings } from '../../src/domain/weighing/tally-endings.ts'
import type { Lesson, RuleLine, RulePorts } from '../../src/ui/desk/rule-ports.ts'
import { concerns } from './samples.ts'

const nothing = async () => {}

export const ownRule: OwnRule = {
  rule: {
    id: 'own-smoke-free-home',
    group: 'own-smoke-free-home',
    source: 'three of my own purchases',
    request: ['black-light'],
    cases: [
      {
        strength: 'weak',
        likelihoodRatio: 1.5,
        when: {
          all: [
            { phrase: { list: 'own-smoke-free-home-words-1', in: ['title', 'description'] } },
            { not: { is: { fact: 'claim.encapsulation', value: 'encapsulated' } } },
            {
              below: {
                fact: 'photos.count',
                threshold: { value: 3, unit: 'number of photos', reason: 'two show little' },
              },
            },
          ],
        },
      },
    ],
    text: {
      title: 'Smoke-free home praised, hardly a photo',
      why: 'Those who praise the home often show little of the card.',
      settles: 'Photos of both sides in daylight.',
    },
  },
  phrases: [
    {
      schemaVersion: 1,
      kind: 'phrases',
      id: 'own-smoke-free-home-words-1',
      about: 'Words of an own rule.',
      negation: 'kept',
      mention: 'cancels',
      phrases: { en: ['smoke free home', 'non smoking household'], de: ['nichtraucherhaushalt'] },
    },
  ],
}

const rules: readonly RuleLine[] = [
  ...concerns.map(
    ({ rule, title, why, settles, strength, group, weight }, at): RuleLine => ({
      id: rule,
      title,
      why,
      settles,
      strength,
      group,
      groupName: group.replace(/-/g, ' '),
      likelihoodRatio: weight.likelihoodRatio,
      basis: weight.basis,
      count: weight.count,
      words: weight.words ?? '',
      own: false,
      off: at === 2,
    }),
  ),
  {
    id: ownRule.rule.id,
    title: ownRule.rule.text!.title,
    why: ownRule.rule.text!.why,
    settles: ownRule.rule.text!.settles,
    strength: 'weak',
    group: ownRule.rule.group,
    groupName: ownRule.rule.text!.title,
    likelihoodRatio: 1.5,
    basis: 'assumed',
    count: 0,
    words: '',
    own: true,
    off: false,
  },
]

const ENDS = Array.from({ length: 30 }, (_, at) => {
  const wrong = at % 4 === 0
  const log10 = wrong ? 0.4 + (at % 3) * 0.5 : (at % 5) * 0.3
  return { id: `e${at}`, outcome: wrong ? ('altered' as const) : ('genuine' as const), looked: '', raised: '', log10 }
})

const lessons: readonly Lesson[] = [
  {
    rule: 'raw-high-grade-claim',
    title: 'High grade claimed for a raw card',
    assumed: 3,
    likelihoodRatio: 4.21,
    basis: 'learned',
    words:
      'Learned from 30 outcomes of yours: weak support for “something is wrong with the offer” over “the offer is as described”.',
    outcomes: { raisedWrong: 5, silentWrong: 3, raisedSound: 3, silentSound: 19 },
  },
  {
    rule: 'stock-photo',
    title: 'Photos that may not show this very card',
    assumed: 8,
    likelihoodRatio: 6.4,
    basis: 'assumed',
    words: '',
    outcomes: { raisedWrong: 2, silentWrong: 2, raisedSound: 1, silentSound: 9 },
  },
]

export const quietRulePorts: RulePorts = {
  listRules: async () => ({ rules, faults: [] }),
  readRuleParts: async () => ({
    facts: FACT_IDS.map((id) => ({ id, kind: FACTS[id], name: factKey(id).replace(/_/g, ' ') })),
    lists: [{ id: 'stock-photo', name: 'stock photo' }],
    groups: [{ id: 'possession', name: 'possession' }],
    rules: rules.map(({ id, title }) => ({ id, name: title })),
  }),
  openOwnRule: async () => ownRule,
  checkOwnRule: async () => [],
  saveOwnRule: async () => [],
  deleteOwnRule: nothing,
  restoreOwnRule: nothing,
  switchRule: nothing,
  previewRule: async () => ({
    looked: 143,
    raised: [
      { id: 'd1', title: '1958 Tidal League #34 Tamsin Quillfeather', quotes: ['smoke free home', '2 photos'] },
      { id: 'd2', title: 'Hesper Lunn, Tidal League', quotes: ['Nichtraucherhaushalt'] },
    ],
  }),
  exportRules: nothing,
  importRules: async () => ({ added: 2, known: 1, faults: [] }),
  readLessons: async () => ({ sound: 22, wrong: 8, score: scoreEndings(ENDS), lessons }),
}
