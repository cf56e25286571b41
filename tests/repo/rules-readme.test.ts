import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { FACT_IDS, factKey } from '../../src/domain/rules/fact-ids.ts'
import { readTexts } from '../unit/rules/load-packs.ts'
import { README, renderRulesReadme } from './write-rules-readme.ts'

it('rules/README.md is not stale (npx tsx tests/repo/write-rules-readme.ts)', () => {
  expect(readFileSync(README, 'utf8')).toBe(renderRulesReadme())
})

it.each(['en', 'de'])('every fact has a meaning in %s', (language) => {
  const texts = readTexts(language)
  expect(FACT_IDS.filter((fact) => !texts[`fact_${factKey(fact)}`])).toEqual([])
})
