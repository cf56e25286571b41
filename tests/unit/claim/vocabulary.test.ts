import { describe, expect, test } from 'vitest'
import { foldKey, isVocabularyKind, parseVocabulary, TOPICS } from '../../../src/domain/claim/vocabulary.ts'
import { vocabularyFiles } from './knowledge.ts'

const terms = (lists: unknown[], topic = 'reprint'): unknown => ({
  kind: 'vocabulary',
  schemaVersion: 1,
  topic,
  about: '',
  lists,
})
const faultsOf = (pack: unknown): string[] =>
  parseVocabulary([{ file: 'f.json', pack }]).faults.map(({ path, fault }) => `${path}: ${fault}`)

describe('the vocabulary as shipped', () => {
  test('is without fault, and every list of every topic is filled', () => {
    const { faults, vocabulary } = parseVocabulary(vocabularyFiles)
    expect(faults).toEqual([])
    const ids = new Set(vocabulary.terms.entries.map(({ id }) => id))
    const fields = new Set([...vocabulary.keys.values()].flat())
    for (const [topic, lists] of Object.entries(TOPICS))
      for (const list of lists ?? [])
        expect(topic === 'key' ? fields.has(list as never) : ids.has(`${topic}:${list}`), `${topic}:${list}`).toBe(true)
  })

  test('speaks five languages wherever it speaks any', () => {
    for (const { file, pack } of vocabularyFiles as {
      file: string
      pack: { kind: string; lists?: { id: string; language: string | null }[] }
    }[]) {
      if (
        pack.kind !== 'vocabulary' ||
        !['encapsulation.json', 'holders.json', 'reprints.json', 'marks.json', 'specifics.json'].includes(file)
      )
        continue
      const languages = new Set(pack.lists?.map(({ language }) => language).filter((language) => language !== null))
      expect([file, [...languages].sort()]).toEqual([file, ['de', 'en', 'es', 'fr', 'it']])
    }
  })

  test('knows the grade words of the trade by their numbers (1 Poor … 10 Gem Mint, common practice)', () => {
    const grades = {
      Poor: 1,
      Fair: 1.5,
      Good: 2,
      VG: 3,
      'VG-EX': 4,
      EX: 5,
      'EX-MT': 6,
      NM: 7,
      'NM-MT': 8,
      Mint: 9,
      'Gem Mint': 10,
    }
    const file = vocabularyFiles.find(({ file }) => file === 'grades.json')?.pack as {
      lists: { id: string; phrases: string[] }[]
    }
    for (const [word, grade] of Object.entries(grades))
      expect(
        file.lists
          .filter(({ phrases }) => phrases.some((phrase) => foldKey(phrase) === foldKey(word)))
          .map(({ id }) => id),
        word,
      ).toContain(String(grade))
  })
})

describe('a fault is refused with its place', () => {
  test.each<[unknown, RegExp]>([
    [{ kind: 'nonsense' }, /^kind: /],
    [terms([{ id: 'invented', language: null, phrases: ['x'] }]), /^lists\.0\.id: no such list in reprint: invented/],
    [terms([{ id: 'stated', language: null, phrases: ['[open'] }]), /^lists\.0\.phrases\.0: unclosed bracket/],
    [terms([{ id: 'stated', language: null, phrases: [] }]), /^lists\.0\.phrases: no phrases/],
    [terms([{ id: 'stated', language: 'English', phrases: ['x'] }]), /^lists\.0\.language: /],
    [terms([{ id: 'stated', language: null, phrases: ['x'], extra: 1 }]), /^lists\.0\.extra: no such key/],
    [terms([], 'colour'), /^topic: no such topic/],
    [terms([{ id: '8.3', language: null, phrases: ['x'] }], 'grade'), /^lists\.0\.id: no such list in grade: 8\.3/],
    [
      { kind: 'scope', schemaVersion: 1, note: '', cues: [{ role: 'mood', language: null, phrases: ['x'] }] },
      /^cues\.0\.role: no such role/,
    ],
    [
      { kind: 'abbreviations', schemaVersion: 1, about: '', trade: { rc: 'rookie card' }, everyday: [] },
      /^trade\.rc: an abbreviation is capitals/,
    ],
    [{ kind: 'abbreviations', schemaVersion: 2, about: '', trade: {}, everyday: [] }, /^schemaVersion: /],
  ])('%j', (pack, expected) => {
    const faults = faultsOf(pack)
    expect(faults).toHaveLength(1)
    expect(faults[0]).toMatch(expected)
  })

  test('other kinds of packs are not the vocabulary', () => {
    expect(['vocabulary', 'scope', 'abbreviations', 'rules', undefined].map(isVocabularyKind)).toEqual([
      true,
      true,
      true,
      false,
      false,
    ])
  })
})
