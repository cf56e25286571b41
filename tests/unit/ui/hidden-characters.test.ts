/**
 * Characters that hide are found, and nothing else is. The list of direction controls is that of Unicode Standard Annex #9,
 * section 2 (explicit formatting characters); the zero-width ones are of general category Cf.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { listHidden, splitHidden } from '../../../src/ui/parts/hidden-characters.ts'

const UAX_9_CONTROLS = [
  '\u202A',
  '\u202B',
  '\u202C',
  '\u202D',
  '\u202E',
  '\u2066',
  '\u2067',
  '\u2068',
  '\u2069',
  '\u200E',
  '\u200F',
  '\u061C',
]

describe('hidden characters', () => {
  it.each([...UAX_9_CONTROLS, '\u200B', '\u2060', '\uFEFF', '\u00AD'])('finds %j between letters', (character) => {
    const code = `U+${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`
    expect(listHidden(`rep${character}rint`)).toEqual([code])
  })

  it.each([
    'plain',
    'Möwe 1931–32',
    '日本語',
    'עברית',
    'e\u0301',
    '🙂',
    '👩\u200D🔬',
    '❤\uFE0F\u200D🔥',
    'tab\tnew\nline',
  ])('leaves %j alone', (text) => expect(splitHidden(text)).toEqual([{ text, code: null }]))

  it('finds a joiner between letters, where it disguises a word', () => {
    expect(listHidden('re\u200Dprint')).toEqual(['U+200D'])
  })

  it('loses no character', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(
          splitHidden(text)
            .map((run) => run.text)
            .join(''),
        ).toBe(text)
      }),
    )
  })
})
