/** The vocabulary as shipped and an invented grader book, for the tests of the claim parser. */
import { readdirSync, readFileSync } from 'node:fs'
import { parseVocabulary, type Vocabulary } from '../../../src/domain/claim/vocabulary.ts'
import type { Grader } from '../../../src/domain/grader-book.ts'

const folder = new URL('../../../rules/vocabulary/', import.meta.url)

export const vocabularyFiles = readdirSync(folder)
  .filter((file) => file.endsWith('.json'))
  .map((file) => ({ file, pack: JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as unknown }))

export const vocabulary: Vocabulary = parseVocabulary(vocabularyFiles).vocabulary

export const graders: readonly Grader[] = [
  {
    name: 'Kestrel Vault Examiners',
    abbreviations: ['KVX'],
    certificateDigits: [8],
    lookUp: 'https://records.kestrel-vault.example/certificate/{certificate}',
    halfGrades: true,
    qualifiers: { OC: 'off-centre', ST: 'stain', MK: 'marks' },
    accepted: true,
  },
  {
    name: 'Old Lantern Quorum',
    abbreviations: ['OLQ'],
    certificateDigits: [10],
    lookUp: 'https://old-lantern-quorum.example/look-up?number={certificate}',
    halfGrades: false,
    accepted: true,
  },
]

export const knowledge = { graders, vocabulary }
