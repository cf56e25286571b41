import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { inspect } from '../../../src/domain/inspect.ts'
import { formatPack, type PackFile, parsePack, parsePacks } from '../../../src/domain/rules/packs.ts'
import { loadPacks, RULES_DIRECTORY, readPackFiles, readTexts } from './load-packs.ts'
import { BOOK, FACTS } from './sample-facts.ts'

const texts = readTexts('en')
const builtIn = readPackFiles()
const ours = builtIn.filter(({ file }) => !file.startsWith('vocabulary/'))

const TEXT = { title: 'A title', why: 'A reason.', settles: 'An answer.' }
const RULE = {
  id: 'my-rule',
  group: 'mine',
  source: 'my own practice',
  request: ['back'],
  cases: [{ strength: 'weak', likelihoodRatio: 2, when: { is: { fact: 'listing.returns', value: 'refused' } } }],
  text: TEXT,
}
const packOf = (...rules: unknown[]) => ({ schemaVersion: 1, kind: 'rules', id: 'mine', about: 'My own rules.', rules })
const when = (condition: unknown) => packOf({ ...RULE, cases: [{ ...RULE.cases[0], when: condition }] })

function faultsOf(pack: unknown, ...more: PackFile[]): string[] {
  const { faults } = parsePacks([...builtIn, { file: 'user/mine.json', pack }, ...more], texts)
  return faults.map(({ file, path, fault }) => `${file} ${path}: ${fault}`)
}

