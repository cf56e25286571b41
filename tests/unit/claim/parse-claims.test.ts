import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseClaims } from '../../../src/domain/claim/parse-claims.ts'
import type { Claim } from '../../../src/domain/claim.ts'
import { knowledge } from './knowledge.ts'

interface Words {
  title?: string
  specifics?: Record<string, string>
  description?: string
  links?: string[]
}
const parseAll = ({ title, specifics, description, links }: Words): Claim[] =>
  parseClaims(
    { title: title ?? null, specifics: specifics ?? {}, description: description ?? null, links: links ?? [] },
    knowledge,
  )
const parse = (words: Words | string): Claim =>
  parseAll(typeof words === 'string' ? { title: words } : words)[0] as Claim

describe('every way of saying who graded it', () => {
  test.each<[string, Partial<Claim>]>([
    ['ABX 9', { grader: 'ABX', grade: '9' }],
    ['ABX NM-MT 8', { grader: 'ABX', grade: '8' }],
    ['graded 8.5 by ABX', { grader: 'ABX', grade: '8.5' }],
    ['ABX Authentic', { grader: 'ABX', grade: 'authentic' }],
    ['ABX AUTH ALT', { grader: 'ABX', grade: 'altered' }],
    ['KVX 8 (OC)', { grader: 'KVX', grade: '8', qualifier: 'OC' }],
    ['KVX 8 OC', { grader: 'KVX', grade: '8', qualifier: 'OC' }],
    ['KVX 8½', { grader: 'KVX', grade: '8.5' }],
    ['KVX 8,5', { grader: 'KVX', grade: '8.5' }],
    ['KVX9', { grader: 'KVX', grade: '9' }],
    ['Kestrel Vault Examiners 7', { grader: 'KVX', grade: '7' }],
    ['GEM MINT 10 by ABX', { grader: 'ABX', grade: '10' }],
    ['gegradet mit 8 von ABX', { grader: 'ABX', grade: '8' }],
    ['gradée 8 par ABX', { grader: 'ABX', grade: '8' }],
    ['graduada 8 por ABX', { grader: 'ABX', grade: '8' }],
    ['gradata 8 da ABX', { grader: 'ABX', grade: '8' }],
    ['KVX slab', { grader: 'KVX', grade: null }],
  ])('%s', (words, expected) => {
    expect(parse(`1931 Skerryball Stars Odo Marrable ${words}`)).toMatchObject({
      encapsulation: 'encapsulated',
      holderKind: 'sealed',
      ...expected,
    })
  })

  test.each([
    'would grade KVX 9',
    'like a KVX 8',
    'cracked out of KVX 7',
    'KVX 9 candidate',
    'ungraded',
    'not graded',
    'raw',
    'ready for grading',
    'ungegradet',
    'non gradée',
    'sin gradear',
    'non gradata',
  ])('raw, with no grade: %s', (words) => {
    expect(parse(`1931 Skerryball Stars Odo Marrable ${words}`)).toMatchObject({
      encapsulation: 'raw',
      grader: null,
      grade: null,
    })
  })

  test('no word of grading leaves it open, and so does a contradiction in one text', () => {
    expect(parse('1931 Skerryball Stars Odo Marrable').encapsulation).toBe('unclear')
    expect(parse('1931 Odo Marrable raw graded KVX 8').encapsulation).toBe('unclear')
  })

  test('a crossover candidate is still in its holder', () => {
    expect(parse('1931 Odo Marrable KVX 8 crossover')).toMatchObject({
      grader: 'KVX',
      grade: '8',
      encapsulation: 'encapsulated',
    })
  })
})

describe('numbers', () => {
  test.each<[string, Partial<Claim>]>([
    ['1931 Skerryball Stars #208 Odo Marrable', { cardNumber: '208', year: '1931' }],
    ['1931 Skerryball Stars No. 208 Odo Marrable', { cardNumber: '208' }],
    ['1931 Skerryball Stars 208/240 Odo Marrable', { cardNumber: '208', serial: null }],
    ['2021 Tidal League Gold Parallel 17/25', { cardNumber: null, serial: { number: 17, of: 25 } }],
    ['2021 Tidal League /99', { serial: { number: null, of: 99 } }],
    ['2021 Tidal League #12 numbered to 50', { cardNumber: '12', serial: { number: null, of: 50 } }],
    ['Skerryball card no. 1952 of 1958', { cardNumber: '1952', year: '1958' }],
    ['1931 Odo Marrable 60/40 centering', { cardNumber: null, serial: null }],
    ['1931 Odo Marrable condition 9/10', { cardNumber: null, serial: null, grade: null }],
    ['1931 Odo Marrable 2 3/8 x 2 7/8 in', { cardNumber: null, serial: null }],
    ['Odo Marrable jersey #5', { cardNumber: null }],
    ['Lot #212 1958 Aurunda #8', { cardNumber: '8', multiple: false }],
    ['#1 draft pick Odo Marrable', { cardNumber: null }],
    ['1931-32 Skerryball', { year: '1931-32' }],
    ['1931–32 Skerryball', { year: '1931-32' }],
    ['31/32 Skerryball', { year: '31/32' }],
    ['1909-11 Skerryball', { year: '1909-11' }],
    ["'58 Aurunda", { year: '1958' }],
    ['1930s Skerryball', { year: null }],
    ['1989 reprint of 1931 Skerryball', { year: '1931' }],
    ['Aurunda since 1998, price $1958', { year: null }],
  ])('%s', (title, expected) => {
    expect(parse(title)).toMatchObject(expected)
  })
})

