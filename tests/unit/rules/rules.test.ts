/**
 * Every rule on its fixtures. The signs and their strengths are common practice of the trade unless the rule's `source`
 * says otherwise; what is held here is that a rule says what its pack claims, and is silent on the look-alike.
 */
import { describe, expect, it } from 'vitest'
import { inspect } from '../../../src/domain/inspect.ts'
import { loadPacks } from './load-packs.ts'
import { readRuleFixtures } from './rule-fixtures.ts'

const packs = loadPacks()
const fixtures = readRuleFixtures()

it('has fixtures for every rule and for nothing else', () => {
  expect([...fixtures.keys()].sort()).toEqual(packs.rules.map((rule) => rule.id).sort())
})

for (const [rule, cases] of fixtures) {
  describe(rule, () => {
    it('has two positives and a look-alike negative', () => {
      expect(cases.filter((item) => item.expect !== null).length).toBeGreaterThanOrEqual(2)
      expect(cases.filter((item) => item.expect === null).length).toBeGreaterThanOrEqual(1)
    })
    it.each(cases.map((item) => [item.name, item] as const))('%s', (_, { facts, book, expect: expected }) => {
      const result = inspect(facts, book, packs)
      const concern = result.concerns.find((item) => item.rule === rule)
      const found = concern === undefined ? null : concern.settledBy === null ? concern.strength : 'settled'
      const line = result.trace.find((item) => item.rule === rule)
      expect(found, `${line?.reason}\nclaim: ${JSON.stringify({ ...result.claim, quotes: undefined })}`).toBe(expected)
      if (concern) expect(concern.evidence.length).toBeGreaterThan(0)
    })
  })
}
