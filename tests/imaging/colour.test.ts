/** Colour difference through the path that the tint measure uses, against the published pairs. */
import { expect, it } from 'vitest'
import { deltaE00, labOf } from '../../src/imaging/colour.ts'
import { describeWithReferences, readReference } from '../published-references.ts'

type Triple = readonly [number, number, number]
const lab = ([l, a, b]: Triple) => ({ mode: 'lab65', l, a, b }) as const

describeWithReferences('CIEDE2000: the 34 pairs of Sharma, Wu & Dalal (2005)', (folder) => {
  const pairs = readReference<{ lab1: Triple; lab2: Triple; deltaE: number }[]>(folder, 'ciede2000.json')
  it('has all of them', () => expect(pairs).toHaveLength(34))
  it.each(pairs)('$lab1 and $lab2', ({ lab1, lab2, deltaE }) => {
    expect(Math.abs(deltaE00(lab(lab1), lab(lab2)) - deltaE)).toBeLessThan(5e-5)
    expect(Math.abs(deltaE00(lab(lab2), lab(lab1)) - deltaE)).toBeLessThan(5e-5)
  })
})

it('knows white, black and middle grey (IEC 61966-2-1, D65; L* of 18.42 % light is 50 by CIE 15)', () => {
  expect(labOf([1, 1, 1]).l).toBeCloseTo(100, 3)
  expect(labOf([0, 0, 0]).l).toBeCloseTo(0, 6)
  const grey = labOf([0.184187, 0.184187, 0.184187])
  expect(grey.l).toBeCloseTo(50, 2)
  expect(Math.hypot(grey.a, grey.b)).toBeLessThan(0.01)
})
