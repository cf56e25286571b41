/** The glass: what is under a finger stays there, views are kept near the piece; places of the piece and of the photo agree. */
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { createPlane } from '../../src/imaging/homography.ts'
import { layoutOf, laySquare, matrixOf } from '../../src/imaging/lay-square.ts'
import { riseOf } from '../../src/ui/light-table/read-pixels.ts'
import { levelFor, toPhotoPixels } from '../../src/ui/light-table/square-picture.ts'
import {
  between,
  fitView,
  gridStep,
  keepNear,
  pan,
  toCss,
  toMm,
  viewOfRegion,
  zoom,
} from '../../src/ui/light-table/view.ts'

const size = { widthMm: 63.5, heightMm: 88.9 }
const pane = { width: 640, height: 480 }
const view = fc.record({
  xMm: fc.double({ min: -10, max: 70, noNaN: true }),
  yMm: fc.double({ min: -10, max: 95, noNaN: true }),
  scale: fc.double({ min: 0.5, max: 500, noNaN: true }),
})
const place = fc.record({
  x: fc.double({ min: 0, max: 640, noNaN: true }),
  y: fc.double({ min: 0, max: 480, noNaN: true }),
})

it('keeps the millimetre under the pointer while zooming', () => {
  fc.assert(
    fc.property(view, place, fc.double({ min: 0.2, max: 5, noNaN: true }), (from, at, factor) => {
      const under = toMm(from, at, pane)
      const after = toMm(zoom(from, factor, at, pane), at, pane)
      expect(after.x).toBeCloseTo(under.x, 6)
      expect(after.y).toBeCloseTo(under.y, 6)
    }),
  )
})

it('goes from millimetres to the screen and back', () => {
  fc.assert(
    fc.property(view, place, (from, at) => {
      const mm = toMm(from, at, pane)
      const css = toCss(from, mm.x, mm.y, pane)
      expect(css.x).toBeCloseTo(at.x, 6)
      expect(css.y).toBeCloseTo(at.y, 6)
    }),
  )
})

it('shows the whole piece, and a whole region with room around it', () => {
  const whole = fitView(size, pane)
  for (const [x, y] of [
    [0, 0],
    [63.5, 88.9],
  ] as const) {
    const css = toCss(whole, x, y, pane)
    expect(css.x).toBeGreaterThan(0)
    expect(css.x).toBeLessThan(pane.width)
    expect(css.y).toBeGreaterThan(0)
    expect(css.y).toBeLessThan(pane.height)
  }
  const near = viewOfRegion({ x: 10, y: 10, width: 20, height: 4 }, pane)
  expect(toCss(near, 10, 10, pane).x).toBeGreaterThan(0)
  expect(toCss(near, 30, 10, pane).x).toBeLessThan(pane.width)
})

it('does not lose the piece, however far it is pushed', () => {
  fc.assert(
    fc.property(view, fc.double({ min: -1e6, max: 1e6, noNaN: true }), (from, far) => {
      const { xMm, yMm } = keepNear(pan(from, far, -far), size)
      expect(xMm).toBeGreaterThanOrEqual(-10)
      expect(xMm).toBeLessThanOrEqual(73.5)
      expect(yMm).toBeGreaterThanOrEqual(-10)
      expect(yMm).toBeLessThanOrEqual(98.9)
    }),
  )
})

it('begins and ends a flight where it should, and draws no grid that cannot be told apart', () => {
  const [a, b] = [fitView(size, pane), viewOfRegion({ x: 5, y: 5, width: 4, height: 4 }, pane)]
  expect(between(a, b, 0).scale).toBeCloseTo(a.scale)
  expect(between(a, b, 1).scale).toBeCloseTo(b.scale)
  for (const scale of [0.5, 1, 3, 10, 40, 200, 500]) expect(gridStep(scale) * scale).toBeGreaterThanOrEqual(24)
})

it('takes the smallest level that has a pixel for each of the screen’s', () => {
  const levels = [4096, 2048, 1024, 512].map((width) => ({ width, height: width }) as ImageBitmap)
  const square = { levels, pxPerMm: 40 }
  expect(levelFor(square, 40).level.width).toBe(4096)
  expect(levelFor(square, 20).level.width).toBe(2048)
  expect(levelFor(square, 9).level.width).toBe(1024)
  expect(levelFor(square, 9).pxPerMm).toBeCloseTo(10)
  expect(levelFor(square, 0.5).level.width).toBe(512)
})

/** A card seen askew: its plane by the closed form of `homography.ts`, which is held against OpenCV's figures elsewhere. */
const plane = createPlane(
  [
    [110, 90],
    [560, 130],
    [530, 760],
    [80, 720],
  ],
  size,
)!

it('finds a place of the piece in the photo by nine numbers as by the plane itself', () => {
  const toPhoto = matrixOf(plane)
  for (const [x, y] of [
    [0, 0],
    [63.5, 0],
    [20, 30],
    [63.5, 88.9],
    [-2, 91],
  ] as const) {
    const [px, py] = plane.toPixels(x, y)
    const found = toPhotoPixels({ toPhoto }, x, y)
    expect(found.x).toBeCloseTo(px, 6)
    expect(found.y).toBeCloseTo(py, 6)
  }
})

it('lays a picture square: what is painted at a place of the piece lies there afterwards', () => {
  const photo = { width: 640, height: 860, data: new Uint8ClampedArray(640 * 860 * 4).fill(255) }
  const spot = { x: 41, y: 22 }
  const [cx, cy] = plane.toPixels(spot.x, spot.y)
  for (let y = Math.floor(cy) - 4; y <= cy + 4; y++)
    for (let x = Math.floor(cx) - 4; x <= cx + 4; x++) photo.data.fill(0, 4 * (y * 640 + x), 4 * (y * 640 + x) + 3)
  const layout = layoutOf(plane)
  const square = laySquare(photo, plane, layout)
  expect(layout.pxPerMm).toBeCloseTo(plane.scaleAt(size.widthMm / 2, size.heightMm / 2), 6)
  let [sumX, sumY, dark] = [0, 0, 0]
  for (let y = 0; y < square.height; y++)
    for (let x = 0; x < square.width; x++) {
      const at = 4 * (y * square.width + x)
      if (square.data[at + 3] !== 255 || square.data[at]! > 128) continue
      sumX += x + 0.5
      sumY += y + 0.5
      dark++
    }
  expect(dark).toBeGreaterThan(20)
  expect(sumX / dark / layout.pxPerMm - layout.marginMm).toBeCloseTo(spot.x, 0)
  expect(sumY / dark / layout.pxPerMm - layout.marginMm).toBeCloseTo(spot.y, 0)
})

it('measures a profile’s rise as the normal distribution says: 10 to 90 % is 2.563 standard deviations', () => {
  // Abramowitz & Stegun 26.2: the 90 % point of the standard normal is 1.2816. Its integral by summing, no formula of ours.
  const sigma = 0.08
  const density = (x: number) => Math.exp(-(x * x) / (2 * sigma * sigma))
  let sum = 0
  const samples = Array.from({ length: 400 }, (_, i) => {
    const mm = i / 200
    sum += density(mm - 1)
    return { mm, lightness: sum }
  }).map(({ mm, lightness }) => ({ mm, lightness: (lightness / sum) * 80 + 10 }))
  expect(riseOf(samples)!).toBeCloseTo(2 * 1.2816 * sigma * 1000, -1)
  expect(riseOf(samples.map(({ mm }) => ({ mm, lightness: 50 })))).toBeNull()
})
