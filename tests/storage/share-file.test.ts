import { describe, expect, it } from 'vitest'
import { BackupFault } from '../../src/storage/faults.ts'
import { parseShareFile, writeShareFile } from '../../src/storage/share-file.ts'

const META = { id: 'x', revision: 3, createdAt: '2026-11-18T12:00:00.000Z', updatedAt: '', deletedAt: null }
const HINT = { host: 'brambleboard.example', field: 'price', selectors: ['.amount'] }
const GRADER = { name: 'Kestrel Vault Examiners', abbreviations: ['KVX'], certificateDigits: [8], accepted: true }
const ISSUE = {
  name: 'Harbour Ships 1931',
  words: ['harbour', '1931'],
  worthIfGenuine: { amount: '900', currency: 'EUR' },
  copies: ['re-screened'],
  exemplar: null,
  askFor: null,
}

describe('a shared list', () => {
  it('comes back as it was, without what belongs to this profile', () => {
    const text = writeShareFile('site-hints', [{ ...META, ...HINT }])
    expect(text).not.toContain('revision')
    expect(parseShareFile('site-hints', text)).toEqual([HINT])
    expect(parseShareFile('graders', writeShareFile('graders', [GRADER]))).toEqual([GRADER])
    expect(parseShareFile('risky-issues', writeShareFile('risky-issues', [ISSUE]))).toEqual([ISSUE])
  })

  it.each([
    ['not JSON', '<html>', 'is not JSON'],
    ['another list', writeShareFile('graders', [GRADER]), 'is no list of site-hints'],
    [
      'an unknown key',
      JSON.stringify({ touchstone: 'site-hints', schemaVersion: 1, items: [{ ...HINT, run: 1 }] }),
      'run',
    ],
    [
      'no place',
      JSON.stringify({ touchstone: 'site-hints', schemaVersion: 1, items: [{ ...HINT, selectors: [] }] }),
      'selectors',
    ],
  ])('is refused with the place: %s', (_, text, words) => {
    expect(() => parseShareFile('site-hints', text)).toThrow(BackupFault)
    expect(() => parseShareFile('site-hints', text)).toThrow(words)
  })

  it('opens nothing but web addresses', () => {
    const bad = writeShareFile('graders', [{ ...GRADER, lookUp: 'javascript:alert(1)' }])
    expect(() => parseShareFile('graders', bad)).toThrow('is no web address')
  })
})
