/** The measured points on photos of an invented card with known truth, and the outcomes that must not become a verdict. */
import { describe, expect, it } from 'vitest'
import type { Exemplar } from '../../src/domain/exemplar.ts'
import { comparePhotos } from '../../src/imaging/compare-photos.ts'
import { createPicture } from '../../src/imaging/placed-picture.ts'
import { type Camera, type Design, photograph, STANDARD, squareOn } from './scenes/draw-card.ts'

const CAMERA: Camera = {
  width: 700,
  height: 850,
  corners: squareOn(STANDARD, 700, 850, 8.5),
  blur: 0.8,
  noise: 1.5,
  light: [1, 1, 1],
  falloff: 1,
  background: [0.03, 0.03, 0.035],
  seed: 1,
}

const EXEMPLAR: Exemplar = {
  schemaVersion: 2,
  id: 'insects-12',
  title: 'Insects of the Fen 1958, 12 Lantern Hawker',
  provenance: 'drawn for a test',
  author: 'tests',
  licence: 'CC0-1.0',
  nominalSize: { widthMm: 63.5, heightMm: 88.9 },
  pieces: [{ id: 'a', name: 'a', provenance: '' }],
  copies: [],
  pictures: [{ file: 'front.png', side: 'front', corners: null, piece: 'a', greyCard: null }],
  points: [
    {
      kind: 'tint',
      id: 'red-panel',
      name: 'Red panel',
      why: 'the red is one ink',
      copiesDo: 'they shift it',
      copies: {},
      side: 'front',
      region: { x: 25, y: 71.5, width: 12, height: 5 },
      needsPxPerMm: null,
      tolerance: null,
      neutral: [
        { x: 1, y: 20, width: 2, height: 20 },
        { x: 60.5, y: 40, width: 2, height: 20 },
      ],
    },
    {
      kind: 'border-width',
      id: 'left-border',
      name: 'Left border',
      why: 'a trimmed card has a narrow border',
      copiesDo: '',
      copies: {},
      opposite: null,
      side: 'front',
      edge: 'left',
      region: { x: 2.5, y: 30, width: 3, height: 25 },
      needsPxPerMm: null,
      tolerance: null,
    },
  ],
}

const model = createPicture(photograph(STANDARD, CAMERA), null)

function compare(design: Partial<Design>, camera: Partial<Camera>, corners: Camera['corners'] | null = null) {
  const pixels = photograph({ ...STANDARD, ...design }, { ...CAMERA, seed: 2, ...camera })
  const comparison = comparePhotos({ exemplar: EXEMPLAR }, new Map([['front.png', model]]), [
    { file: 'photo.jpg', picture: createPicture(pixels, null), corners, problem: null },
  ])
  return { ...comparison, tint: comparison.points[0]!, border: comparison.points[1]! }
}

const small = (pxPerMm: number): Partial<Camera> => {
  const [width, height] = [Math.round(pxPerMm * 90), Math.round(pxPerMm * 110)]
  return { width, height, corners: squareOn(STANDARD, width, height, pxPerMm) }
}

describe('a genuine other copy', () => {
  it.each<[string, Partial<Camera>]>([
    ['under the same light', {}],
    ['under yellow light', { light: [1, 0.85, 0.6] }],
    ['in half the light', { light: [0.5, 0.5, 0.5] }],
    ['in light that falls off', { falloff: 0.8 }],
    ['turned by three degrees', { corners: squareOn(STANDARD, 700, 850, 8.2, 3) }],
    ['lying on its side', { width: 850, height: 700, corners: turnedCorners() }],
    ['on a light table', { background: [0.3, 0.2, 0.1] }],
    ['somewhat blurred', { blur: 1.8 }],
    [
      'seen at an angle',
      {
        corners: [
          [80, 60],
          [590, 85],
          [620, 790],
          [60, 765],
        ],
      },
    ],
  ])('agrees %s', (_, camera) => {
    const { registered, tint, border } = compare({}, camera)
    expect(registered).toBe(true)
    expect(tint).toMatchObject({ verdict: 'agrees', unit: 'ΔE00' })
    expect(border).toMatchObject({ verdict: 'agrees', unit: 'mm' })
    expect(Math.abs(border.value! - 4)).toBeLessThan(0.2)
    expect(Math.abs(border.value! - 4)).toBeLessThanOrEqual(border.uncertainty!)
  })
})

