/** What the lines of a label say, by form. Layouts and words are invented; grade words are common practice, no source. */
import { describe, expect, it } from 'vitest'
import { findCertificate, findGrade, findGrader, type PlacedLine } from '../../src/imaging/label/parse-label.ts'

function line(text: string, at: Partial<PlacedLine> = {}): PlacedLine {
  const probabilities = Array.from(text, () => 0.99)
  return { text, probabilities, confidence: 0.99, left: 0.05, right: 0.6, top: 0.1, bottom: 0.25, ...at }
}
const numberOn = (...texts: string[]) => findCertificate(texts.map((text) => line(text)))?.value ?? null

describe('the certificate number', () => {
  it.each([
    ['12345678', '12345678'],
    ['CERT # 12345678', '12345678'],
    ['CERTIFICATI0N12345678', '12345678'],
    ['Cert.No.946733076', '946733076'],
    ['NO. 0123456-001', '0123456-001'],
    ['CERTIFICATION 9O80441', '9080441'],
  ])('%s', (text, number) => expect(numberOn(text)).toBe(number))

  it.each([
    ['a misread first digit', 'S606410'],
    ['a misread first digit, set apart', 'B 606410'],
    ['a misread first digit behind the word', 'CERTIFICATION S606410'],
    ['digits set apart', '8 606410'],
    ['digits set apart at the end', '606410 8'],
    ['a misread last digit', '606410O'],
    ['a torn suffix', '606410-'],
    ['a word of Os', 'OOOOOO12'],
    ['a year', '1931'],
    ['a season', '1931-32'],
    ['a price', '$606410'],
    ['a share', '120/606410'],
  ])('%s is none: %s', (_, text) => expect(numberOn(text)).toBeNull())

  it('is left open where two could be it, unless one is named', () => {
    expect(numberOn('12345678', '87654321')).toBeNull()
    expect(numberOn('CERT 12345678', '87654321')).toBe('12345678')
  })

  it('is as certain as its least certain digit', () => {
    const probabilities = [0.99, 0.99, 0.4, 0.99, 0.99, 0.99, 0.99]
    expect(findCertificate([{ ...line('1234567'), probabilities }])?.certainty).toBe(0.4)
  })
})

describe('the grade', () => {
  const large = { left: 0.8, right: 0.95, top: 0.3, bottom: 0.8 }
  it.each([
    ['NM-MT 8', '8'],
    ['GEMMT10', '10'],
    ['KVX NM-MT+ 8.5', '8.5'],
    ['9 MINT', '9'],
    ['9,5 MINT', '9.5'],
  ])('%s', (text, grade) => expect(findGrade([line('1931 SKERRYBALL STARS'), line(text)])).toBe(grade))

  it('may stand alone where it is printed large, not where it is small', () => {
    const words = [line('1931 SKERRYBALL STARS'), line('ODO MARRABLE', { top: 0.4, bottom: 0.55 })]
    expect(findGrade([...words, line('7', large)])).toBe('7')
    expect(findGrade([...words, line('7', { ...large, bottom: 0.42 })])).toBeNull()
  })

  it('is no part grade and no card number', () => {
    expect(findGrade([line('CENTERING 9'), line('CORNERS 8.5'), line('#7'), line('48')])).toBeNull()
  })

  it('is left open where two differ', () => expect(findGrade([line('MINT 9'), line('NM 7')])).toBeNull())
})

describe('the grading company', () => {
  it.each([
    [['KVX', '1931 SKERRYBALL STARS'], 'KVX'],
    [['KVX NM-MT 8'], 'KVX'],
    [['OLQEX-MT'], 'OLQ'],
    [['GEMMT', 'HOF', 'RC'], null],
    [['KVX', 'OLQ'], null],
  ])('%j: %s', (texts, grader) =>
    expect(
      findGrader(
        (texts as string[]).map((text) => line(text)),
        0.8,
      ),
    ).toBe(grader),
  )
})