describe('certificates', () => {
  test.each<[Words, string | null, boolean]>([
    [{ title: 'KVX 8 cert #12345678' }, '12345678', false],
    [{ title: 'KVX 8 12345678' }, '12345678', false],
    [{ title: 'ABX 8 12345678' }, null, false],
    [{ title: 'KVX 8 cert 12345XXX' }, null, true],
    [{ title: 'KVX 8 cert 1234****' }, null, true],
    [{ title: 'KVX 8', specifics: { 'Certification Number': '12345678' } }, '12345678', false],
    [{ title: 'KVX 8', specifics: { 'Certification Number': 'Does not apply' } }, null, false],
    [{ title: 'KVX 8', specifics: { Zertifikatsnummer: '12345XXX' } }, null, true],
    [{ title: 'KVX 8', description: 'Certification number: 12345678.' }, '12345678', false],
    [{ title: 'KVX 8', links: ['https://records.kestrel-vault.example/certificate/12345678'] }, '12345678', false],
    [{ title: 'ABX 8', links: ['https://abx.example/verify/87654321?x=1'] }, '87654321', false],
    [{ title: 'ABX 8', links: ['https://quayside.example/item/87654321'] }, null, false],
    [{ title: 'Odo Marrable with certificate of authenticity 1931' }, null, false],
  ])('%j', (words, certificate, hidden) => {
    expect(parse(words)).toMatchObject({ certificate, certificateHidden: hidden })
  })
})

describe('title, specifics and description together', () => {
  test('specifics fill what the title leaves open and name subject and set', () => {
    const claim = parse({
      title: '1931 Odo Marrable KVX 8',
      specifics: {
        Player: 'Odo Marrable',
        Set: 'Skerryball Stars',
        'Card Number': '14',
        Grade: '8',
        'Original/Licensed Reprint': 'Original',
      },
    })
    expect(claim).toMatchObject({
      year: '1931',
      subject: 'Odo Marrable',
      set: 'Skerryball Stars',
      cardNumber: '14',
      grade: '8',
      reprint: 'no',
    })
    expect(claim.quotes.cardNumber).toEqual({ quote: '14', field: 'specifics.Card Number', start: 0, end: 2 })
  })

  test('a reprint word counts wherever it stands', () => {
    expect(
      parse({ title: '1931 Odo Marrable', description: 'Lovely card.\n\nPlease note that it is a reprint.' }).reprint,
    ).toBe('stated')
    expect(
      parse({ title: '1931 Odo Marrable', specifics: { 'Original/Licensed Reprint': 'Licensed Reprint' } }).reprint,
    ).toBe('stated')
    expect(parse({ title: 'Original, not a reprint', description: 'This is a reproduction.' }).reprint).toBe('stated')
  })

  test('RP alone is ambiguous, with a patch it is a rookie patch', () => {
    expect(parse('1931 Odo Marrable RP').reprint).toBe('ambiguous')
    expect(parse('2021 Lettie Graymoor RP patch auto /25').reprint).toBe('no')
  })

  test('the holder that a card is posted in is not the one that it sits in', () => {
    expect(
      parse({
        title: '1931 Odo Marrable',
        description: 'Shipped in a toploader. In a screw-down holder since I bought it.',
      }).holderKind,
    ).toBe('screw-down')
    expect(parse({ title: '1931 Odo Marrable', description: 'Will be sent in a toploader.' }).holderKind).toBe(null)
  })

  test('every quote stands at its place', () => {
    const title = '1931-32 Skerryball Stars #14 Odo Marrable KVX NM-MT 8 (OC) cert 12345678'
    const { quotes } = parse(title)
    expect(Object.keys(quotes).sort()).toEqual([
      'cardNumber',
      'certificate',
      'encapsulation',
      'grade',
      'grader',
      'holderKind',
      'qualifier',
      'set',
      'subject',
      'year',
    ])
    for (const { quote, start, end } of Object.values(quotes)) expect(title.slice(start, end)).toBe(quote)
  })
})