describe('a planted fault', () => {
  it('is found in the tint', () => {
    const { tint, border } = compare(
      { tint: { ...STANDARD.tint, colour: [0.45, 0.16, 0.04] } },
      { light: [1, 0.9, 0.75] },
    )
    expect(tint.verdict).toBe('differs')
    expect(tint.value! - tint.uncertainty!).toBeGreaterThan(6)
    expect(border.verdict).toBe('agrees')
  })

  it('is found in the border', () => {
    const border = { ...STANDARD.border, left: 3.1 }
    const compared = compare(
      { border, widthMm: 62.6 },
      { corners: squareOn({ ...STANDARD, widthMm: 62.6 }, 700, 850, 8.5) },
    )
    expect(compared.border.verdict).toBe('differs')
    expect(compared.tint.verdict).toBe('agrees')
  })
})

describe('what a photo cannot show is no verdict', () => {
  it.each([2, 3, 4, 4.8])('at %f px/mm', (pxPerMm) => {
    const { tint, border } = compare({}, { ...small(pxPerMm), blur: 0.5 })
    expect(tint).toMatchObject({ verdict: 'cannot-tell', value: null })
    expect(border).toMatchObject({ verdict: 'cannot-tell', value: null })
  })

  it('when it is badly blurred', () => {
    const { tint, border } = compare({}, { blur: 4 })
    expect([tint.verdict, border.verdict]).toEqual(['cannot-tell', 'cannot-tell'])
    expect(border.reason).toMatch(/blurred/)
  })

  it('when glare burns the panel out', () => {
    expect(compare({ tint: { ...STANDARD.tint, colour: [1.2, 1.2, 1.2] } }, {}).tint).toMatchObject({
      verdict: 'cannot-tell',
      reason: expect.stringMatching(/glare/),
    })
  })

  it.each([
    ['another card', { shapes: 77, sky: [0.6, 0.3, 0.1] as const }, {}, /does not show/],
    ['a mirrored photo', {}, { corners: mirrored(CAMERA.corners) }, /mirrored/],
  ])('of %s', (_, design, camera, reason) => {
    const { registered, tint, border } = compare(design, camera, CAMERA.corners)
    expect(registered).toBe(false)
    expect([tint.verdict, border.verdict]).toEqual(['cannot-tell', 'cannot-tell'])
    expect(tint.reason).toMatch(reason)
  })

  it('when no card can be found, and then takes the corners that a person gives', () => {
    const background = STANDARD.paper
    expect(compare({}, { background }).registered).toBe(false)
    const given = compare({}, { background }, CAMERA.corners)
    expect(given.registered).toBe(true)
    expect(given.tint.verdict).toBe('agrees')
    expect(given.border).toMatchObject({ verdict: 'cannot-tell', reason: expect.stringMatching(/cut edge/) })
  })

  it('without any photo', () => {
    const nothing = comparePhotos({ exemplar: EXEMPLAR }, new Map([['front.png', model]]), [])
    expect(nothing.registered).toBe(false)
    expect(nothing.points.map(({ verdict }) => verdict)).toEqual(['cannot-tell', 'cannot-tell'])
  })
})

function mirrored([a, b, c, d]: Camera['corners']): Camera['corners'] {
  return [b, a, d, c]
}

function turnedCorners(): Camera['corners'] {
  const [a, b, c, d] = squareOn(STANDARD, 700, 850, 8.5)
  const turn = ([x, y]: readonly [number, number]) => [850 - y, x] as const
  return [turn(a), turn(b), turn(c), turn(d)]
}
