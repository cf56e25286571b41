/** One photo, changed, against photos of two copies of one design; copies are drawn by the experiment's own generator. */
import { expect, it } from 'vitest'
import { createAlikeIndex, storedPrints } from '../../src/domain/fingerprints/find-alike.ts'
import { describePhoto } from '../../src/imaging/fingerprints/describe-photo.ts'
import { hintOfMatch } from '../../src/imaging/fingerprints/hint-of-match.ts'
import { compareForSamePhoto, preparePhoto, turn } from '../../src/imaging/fingerprints/same-photo.ts'
import { TURNS } from '../../src/imaging/pdq.ts'
import { type Pixels, toGrey } from '../../src/imaging/pixels.ts'
import { CHANGES, photographCopy } from '../bench/copies/draw-copy.ts'
import { createDice } from '../bench/label-scenes/draw-label.ts'

type Canvas = ReturnType<typeof photographCopy>

function know(canvas: Canvas) {
  const grey = toGrey(canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height) as unknown as Pixels)
  const { hash, quality, ...prints } = describePhoto(grey)
  return { grey, facts: { pdq: hash, pdqQuality: quality, prints } }
}

const original = photographCopy(1, 3, 'scan')
const kept = know(original)
const index = createAlikeIndex<string>()
index.add('kept', storedPrints(kept.facts))

function compare(photo: Canvas) {
  const inHand = know(photo)
  const match = index.find(inHand.facts)[0]?.match
  if (match === undefined) return null
  const hint = hintOfMatch(match, inHand.facts.prints, kept.facts.prints)
  return compareForSamePhoto(preparePhoto(inHand.grey, hint.turn), preparePhoto(kept.grey), hint)
}

it.each(['JPEG 30', 'watermark', 'crop 10 %', 'white border', 'mirrored', 'quarter turn'] as const)('%s', (change) => {
  expect(compare(CHANGES[change](original, createDice(7)))?.same).toBe(true)
})

it('two copies of one design on one scanner are not one photo', () => {
  const likeness = compare(photographCopy(1, 4, 'scan'))
  expect(likeness).not.toBeNull()
  expect(likeness?.same).toBe(false)
})

it('turns a picture as its name says', () => {
  const grey = { width: 3, height: 2, data: Float32Array.from([1, 2, 3, 4, 5, 6]) }
  expect(Object.fromEntries(TURNS.map((how) => [how, [...turn(grey, how).data].join('')]))).toEqual({
    upright: '123456',
    quarter: '415263',
    half: '654321',
    'three-quarters': '362514',
    mirrored: '321654',
    'mirrored-quarter': '635241',
    'mirrored-half': '456123',
    'mirrored-three-quarters': '142536',
  })
})