describe('the built-in packs', () => {
  it('have no fault in English or German', () => {
    for (const language of ['en', 'de']) expect(parsePacks(builtIn, readTexts(language), language).faults).toEqual([])
  })

  it.each(ours.map(({ file }) => [file]))('%s is in canonical form', (file) => {
    const text = readFileSync(RULES_DIRECTORY + file, 'utf8')
    const { pack } = parsePack(file, JSON.parse(text))
    expect(formatPack(pack)).toBe(text)
  })

  it('have as many rules as were promised, each id once', () => {
    const ids = loadPacks().rules.map((rule) => rule.id)
    expect(ids.length).toBeGreaterThanOrEqual(45)
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('have the same text keys in both languages, and none without a use in a rule that is gone', () => {
    expect(Object.keys(readTexts('de')).sort()).toEqual(Object.keys(texts).sort())
    const ruleKeys = Object.keys(texts).filter((key) => /^rule_.*_title$/.test(key))
    expect(ruleKeys.length).toBe(loadPacks().rules.length)
  })
})

describe('a pack of the buyer', () => {
  it('is taken with its own words', () => {
    expect(faultsOf(packOf(RULE))).toEqual([])
    const { packs } = parsePacks([...builtIn, packOf(RULE)], texts)
    const result = inspect({ ...FACTS, listing: { ...FACTS.listing, returns: 'refused' } }, BOOK, packs)
    expect(result.concerns.find(({ rule }) => rule === 'my-rule')).toMatchObject({ title: 'A title', why: 'A reason.' })
  })

  it('switches off a rule of an earlier pack', () => {
    const { packs, faults } = parsePacks(
      [...builtIn, { file: 'user/mine.json', pack: { ...packOf(), off: ['no-returns'] } }],
      texts,
    )
    expect(faults).toEqual([])
    expect(packs.rules.some(({ id }) => id === 'no-returns')).toBe(false)
  })
})

describe('faults', () => {
  const P = 'user/mine.json rules.0.cases.0.when'
  it.each<[string, unknown, string]>([
    ['an unknown verb', when({ matches: { fact: 'claim.year', value: '.*' } }), `${P}: no such verb: "matches"`],
    [
      'two verbs',
      when({ known: { fact: 'claim.year' }, all: [] }),
      `${P}: a condition has exactly one verb, this one has 2`,
    ],
    ['no verb', when({}), `${P}: a condition has exactly one verb, this one has 0`],
    ['an empty list', when({ all: [] }), `${P}.all: must name at least one`],
    ['an unknown fact', when({ known: { fact: 'claim.colour' } }), `${P}.known.fact: no such fact: "claim.colour"`],
    ['an unknown key', when({ known: { fact: 'claim.year', value: '1' } }), `${P}.known.value: no such key`],
    ['a deep fault', when({ all: [{ not: { viewed: 1 } }] }), `${P}.all.0.not: no such verb: "viewed"`],
    [
      'a threshold without a reason',
      when({ below: { fact: 'photos.count', threshold: { value: 2, unit: 'photos' } } }),
      `${P}.below.threshold.reason: `,
    ],
    ['an unknown list', when({ phrase: { list: 'nonsense', in: ['title'] } }), `${P}: no such phrase list: "nonsense"`],
    ['an unknown rule', when({ raised: { rule: 'nonsense' } }), `${P}: no such rule: "nonsense"`],
    [
      'a number compared as a word',
      when({ is: { fact: 'photos.count', value: '2' } }),
      `${P}: "photos.count" is a number: use atLeast or below`,
    ],
    [
      'a word compared as a number',
      when({ below: { fact: 'claim.year', threshold: { value: 2, unit: 'x', reason: 'y' } } }),
      `${P}: "claim.year" is no number`,
    ],
    [
      'facts of two kinds',
      when({ differ: { fact: 'claim.year', from: 'claim.grade' } }),
      `${P}: "claim.year" and "claim.grade" cannot be compared`,
    ],
    [
      'more than there are',
      when({ count: { of: [{ known: { fact: 'claim.year' } }], atLeast: 2 } }),
      `${P}: asks for 2 of 1`,
    ],
    ['a rule without cases', packOf({ ...RULE, cases: [] }), 'user/mine.json rules.0.cases: a rule needs a case'],
    [
      'a weight for the listing',
      packOf({ ...RULE, cases: [{ ...RULE.cases[0], likelihoodRatio: 0.5 }] }),
      'user/mine.json rules.0.cases.0.likelihoodRatio: must be above 1',
    ],
    [
      'an unknown view',
      packOf({ ...RULE, request: ['side'] }),
      'user/mine.json rules.0.request.0: no such view: "side"',
    ],
    ['an id twice', packOf(RULE, RULE), 'user/mine.json rules.1.id: the id "my-rule" stands twice'],
    [
      'an id of another pack',
      packOf({ ...RULE, id: 'no-returns' }),
      'user/mine.json rules.0.id: the id "no-returns" stands twice',
    ],
    [
      'no text',
      packOf({ ...RULE, text: undefined }),
      'user/mine.json rules.my-rule.text: no text for "rule_my_rule_title"',
    ],
    ['another version', { ...packOf(RULE), schemaVersion: 2 }, 'user/mine.json schemaVersion: '],
    ['another kind', { ...packOf(RULE), kind: 'wishes' }, 'user/mine.json kind: no such kind of pack: "wishes"'],
    ['no object', 'rules', 'user/mine.json : a pack is an object'],
    [
      'switching off what is not there',
      { ...packOf(), off: ['nonsense'] },
      'user/mine.json off.0: no such rule in an earlier pack: "nonsense"',
    ],
  ])('%s', (_, pack, expected) => {
    expect(
      faultsOf(pack).some((fault) => fault.startsWith(expected)),
      faultsOf(pack).join('\n'),
    ).toBe(true)
  })

  it('a circle of references', () => {
    const refer = (id: string, to: string) => ({
      ...RULE,
      id,
      cases: [{ ...RULE.cases[0], when: { raised: { rule: to } } }],
    })
    expect(faultsOf(packOf(refer('a', 'b'), refer('b', 'c'), refer('c', 'a')))).toEqual([
      'user/mine.json rules: rules refer to each other in a circle: a → b → c → a',
    ])
  })

  it('what can never hold', () => {
    const known = { known: { fact: 'claim.year' } }
    const limit = (verb: string, value: number) => ({
      [verb]: { fact: 'photos.count', threshold: { value, unit: 'photos', reason: 'test' } },
    })
    const never = (...all: unknown[]) => faultsOf(when({ all }))[0]
    expect(never(known, { not: known })).toContain('can never hold: known both holds and does not')
    expect(never(known, { unknown: { fact: 'claim.year' } })).toContain('both unknown and known')
    expect(
      never(
        { is: { fact: 'claim.encapsulation', value: 'raw' } },
        { is: { fact: 'claim.encapsulation', value: 'encapsulated' } },
      ),
    ).toContain('is both')
    expect(never(limit('atLeast', 3), limit('below', 3))).toContain('is at least 3 and below 3')
    expect(
      never({ view: { view: 'back', status: ['shown'] } }, { view: { view: 'back', status: ['missing'] } }),
    ).toContain('has two statuses')
  })

  it('leave the other packs in place', () => {
    const { packs } = parsePacks([...builtIn, { file: 'user/mine.json', pack: when({}) }], texts)
    expect(packs.rules.length).toBe(loadPacks().rules.length)
  })

  it('fails closed on any junk', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (junk) => {
        expect(parsePack('mine.json', when(junk)).faults.length).toBeGreaterThan(0)
      }),
      { numRuns: 300 },
    )
  })
})

it('does not depend on the order of the files', () => {
  const shuffled = parsePacks([...builtIn].reverse(), texts).packs
  expect(shuffled.rules.map(({ id }) => id)).toEqual(loadPacks().rules.map(({ id }) => id))
})
