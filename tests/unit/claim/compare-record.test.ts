import { describe, expect, it } from 'vitest'
import { compareRecord, recordNumberIn } from '../../../src/domain/claim/compare-record.ts'
import { parseClaims } from '../../../src/domain/claim/parse-claims.ts'
import { graders, knowledge } from './knowledge.ts'

const claim = parseClaims(
  { title: '1931-32 Skerryball Stars #17 Odo Marrable KVX 5 certificate 40312036', specifics: {}, description: null },
  knowledge,
)[0]!
const verdicts = (text: string, specifics = {}, address: string | null = null) =>
  Object.fromEntries(
    compareRecord(claim, { text, specifics }, address, knowledge).map((one) => [one.field, one.verdict]),
  )

const RECORD = `Kestrel Vault Examiners
Record of a certificate
Certificate number
40312036
Year: 1931-32
Card number: 17
Player: Odo Marrable
Grade: EX 5
© 2026 Kestrel Vault Examiners`

describe('a record page', () => {
  it('that states the same agrees in every field', () => {
    expect(verdicts(RECORD)).toEqual({
      year: 'agrees',
      subject: 'agrees',
      cardNumber: 'agrees',
      grade: 'agrees',
      certificate: 'agrees',
    })
  })

  it('of another card differs where it does', () => {
    const other = RECORD.replace('1931-32', '1958').replace('EX 5', 'NM 7').replace(': 17', ': 18')
    expect(verdicts(other)).toMatchObject({ year: 'differs', grade: 'differs', cardNumber: 'differs' })
    expect(verdicts(RECORD.replace('40312036', '40312037'))).toMatchObject({ certificate: 'differs' })
  })

  it('says nothing about what it leaves out', () => {
    expect(verdicts('Kestrel Vault Examiners\nNo record was found.')).toEqual({
      year: 'not-shown',
      subject: 'not-shown',
      cardNumber: 'not-shown',
      grade: 'not-shown',
      certificate: 'not-shown',
    })
  })

  it('is read from its pairs too, and by the number in its address', () => {
    const specifics = { Year: '1931-32', Grade: '6' }
    expect(verdicts('', specifics, '40312036')).toMatchObject({
      year: 'agrees',
      grade: 'differs',
      certificate: 'agrees',
    })
  })
})

describe('the address of a record page', () => {
  const lookUp = graders[0]!.lookUp
  it.each([
    ['https://records.kestrel-vault.example/certificate/40312036', '40312036'],
    ['http://records.kestrel-vault.example/certificate/40312036?print=1', '40312036'],
    ['https://records.kestrel-vault.example/about', null],
    ['https://records.kestrel-vault.example.evil.example/certificate/1', null],
    [null, null],
  ])('%s', (url, number) => expect(recordNumberIn(url, lookUp)).toBe(number))
  it('is not told without a place for the number', () =>
    expect(
      recordNumberIn('https://records.kestrel-vault.example/', 'https://records.kestrel-vault.example/'),
    ).toBeNull())
})
