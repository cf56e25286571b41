/** The card's plane: exact at the corners, projective between them, refused where four points make no card. */
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { createPlane } from '../../src/imaging/homography.ts'

const SIZE = { widthMm: 63.5, heightMm: 88.9 }
const jitter = fc.double({ min: -40, max: 40, noNaN: true })

it('takes the corners to the corners', () => {
  fc.assert(
    fc.property(fc.array(jitter, { minLength: 8, maxLength: 8 }), (d) => {
      const corners = [
        [100 + d[0]!, 100 + d[1]!],
        [700 + d[2]!, 100 + d[3]!],
        [700 + d[4]!, 900 + d[5]!],
        [100 + d[6]!, 900 + d[7]!],
      ] as const
      const plane = createPlane(corners, SIZE)!
      const taken = [plane.toPixels(0, 0), plane.toPixels(63.5, 0), plane.toPixels(63.5, 88.9), plane.toPixels(0, 88.9)]
      taken.forEach(([x, y], i) => {
        expect(x).toBeCloseTo(corners[i]![0], 6)
        expect(y).toBeCloseTo(corners[i]![1], 6)
      })
      // There and back.
      const [px, py] = plane.toPixels(20, 70)
      const [mmX, mmY] = plane.toMillimetres(px, py)
      expect(mmX).toBeCloseTo(20, 6)
      expect(mmY).toBeCloseTo(70, 6)
      // A projective map takes the crossing of the diagonals to the crossing of the diagonals.
      const [x, y] = plane.toPixels(63.5 / 2, 88.9 / 2)
      const offDiagonal = (a: readonly [number, number], b: readonly [number, number]) =>
        ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / Math.hypot(b[0] - a[0], b[1] - a[1])
      expect(Math.abs(offDiagonal(corners[0], corners[2]))).toBeLessThan(1e-6)
      expect(Math.abs(offDiagonal(corners[1], corners[3]))).toBeLessThan(1e-6)
    }),
  )
})

it('states the scale', () => {
  const plane = createPlane(
    [
      [0, 0],
      [635, 0],
      [635, 889],
      [0, 889],
    ],
    SIZE,
  )!
  expect(plane.scaleAt(30, 40)).toBeCloseTo(10, 9)
})

it.each([
  [
    'crossed',
    [
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ],
  ],
  [
    'in line',
    [
      [0, 0],
      [5, 0],
      [10, 0],
      [0, 10],
    ],
  ],
  [
    'all in one place',
    [
      [3, 3],
      [3, 3],
      [3, 3],
      [3, 3],
    ],
  ],
] as const)('refuses four points that are %s', (_, corners) => {
  expect(createPlane(corners, SIZE)).toBeNull()
})
