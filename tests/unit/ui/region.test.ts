/** A region never leaves its picture, whatever is done to it. */
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { moveRegion, SMALLEST, sizeRegion, spanRegion } from '../../../src/ui/desk/region.ts'

const share = fc.double({ min: -2, max: 2, noNaN: true })

it('stays inside the picture and large enough to grasp', () => {
  fc.assert(
    fc.property(
      share,
      share,
      share,
      share,
      fc.array(fc.tuple(fc.boolean(), share, share), { maxLength: 12 }),
      (ax, ay, bx, by, steps) => {
        let region = spanRegion(ax, ay, bx, by)
        for (const [move, dx, dy] of steps) region = move ? moveRegion(region, dx, dy) : sizeRegion(region, dx, dy)
        const slack = 1e-9
        expect(region.x).toBeGreaterThanOrEqual(0)
        expect(region.y).toBeGreaterThanOrEqual(0)
        expect(region.width).toBeGreaterThanOrEqual(SMALLEST - slack)
        expect(region.height).toBeGreaterThanOrEqual(SMALLEST - slack)
        expect(region.x + region.width).toBeLessThanOrEqual(1 + slack)
        expect(region.y + region.height).toBeLessThanOrEqual(1 + slack)
      },
    ),
  )
})

it('is the same whichever corner came first', () => {
  expect(spanRegion(0.2, 0.3, 0.6, 0.9)).toEqual(spanRegion(0.6, 0.9, 0.2, 0.3))
})
