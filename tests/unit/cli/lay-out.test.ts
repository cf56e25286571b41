import fc from 'fast-check'
import { expect, it } from 'vitest'
import { MEASURE, safe, table, wrap } from '../../../src/cli/text/lay-out.ts'

it('shows control, zero-width and direction characters of foreign text instead of obeying them', () => {
  expect(safe('red\u001b[31m')).toBe('red\\u{1b}[31m')
  expect(safe('a\u202eb\u200bc')).toBe('a\\u{202e}b\\u{200b}c')
  expect(safe('two\n lines')).toBe('two lines')
})

it('never leaves a character that moves the cursor or the reading direction', () => {
  fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => !/[\p{Cc}\p{Cf}]/u.test(safe(text))))
})

it('wraps between words and keeps every word', () => {
  fc.assert(
    fc.property(fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1, maxLength: 60 }), (words) => {
      const wrapped = wrap(words.join(' '), '    ')
      expect(wrapped.split(/\s+/).filter(Boolean)).toEqual(words)
      for (const line of wrapped.split('\n')) expect(line.length).toBeLessThanOrEqual(MEASURE)
    }),
  )
})

it('aligns a table', () => {
  expect(
    table([
      ['a', 'one'],
      ['long', 'two'],
    ]),
  ).toBe('  a     one\n  long  two')
})
