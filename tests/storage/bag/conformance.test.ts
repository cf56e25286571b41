/** The Library of Congress's BagIt conformance suite: every valid bag is accepted, every invalid one refused. */
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { createNodeHasher, openFolderSource } from '../../../src/cli/bag-sources.ts'
import { verifyBag } from '../../../src/storage/bag/verify-bag.ts'
import { describeWithReferences, readReference } from '../../published-references.ts'

interface Case {
  readonly bag: string
  readonly expected: 'valid' | 'invalid' | 'valid with warning'
}

describeWithReferences('bags of the conformance suite', (folder) => {
  const cases = readReference<Case[]>(folder, 'bagit/cases.json')
  it('are all there', () => expect(cases).toHaveLength(46))
  it.each(cases)('$bag is $expected', async ({ bag, expected }) => {
    const source = await openFolderSource(join(folder, 'bagit', bag))
    const { valid, warnings, faults } = await verifyBag(source, { createHasher: createNodeHasher })
    expect(valid, JSON.stringify(faults)).toBe(expected !== 'invalid')
    if (expected === 'valid with warning') expect(warnings).not.toEqual([])
  })
})
