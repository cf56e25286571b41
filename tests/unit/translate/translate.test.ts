import { expect, it } from 'vitest'
import { createTranslate } from '../../../src/domain/translate.ts'

const catalogue = {
  seen_one: '{count} photo of {of}',
  seen_other: '{count} photos of {of}',
  plain: 'Nothing {missing}',
}

it('chooses the plural form by the language and fills the places', () => {
  const translate = createTranslate(catalogue, 'en')
  expect([0, 1, 2].map((count) => translate('seen', { count, of: 'x' }))).toEqual([
    '0 photos of x',
    '1 photo of x',
    '2 photos of x',
  ])
  // French counts nought as one (CLDR plural rules, through Intl).
  expect(createTranslate(catalogue, 'fr')('seen', { count: 0, of: 'x' })).toBe('0 photo of x')
})

it('leaves a place without a value as it is, and puts no value through twice', () => {
  expect(createTranslate(catalogue)('plain')).toBe('Nothing {missing}')
  expect(createTranslate(catalogue)('plain', { missing: '{missing} $&' })).toBe('Nothing {missing} $&')
})

it('throws on a missing key', () => {
  expect(() => createTranslate(catalogue)('absent')).toThrow('no text for "absent"')
})
