import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { compilePhrases, keepLongest, matchPhrases } from '../../../src/domain/text/match-phrases.ts'
import { normaliseText } from '../../../src/domain/text/normalise-text.ts'
import { analyseScope, compileCues } from '../../../src/domain/text/scope.ts'

const cues = compileCues(
  JSON.parse(readFileSync(new URL('../../../rules/vocabulary/scope.json', import.meta.url), 'utf8')).cues,
)
const phrases = compilePhrases([
  {
    id: 'reprint',
    language: null,
    phrases: [
      'reprint*',
      'nachdruck*',
      'reimpression*',
      'reimpresion*',
      'ristamp*',
      'copy',
      'copie',
      'kopie',
      'fake',
      'facsimile',
    ],
  },
])
const readScope = (text: string): string[] => {
  const normalised = normaliseText(text)
  return analyseScope(normalised, keepLongest(matchPhrases(normalised, phrases)), cues).map((match) =>
    [
      match.negated ? 'negated' : '',
      match.hedged ? 'hedged' : '',
      match.mentioned ? 'mentioned' : '',
      match.question ? 'question' : '',
      match.quoted ? 'quoted' : '',
    ]
      .filter(Boolean)
      .join('+'),
  )
}

describe('scope, by the numbered rules of the module', () => {
  test.each<[string, string, string[]]>([
    ['1', 'not a reprint', ['negated']],
    ['1', 'No reprints here!', ['negated']],
    ['1', 'kein Nachdruck', ['negated']],
    ['1', "Ce n'est pas une réimpression", ['negated']],
    ['1', 'no es una reimpresión', ['negated']],
    ['1', 'non è una ristampa', ['negated']],
    ['1', 'This isn’t a reprint', ['negated']],
    ['1', 'We do not sell any kind of reprint', ['negated']],
    ['1 window', 'not one of the many very old cards that I have is a reprint', ['']],
    ['1 clause', 'No returns. Reprint', ['']],
    ['1 clause', 'Not original, reprint', ['']],
    ['1 stop', 'It is not a reprint but a facsimile', ['negated', '']],
    ['1 stop', 'kein Original sondern Nachdruck', ['']],
    ['1', 'may be a reprint', ['hedged']],
    ['1', 'könnte ein Nachdruck sein', ['hedged']],
    ['1', 'peut-être une réimpression', ['hedged']],
    ['1', 'podría ser una reimpresión', ['hedged']],
    ['1', 'potrebbe essere una ristampa', ['hedged']],
    ['1', 'Beware of reprints', ['mentioned']],
    ['1', 'im Gegensatz zum Nachdruck', ['mentioned']],
    ['2', 'not a copy, reprint or fake', ['negated', 'negated', 'negated']],
    ['2', 'no reprints, no copies, no copy', ['negated', 'negated']],
    ['2', 'not a copy. Reprint', ['negated', '']],
    ['3', 'Ein Nachdruck ist das nicht.', ['negated']],
    ['3', 'Reprint: No', ['negated']],
    ['3', 'Reprint? No.', ['negated']],
    ['3', 'Nachdruck: Nein', ['negated']],
    ['3', 'Reprint no returns', ['']],
    ['3', 'Reprint: no returns', ['']],
    ['3', 'Nachdruck nicht original', ['']],
    ['3', 'reprint maybe', ['hedged']],
    ['3', 'reprints exist', ['mentioned']],
    ['4', 'not only a reprint', ['']],
    ['4', 'no doubt a reprint', ['']],
    ['4', 'not sure if this is a reprint', ['hedged']],
    ['4', 'weiß nicht ob Nachdruck', ['hedged']],
    ['4', 'no reserve reprint', ['']],
    ['5', 'cannot guarantee that it is not a reprint', ['hedged']],
    ['6', 'reprint?', ['question']],
    ['quote', 'the so-called “reprint”', ['quoted']],
    ['none', '1931 Skerryball Stars reprint', ['']],
  ])('rule %s: %s', (_rule, text, expected) => {
    expect(readScope(text)).toEqual(expected)
  })
})
