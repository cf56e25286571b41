/**
 * Which face of a card an outline shows, from what is printed: rows of small lettering over most of it are a back, a picture with a
 * name is a front, bare even stock is a back. That there is no lettering is no sign of anything.
 */
import type { Point } from '../../domain/photo-facts.ts'
import type { Four } from '../geometry/find-quads.ts'
import { areaOf } from '../geometry/find-quads.ts'
import { contains } from '../geometry/read-layout.ts'
import type { WorkingPicture } from '../geometry/working-picture.ts'
import type { TextRow } from './find-text-rows.ts'

export interface FaceSigns {
  readonly glyphs: number
  readonly rows: number
  /** Share of the card's area under rows of lettering. */
  readonly lettered: number
  /** Colours that take up at least a 200th of the card each, luma in sixteenths, colour in steps of 12. */
  readonly colours: number
  /** Share of the card taken by its commonest colour and that colour's neighbours: paper, on a back. */
  readonly commonest: number
  /** Mean step between neighbouring pixels, levels. */
  readonly roughness: number
}

export type Face = 'front' | 'back' | null

/** @param rows in px of the working picture. */
export function readFace(picture: WorkingPicture, card: Four, rows: readonly TextRow[]): FaceSigns {
  const inside = rows.filter((row) => contains(card, [(row.left + row.right) / 2, (row.top + row.bottom) / 2]))
  const area = areaOf(card)
  const middle: Point = [0, 1].map((c) => card.reduce((sum, p) => sum + (p[c] as number), 0) / 4) as never
  // The outermost twentieth is left out: blur mixes it with the table.
  const inner = card.map(([x, y]) => [x + 0.06 * (middle[0] - x), y + 0.06 * (middle[1] - y)]) as unknown as Four
  const { width, height, luma, blue, red } = picture
  const bins = new Map<number, number>()
  let [count, steps] = [0, 0]
  const [x0, x1] = [
    Math.max(0, Math.floor(Math.min(...inner.map((p) => p[0])))),
    Math.min(width - 1, Math.ceil(Math.max(...inner.map((p) => p[0])))),
  ]
  const [y0, y1] = [
    Math.max(0, Math.floor(Math.min(...inner.map((p) => p[1])))),
    Math.min(height - 1, Math.ceil(Math.max(...inner.map((p) => p[1])))),
  ]
  for (let y = y0; y < y1; y++) {
    for (let x = x0; x < x1; x++) {
      if (!contains(inner, [x + 0.5, y + 0.5], 0)) continue
      const at = y * width + x
      count++
      steps += Math.abs((luma[at + 1] as number) - (luma[at] as number))
      const bin =
        (Math.floor((luma[at] as number) / 16) * 32 + Math.floor(((blue[at] as number) + 128) / 12)) * 32 +
        Math.floor(((red[at] as number) + 128) / 12)
      bins.set(bin, (bins.get(bin) ?? 0) + 1)
    }
  }
  const [commonBin] = [...bins].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0])
  let near = 0
  for (const [bin, n] of bins) {
    const [l, b, r] = [
      Math.floor(bin / 1024) - Math.floor(commonBin / 1024),
      (Math.floor(bin / 32) % 32) - (Math.floor(commonBin / 32) % 32),
      (bin % 32) - (commonBin % 32),
    ]
    if (Math.abs(l) <= 1 && Math.abs(b) <= 1 && Math.abs(r) <= 1) near += n
  }
  return {
    glyphs: inside.reduce((sum, row) => sum + row.glyphs, 0),
    rows: inside.length,
    lettered: inside.reduce((sum, row) => sum + (row.right - row.left) * row.height, 0) / Math.max(1, area),
    colours: [...bins.values()].filter((n) => n > count / 200).length,
    commonest: count === 0 ? 0 : near / count,
    roughness: count === 0 ? 0 : steps / count,
  }
}
