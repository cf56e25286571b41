import fc from 'fast-check'
import { expect, it } from 'vitest'
import { fitLadder, levelAt } from '../../../src/domain/pricing/grade-ladder.ts'

it('finds a ladder that was put in, through cards of different worth', () => {
  const truth = new Map([
    [3, 0],
    [4, 0.3],
    [5, 0.8],
    [6, 0.8],
    [8, 2],
  ])
  const sales = ['a', 'b', 'c'].flatMap((card, k) =>
    [...truth].map(([grade, level]) => ({ card, grade, log: 3 + 2 * k + level })),
  )
  const ladder = fitLadder(sales)!
  const at = (grade: number) => levelAt(ladder, grade)!.level - levelAt(ladder, 3)!.level
  for (const [grade, level] of truth) expect(at(grade)).toBeCloseTo(level, 6)
  expect(at(7)).toBeCloseTo(1.4, 6)
  expect(ladder.sd).toBeCloseTo(0, 6)
})

it('fills a gap of one card from another', () => {
  const ladder = fitLadder([
    { card: 'a', grade: 4, log: 1 },
    { card: 'a', grade: 6, log: 2 },
    { card: 'b', grade: 6, log: 5 },
    { card: 'b', grade: 8, log: 7 },
  ])!
  expect(levelAt(ladder, 8)!.level - levelAt(ladder, 4)!.level).toBeCloseTo(3, 6)
})

it('never falls as grades rise, and says nothing beyond its ends', () => {
  const sale = fc.record({
    card: fc.constantFrom('a', 'b', 'c'),
    grade: fc.integer({ min: 1, max: 10 }),
    log: fc.double({ min: 0, max: 9, noNaN: true }),
  })
  fc.assert(
    fc.property(fc.array(sale, { minLength: 2, maxLength: 40 }), (sales) => {
      const ladder = fitLadder(sales)
      if (!ladder) {
        expect(new Set(sales.map(({ grade }) => grade)).size).toBeLessThan(2)
        return
      }
      const levels = ladder.rungs.map(({ level }) => level)
      for (let i = 1; i < levels.length; i++) expect(levels[i]!).toBeGreaterThanOrEqual(levels[i - 1]! - 1e-9)
      expect(levelAt(ladder, ladder.rungs[0]!.grade - 0.5)).toBeNull()
      expect(levelAt(ladder, ladder.rungs.at(-1)!.grade + 0.5)).toBeNull()
    }),
  )
})
