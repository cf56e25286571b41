import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { redact, TAKEN_OUT } from '../../../src/domain/dossier/redact.ts'

const all = { names: ['tarn_and_tide', 'Jory T.'], prices: true }

describe('taking out who and how much', () => {
  it.each([
    ['Ask tarn_and_tide for more', `Ask ${TAKEN_OUT} for more`],
    ['TARN_AND_TIDE ships', `${TAKEN_OUT} ships`],
    ['mail jory@pier.example today', `mail ${TAKEN_OUT} today`],
    ['see https://www.brambleboard.example/ad/17?x=1 there', `see ${TAKEN_OUT} there`],
    ['call +44 20 7946 0123 now', `call ${TAKEN_OUT} now`],
    ['Asks €1,200.00 or near', `Asks ${TAKEN_OUT} or near`],
  ])('%s', (text, expected) => {
    expect(redact(text, all)).toBe(expected)
  })

  it.each(['1931-32 Pellwick Skerryball Stars #17', 'Card no. 208/240, grade 8.5', 'tarn_and_tides is somebody else'])(
    'leaves alone: %s',
    (text) => expect(redact(text, all)).toBe(text),
  )

  it('leaves prices where they are wanted', () => {
    expect(redact('€1,200.00 by Jory T. today', { ...all, prices: false })).toBe(`€1,200.00 by ${TAKEN_OUT} today`)
  })

  it('leaves no name standing by itself, whatever surrounds it', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (before, after) => {
        const text = redact(`${before} tarn_and_tide ${after}`, all)
        expect(text.toLowerCase()).not.toMatch(/(?<![\p{L}\p{N}])tarn_and_tide(?![\p{L}\p{N}])/u)
      }),
    )
  })
})
