/** The demo's exemplars show every kind of point, and questioned photos of every make of copy. */
import { expect, it } from 'vitest'
import { INSECT_POINTS, SHIP_POINTS } from '../../../src/demo/market/exemplar-points.ts'
import { DEMO_EXEMPLAR_IDS, QUESTIONED } from '../../../src/demo/market/exemplars.ts'
import { POINT_KIND_IDS } from '../../../src/domain/exemplar-kinds.ts'

it.each([
  ['insects', INSECT_POINTS],
  ['ships', SHIP_POINTS],
])('%s cover all kinds in fourteen points or more', (_, points) => {
  expect(points.length).toBeGreaterThanOrEqual(14)
  expect(new Set(points.map(({ kind }) => kind))).toEqual(new Set(POINT_KIND_IDS))
})

it('every exemplar has genuine other copies and five makes of copy', () => {
  for (const id of DEMO_EXEMPLAR_IDS) {
    expect(new Set(QUESTIONED.filter(({ exemplar }) => exemplar === id).map(({ printing }) => printing)).size).toBe(6)
  }
})
