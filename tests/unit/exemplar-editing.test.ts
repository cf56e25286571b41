/** Editing an exemplar keeps it one that can be read again; merging two loses nothing and alters nothing of the first. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseExemplar } from '../../src/domain/exemplar.ts'
import { POINT_KIND_IDS, POINT_KINDS } from '../../src/domain/exemplar-kinds.ts'
import { freeName, mergeExemplars } from '../../src/domain/merge-exemplars.ts'
import {
  addPicture,
  addRegion,
  changeKind,
  createDraft,
  createPoint,
  keepOnPiece,
  moveInList,
  regionsOf,
  removeMake,
  removePicture,
  removeRegion,
  sizeFromRuler,
} from '../../src/ui/exemplars/edit-exemplar.ts'
import { exemplars } from '../ui-gallery/quiet-exemplars.ts'

const size = { widthMm: 60.3, heightMm: 73 }
const picture = (sha256: string) => ({ sha256, mediaType: 'image/png' })
const shared = {
  id: 'p',
  name: 'P',
  why: '',
  copiesDo: '',
  side: 'front' as const,
  region: { x: 10, y: 10, width: 5, height: 4 },
  needsPxPerMm: null,
  tolerance: 3,
  copies: {},
}
const whole = () => {
  const draft = addPicture(createDraft('Ships', size, 'e'), 'front.png', picture('a'))
  return { ...draft, exemplar: { ...draft.exemplar, author: 'H', licence: 'CC0-1.0' } }
}

describe.each(POINT_KIND_IDS)('a point of kind %s', (kind) => {
  it('is whole from the first moment, and after every change of kind', () => {
    const made = createPoint(kind, shared, size)
    expect(parseExemplar({ ...whole().exemplar, points: [made] })).toHaveProperty('exemplar')
    for (const next of POINT_KIND_IDS) {
      const changed = changeKind(made, next, size)
      expect(parseExemplar({ ...whole().exemplar, points: [changed] })).toHaveProperty('exemplar')
      // A tolerance in micrometres means nothing in another unit.
      expect(changed.tolerance).toBe(next === kind ? 3 : null)
    }
  })
  it('takes further places where its kind does, and keeps what its kind needs', () => {
    let point = createPoint(kind, shared, size)
    for (const { role, many } of POINT_KINDS[kind].regionsNeeded) {
      if (role === 'region') continue
      if (many || !regionsOf(point).some((one) => one.role === role)) point = addRegion(point, role, size)
    }
    expect(parseExemplar({ ...whole().exemplar, points: [point] })).toHaveProperty('exemplar')
    for (const { role, index } of regionsOf(point).reverse()) point = removeRegion(point, role, index)
    expect(parseExemplar({ ...whole().exemplar, points: [point] })).toHaveProperty('exemplar')
    for (const { role, required } of POINT_KINDS[kind].regionsNeeded)
      if (required) expect(regionsOf(point).some((one) => one.role === role)).toBe(true)
  })
})

it('keeps every region large enough and near the card', () => {
  const far = fc.double({ min: -500, max: 500, noNaN: true })
  fc.assert(
    fc.property(far, far, far, far, (x, y, width, height) => {
      const kept = keepOnPiece({ x, y, width, height }, size)
      expect(kept.width).toBeGreaterThanOrEqual(0.2)
      expect(kept.x).toBeGreaterThanOrEqual(-5)
      expect(kept.x + kept.width).toBeLessThanOrEqual(size.widthMm + 5.02)
      expect(kept.y + kept.height).toBeLessThanOrEqual(size.heightMm + 5.02)
    }),
  )
})

it('gives pictures plain names of their own, the second one the back', () => {
  let draft = whole()
  draft = addPicture(draft, '../Grüße aus "Ennish".PNG', picture('b')) as typeof draft
  draft = addPicture(draft, 'front.png', picture('c')) as typeof draft
  const files = draft.exemplar.pictures.map(({ file }) => file)
  expect(new Set(files).size).toBe(3)
  expect(draft.exemplar.pictures.map(({ side }) => side)).toEqual(['front', 'back', 'front'])
  expect(parseExemplar(draft.exemplar)).toHaveProperty('exemplar')
  expect(Object.keys(removePicture(draft, 'front.png').stored)).not.toContain('front.png')
})

it('takes a make of copy out of every point with it', () => {
  const { exemplar } = exemplars[0]!
  const less = removeMake(exemplar, 'scan')
  expect(less.copies.map(({ id }) => id)).toEqual(['type'])
  expect(less.points.some(({ copies }) => 'scan' in copies)).toBe(false)
})

it('reads the size of a card off a ruler in its plane', () => {
  const corners = [
    [100, 100],
    [735, 100],
    [735, 989],
    [100, 989],
  ] as const
  const ruler = [
    [100, 1050],
    [600, 1050],
  ] as const
  // 10 px a millimetre: the nominal 63.5 × 88.9 mm of a standard card.
  expect(sizeFromRuler(corners, ruler, 50)).toEqual({ widthMm: 63.5, heightMm: 88.9 })
  expect(sizeFromRuler(corners, [ruler[0], ruler[0]], 50)).toBeNull()
})

it('moves in a list without losing anything', () => {
  fc.assert(
    fc.property(fc.array(fc.integer()), fc.nat(20), fc.nat(20), (list, from, to) => {
      expect(moveInList(list, from, to).sort()).toEqual([...list].sort())
    }),
  )
})

describe('merging', () => {
  const own = exemplars[0]!
  it('of one with itself changes nothing', () => {
    expect(mergeExemplars(own, own)).toEqual({ exemplar: own.exemplar, stored: own.stored })
  })
  it('adds what is new under free names and can be read again', () => {
    const more = {
      exemplar: {
        ...own.exemplar,
        copies: [{ id: 'scan', name: 'Ink-jet', description: '' }],
        pictures: [{ ...own.exemplar.pictures[0]!, corners: null }],
        points: [{ ...own.exemplar.points[0]!, name: 'Another hairline', copies: { scan: 'passes' as const } }],
      },
      stored: { 'front.png': picture('other') },
    }
    const { exemplar, stored } = mergeExemplars(own, more)
    expect(exemplar.points).toHaveLength(own.exemplar.points.length + 1)
    expect(exemplar.points.slice(0, -1)).toEqual(own.exemplar.points)
    const added = exemplar.points.at(-1)!
    expect(added.id).toBe('name-plate-2')
    // What it said of its own "scan" is said of that make, not of ours.
    expect(added.copies).toEqual({ 'scan-2': 'passes' })
    expect(stored['front-2.png']).toEqual(picture('other'))
    expect(parseExemplar(exemplar)).toHaveProperty('exemplar')
  })
  it('finds a free name', () => {
    expect(freeName('a.png', new Set(['a.png', 'a-2.png']))).toBe('a-3.png')
    expect(freeName('a', new Set())).toBe('a')
  })
})
