/** JPEG quality against the tables of ITU-T T.81 Annex K under the Independent JPEG Group's scaling, and against an encoder. */
import { createCanvas } from '@napi-rs/canvas'
import { describe, expect, it } from 'vitest'
import { estimateJpegQuality, scaleTable } from '../../src/imaging/jpeg-quality.ts'
import { walkJpeg } from '../../src/imaging/walk-jpeg.ts'

/** ITU-T T.81 (1992), table K.1, typed from the standard's rows. From memory, not read again; libjpeg below confirms it. */
const K1 = [
  [16, 11, 10, 16, 24, 40, 51, 61],
  [12, 12, 14, 19, 26, 58, 60, 55],
  [14, 13, 16, 24, 40, 57, 69, 56],
  [14, 17, 22, 29, 51, 87, 80, 62],
  [18, 22, 37, 56, 68, 109, 103, 77],
  [24, 35, 55, 64, 81, 104, 113, 92],
  [49, 64, 78, 87, 103, 121, 120, 101],
  [72, 92, 95, 98, 112, 100, 103, 99],
]

/** Zig-zag order made by walking the diagonals, as figure 5 of the standard draws it. */
function toZigZag(rows: readonly (readonly number[])[]): number[] {
  const order: number[] = []
  for (let diagonal = 0; diagonal < 15; diagonal++) {
    const cells = Array.from({ length: 8 }, (_, i) => [i, diagonal - i] as const).filter(([, j]) => j >= 0 && j < 8)
    for (const [i, j] of diagonal % 2 === 0 ? [...cells].reverse() : cells) order.push(rows[i]![j]!)
  }
  return order
}

describe('scaled tables of Annex K', () => {
  it('are unscaled at 50', () => {
    expect(scaleTable(K1.flat(), 50)).toEqual(K1.flat())
  })

  it('are all ones at 100', () => {
    expect(new Set(scaleTable(K1.flat(), 100))).toEqual(new Set([1]))
  })

  it.each([5, 10, 25, 40, 50, 60, 75, 85, 90, 95, 99, 100])('are recognised at %i', (quality) => {
    const rows = Array.from({ length: 8 }, (_, i) => scaleTable(K1.flat(), quality).slice(8 * i, 8 * i + 8))
    expect(estimateJpegQuality(toZigZag(rows))).toBe(quality)
  })
})

it.each([30, 60, 75, 90, 95])('reads the quality that an encoder (libjpeg-turbo in Skia) was set to: %i', (quality) => {
  const canvas = createCanvas(64, 64)
  const table = walkJpeg(canvas.toBuffer('image/jpeg', quality)).quantisation.get(0)
  expect(table).toBeDefined()
  expect(estimateJpegQuality(table!)).toBe(quality)
  const scaled = scaleTable(K1.flat(), quality)
  const rows = Array.from({ length: 8 }, (_, i) => scaled.slice(8 * i, 8 * i + 8))
  expect(table, 'every step of the table, not only the nearest quality').toEqual(toZigZag(rows))
})

it('does not place a table that is unlike any of the scale', () => {
  expect(estimateJpegQuality(Array.from({ length: 64 }, (_, i) => 1 + ((i * 37) % 90)))).toBeNull()
})