describe('several cards', () => {
  test('a list to pick from gives a claim each, with what the page says of all', () => {
    const claims = parseAll({
      title: '1931 Skerryball Stars – pick your card',
      description: 'All raw.\n#14 Odo Marrable\n#27 Barnaby Oxt KVX 4\n#40 Hesper Lunn, reprint\nNo returns.',
    })
    expect(
      claims.map(({ cardNumber, grader, reprint, year, multiple }) => ({
        cardNumber,
        grader,
        reprint,
        year,
        multiple,
      })),
    ).toEqual([
      { cardNumber: '14', grader: null, reprint: 'no', year: '1931', multiple: true },
      { cardNumber: '27', grader: 'KVX', reprint: 'no', year: '1931', multiple: true },
      { cardNumber: '40', grader: null, reprint: 'stated', year: '1931', multiple: true },
    ])
  })

  test.each([
    'Lot of 12 cards',
    '8-card lot',
    'Konvolut 40 Kaugummibilder',
    'Lot de 20 cartes',
    'Lote de 30 cromos',
    'Lotto di 30 figurine',
    'complete set of 48',
    'cards #1-48',
    '3x Odo Marrable',
  ])('multiple: %s', (words) => {
    expect(parse(`1958 Tidal League ${words}`)).toMatchObject({ multiple: true, object: 'lot' })
  })

  test.each([
    'Lot 45: 1931 Odo Marrable',
    '1931 Odo Marrable from my collection',
    '1931 Odo Marrable, lots of eye appeal',
    'card 14 of 48',
  ])('single: %s', (title) => {
    expect(parse(title)).toMatchObject({ multiple: false, object: 'card' })
  })

  test.each([
    ['1958 Tidal League factory sealed wax box', 'sealed-product'],
    ['Odo Marrable digital card', 'digital'],
    ['1958 Odo Marrable with digital photos', 'card'],
    ['1958 Odo Marrable pack fresh', 'card'],
  ])('%s is a %s', (title, object) => {
    expect(parse(title).object).toBe(object)
  })
})

describe('hostile words', () => {
  test.each([
    'r e p r i n t',
    'R.E.P.R.I.N.T',
    'r\u0435print',
    're\u200bprint',
    'r3print',
    'repr!nt',
    '𝐫𝐞𝐩𝐫𝐢𝐧𝐭',
    'ＲＥＰＲＩＮＴ',
    '🅡🅔🅟🅡🅘🅝🅣',
    'ʀᴇᴘʀɪɴᴛ',
    'R\u0301e\u0301print',
  ])('reprint is read in %s, and quoted as written', (disguised) => {
    const claim = parse(`1931 Odo Marrable ${disguised}`)
    expect(claim.reprint).toBe('stated')
    expect(claim.quotes.reprint?.quote).toBe(disguised)
  })

  test.each([
    '',
    ' ',
    '🔥🔥🔥',
    '<script>alert(1)</script>',
    '\u202e\u202d\u2066',
    '\u0000',
    '\ud800',
    '#',
    '#/',
    '//////',
    '1/',
    '/1',
    'KVX',
    '8',
    'a\u0301'.repeat(3000),
    '"'.repeat(5000),
    '# '.repeat(5000),
  ])('nothing comes of %j but a claim without fields', (title) => {
    expect(parseAll({ title, description: title })[0]).toMatchObject({ year: null, grade: null, reprint: 'no' })
  })

  test('any words give at least one claim whose quotes are in them', () => {
    const word = fc.oneof(
      fc.constantFrom(
        'KVX',
        '8',
        '#14',
        '1931',
        '1931-32',
        'reprint',
        'not',
        'a',
        'lot',
        'of',
        '12',
        '/99',
        '17/25',
        'cert',
        '12345678',
        '(OC)',
        'graded',
        'by',
        'Odo',
        'Marrable',
        '–',
        '?',
        '"',
        '\n',
        'Stars',
        'of the',
        '\u202e',
        'RP',
      ),
      fc.string({ unit: 'binary', maxLength: 6 }),
    )
    fc.assert(
      fc.property(fc.array(word, { maxLength: 20 }), fc.array(word, { maxLength: 40 }), (title, description) => {
        const words = { title: title.join(' '), description: description.join(' ') }
        const claims = parseAll(words)
        expect(claims.length).toBeGreaterThanOrEqual(1)
        for (const { quotes } of claims)
          for (const { quote, field, start, end } of Object.values(quotes))
            if (field === 'title') expect(words.title.slice(start, end)).toBe(quote)
      }),
      { seed: 7, numRuns: 300 },
    )
  })

  test('no field but subject and set depends on case', () => {
    const {
      quotes: _upper,
      subject: _s,
      set: _t,
      ...upper
    } = parse('1931 SKERRYBALL STARS #14 ODO MARRABLE KVX 8 (OC) NOT A REPRINT')
    const {
      quotes: _lower,
      subject: _u,
      set: _v,
      ...mixed
    } = parse('1931 Skerryball Stars #14 Odo Marrable KVX 8 (OC) not a reprint')
    expect(upper).toEqual(mixed)
  })
})

test('two cards in one title are two claims', () => {
  const claims = parseAll({ title: '1931 Skerryball Stars #14 Odo Marrable & #40 Hesper Lunn' })
  expect(claims.map(({ year, cardNumber, subject, multiple }) => ({ year, cardNumber, subject, multiple }))).toEqual([
    { year: '1931', cardNumber: '14', subject: 'Odo Marrable', multiple: true },
    { year: '1931', cardNumber: '40', subject: 'Hesper Lunn', multiple: true },
  ])
})
