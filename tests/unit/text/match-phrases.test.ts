import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compilePhrases, keepLongest, matchPhrases, PhraseFault } from '../../../src/domain/text/match-phrases.ts'
import { normaliseText } from '../../../src/domain/text/normalise-text.ts'

const found = (text: string, phrases: string[], language: string | null = null): string[] =>
  matchPhrases(normaliseText(text), compilePhrases([{ id: 'x', language, phrases }])).map((match) => match.quote)

describe('phrases', () => {
  test.each<[string, string[], string[]]>([
    ['An old Reprint here', ['reprint'], ['Reprint']],
    ['preprint', ['reprint*'], []],
    ['REPRINTED card', ['reprint*'], ['REPRINTED']],
    ['Sammelkartennachdruck', ['*druck'], ['Sammelkartennachdruck']],
    ['sold as-is', ['as is'], ['as-is']],
    ['sold as, is', ['as is'], []],
    ['graded 8.5 by ABC', ['graded ~2 by'], ['graded 8.5 by']],
    ['graded one two three by', ['graded ~2 by'], []],
    ['no one. is', ['no one is'], []],
    ['not the original', ['not [the] original'], ['not the original']],
    ['not original', ['not [the] original'], ['not original']],
    ['offered as is', ['sold|offered as is'], ['offered as is']],
    ["isn't", ["isn't"], ["isn't"]],
    ['isn’t', ["isn't"], ['isn’t']],
    ['Réimpression', ['reimpression'], ['Réimpression']],
    ['r3print, c0py', ['reprint', 'copy'], ['r3print', 'c0py']],
    ['a fake, or not', ['fake ,~ or'], ['fake, or']],
  ])('%j against %j', (text, phrases, expected) => {
    expect(found(text, phrases)).toEqual(expected)
  })

  test('a disguise is told with the match', () => {
    const compiled = compilePhrases([{ id: 'x', language: 'en', phrases: ['reprint card'] }])
    expect(matchPhrases(normaliseText('r e p r i n t card'), compiled)[0]?.disguise).toBe('spaced-letters')
    expect(matchPhrases(normaliseText('reprint card'), compiled)[0]?.disguise).toBe(null)
  })

  test('languages can be chosen; phrases of no language always count', () => {
    const compiled = compilePhrases([
      { id: 'a', language: 'de', phrases: ['los'] },
      { id: 'b', language: null, phrases: ['lot'] },
    ])
    const ids = matchPhrases(normaliseText('los lot'), compiled, { languages: ['en'] }).map((match) => match.id)
    expect(ids).toEqual(['b'])
  })

  test('the longest of overlapping matches is kept', () => {
    const compiled = compilePhrases([{ id: 'x', language: null, phrases: ['not', 'not only', 'only a'] }])
    expect(keepLongest(matchPhrases(normaliseText('not only a card'), compiled)).map((m) => m.quote)).toEqual([
      'not only',
    ])
  })

  test.each(['', '~3', '[open', 'a ,~ ~9', '***', '[a|b|c] '.repeat(9)])(
    'a phrase that cannot be read is refused: %j',
    (phrase) => {
      expect(() => compilePhrases([{ id: 'x', language: null, phrases: [phrase] }])).toThrow(PhraseFault)
    },
  )

  test('whatever is put into other words is found again at its place', () => {
    const word = fc.stringMatching(/^[a-z]{1,8}$/)
    fc.assert(
      fc.property(
        fc.array(word, { maxLength: 8 }),
        fc.array(word, { minLength: 1, maxLength: 3 }),
        fc.array(word),
        (before, phrase, after) => {
          const text = [...before, ...phrase, ...after].join(' ')
          const start = before.join(' ').length + (before.length > 0 ? 1 : 0)
          const matches = matchPhrases(
            normaliseText(text),
            compilePhrases([{ id: 'x', language: null, phrases: [phrase.join(' ')] }]),
          )
          expect(matches.some((match) => match.start === start && match.quote === phrase.join(' '))).toBe(true)
        },
      ),
      { seed: 6 },
    )
  })
})

describe('adversarial text', () => {
  const compiled = compilePhrases([
    {
      id: 'x',
      language: null,
      phrases: ['a ~8 a ~8 a ~8 b', 'a* *a a', 'no [a] [a] [a] b', 'a a a a a a a a b', 'reprint*'],
    },
  ])
  const measure = (text: string): number => {
    // Processor time: other work on the machine must not count.
    const start = process.cpuUsage()
    keepLongest(matchPhrases(normaliseText(text), compiled))
    return process.cpuUsage(start).user / 1000
  }
  test.each([
    ['nothing but a', 'a '],
    ['spaced letters', 'r e p r i n t '],
    ['leetspeak', 'r3pr1nt '],
    ['marks', '!@$|'],
    ['combining marks', 'a\u0301\u0301\u0301\u0301'],
    ['overrides', '\u202e\u200ba'],
    ['quotes', '“a" '],
  ])('time grows with the length and no faster: %s', (_name, unit) => {
    measure(unit.repeat(2_000))
    // Linear is 4 times, quadratic would be 16. A busy machine can spoil a measurement, not mend one: the best of eight counts.
    let best = Number.POSITIVE_INFINITY
    for (let attempt = 0; attempt < 8 && best >= 8; attempt += 1) {
      const once = Math.max(0.2, Math.min(measure(unit.repeat(4_000)), measure(unit.repeat(4_000))))
      best = Math.min(best, measure(unit.repeat(16_000)) / once)
    }
    expect(best).toBeLessThan(8)
  })
})
