/** A region drawn on a picture ends in what the same region of an exemplar file ends in, whatever the picture's scale. */
import { expect, it } from 'vitest'
import { compareDrawnRegion, type DrawnPoint } from '../../src/imaging/compare-drawn-region.ts'
import { createPicture } from '../../src/imaging/placed-picture.ts'
import { type Camera, type Design, photograph, STANDARD, squareOn } from './scenes/draw-card.ts'

const SIZE = { widthMm: 63.5, heightMm: 88.9 }

function camera(width: number, height: number, pxPerMm: number): Camera {
  return {
    width,
    height,
    corners: squareOn(STANDARD, width, height, pxPerMm),
    blur: 0.8,
    noise: 1.5,
    light: [1, 1, 1],
    falloff: 1,
    background: [0.03, 0.03, 0.035],
    seed: 1,
  }
}

/** Millimetres of the card to shares of the picture, for a card square-on in its middle. */
function share(width: number, height: number, pxPerMm: number, x: number, y: number, w: number, h: number) {
  const left = (width - SIZE.widthMm * pxPerMm) / 2
  const top = (height - SIZE.heightMm * pxPerMm) / 2
  return {
    x: (left + x * pxPerMm) / width,
    y: (top + y * pxPerMm) / height,
    width: (w * pxPerMm) / width,
    height: (h * pxPerMm) / height,
  }
}

const [W, H, S] = [1000, 1200, 11]
const model = createPicture(photograph(STANDARD, camera(W, H, S)), null)
const photoOf = (design: Partial<Design>, pxPerMm = 8.5) => ({
  file: 'photo',
  picture: createPicture(photograph({ ...STANDARD, ...design }, camera(700, 850, pxPerMm)), null),
  corners: null,
  problem: null,
})
const BORDER: DrawnPoint = {
  kind: 'border-width',
  region: share(W, H, S, 2.5, 30, 3, 25),
  neutral: share(W, H, S, 1, 20, 2, 20),
  edge: 'left',
  nominalSize: SIZE,
  corners: null,
}
const TINT: DrawnPoint = { ...BORDER, kind: 'tint', region: share(W, H, S, 25, 71.5, 12, 5) }

it('agrees with another copy of the same design at another scale', () => {
  expect(compareDrawnRegion(BORDER, model, photoOf({}))).toMatchObject({ verdict: 'agrees', unit: 'mm' })
  expect(compareDrawnRegion(TINT, model, photoOf({}))).toMatchObject({ verdict: 'agrees', unit: 'ΔE00' })
})

it('does not measure what too few pixels show', () => {
  expect(compareDrawnRegion(BORDER, model, photoOf({}, 4))).toMatchObject({ verdict: 'cannot-tell', value: null })
})

it('says so when the exemplar’s own picture shows no card', () => {
  const bare = createPicture({ width: 400, height: 400, data: new Uint8ClampedArray(400 * 400 * 4).fill(120) }, null)
  expect(compareDrawnRegion(BORDER, bare, photoOf({}))).toHaveProperty('fault')
})

it('takes the corners by the person, in shares of the picture, where the cut edge is not in the picture', () => {
  // Cropped to the card itself: no background, so no outline.
  const [w, h] = [SIZE.widthMm * S, SIZE.heightMm * S].map(Math.floor) as [number, number]
  const closeUp = createPicture(photograph(STANDARD, camera(w, h, S)), null)
  const inside = share(w, h, S, 25, 71.5, 12, 5)
  const neutral = share(w, h, S, 1, 20, 2, 20)
  const tint: DrawnPoint = { ...TINT, region: inside, neutral }
  const corners = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ] as const
  expect(compareDrawnRegion({ ...tint, corners }, closeUp, photoOf({}))).toMatchObject({ verdict: 'agrees' })
})
