/**
 * Where on a larger picture the label is: lines of text are found, read once, and those around a long number or a grade are taken
 * together. Text of a card's own is no label.
 */
import type { Point } from '../../domain/photo-facts.ts'
import { type Corners, createPlane } from '../homography.ts'
import type { Pixels } from '../pixels.ts'
import { cutOut } from './cut-out.ts'
import { findTextLines, type TextBox } from './find-text-lines.ts'
import { looksLikeLabel, type PlacedLine } from './parse-label.ts'
import { readTextLine } from './read-text-line.ts'
import type { TextModels } from './text-models.ts'

// Pixels of the longer side on which lines are searched: type of 1/100 of it is still found, and it costs half a second.
const SEARCH_SIDE = 960
// Lines read to find the label: a label has about eight, the card beneath it a few.
const MOST_READ = 14

export const toMultipleOf32 = (px: number) => Math.max(32, Math.round(px / 32) * 32)

/** @returns the label's corners in pixels of the photo, or `null`. @param area where to look, in pixels of the photo */
export async function locateLabel(
  pixels: Pixels,
  area: Corners,
  models: TextModels,
  signal?: AbortSignal,
): Promise<Corners | null> {
  const side = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1])
  const across = Math.max(side(area[0], area[1]), side(area[3], area[2]))
  const down = Math.max(side(area[0], area[3]), side(area[1], area[2]))
  const shrink = Math.min(1.5, SEARCH_SIDE / Math.max(across, down))
  const [width, height] = [toMultipleOf32(across * shrink), toMultipleOf32(down * shrink)]
  const flat = cutOut(pixels, area, width, height)
  if (!flat) return null
  const boxes = await findTextLines(flat, models)
  const read: { box: TextBox; line: PlacedLine }[] = []
  // The label is above the card, so lines are read from the top.
  for (const box of boxes.slice(0, MOST_READ)) {
    signal?.throwIfAborted()
    const line = await readTextLine(flat, box.corners, models)
    read.push({ box, line: { ...line, left: 0, right: 1, top: 0, bottom: 1 } })
  }
  const seeds = read.filter(({ line }) => looksLikeLabel([line]))
  if (seeds.length === 0) return null
  const group = gather(seeds[0]!.box, boxes)
  const around = boundsOf(group)
  // Back into the photo through the same plane that the area was laid flat by.
  return toPhoto(around, area, width, height)
}

const angleOf = ({ corners: [a, b] }: TextBox) => Math.atan2(b[1] - a[1], b[0] - a[0])
const heightOf = ({ corners: [a, , , d] }: TextBox) => Math.hypot(d[0] - a[0], d[1] - a[1])

/** The box's extent along and across a direction. */
function extent({ corners }: TextBox, cos: number, sin: number) {
  const u = corners.map(([x, y]) => x * cos + y * sin)
  const v = corners.map(([x, y]) => -x * sin + y * cos)
  return { left: Math.min(...u), right: Math.max(...u), top: Math.min(...v), bottom: Math.max(...v) }
}

/** Lines near each other: no further apart than two lines downwards or four across. */
function gather(seed: TextBox, boxes: readonly TextBox[]): TextBox[] {
  const [cos, sin] = [Math.cos(angleOf(seed)), Math.sin(angleOf(seed))]
  const group = [seed]
  for (let at = 0; at < group.length; at++) {
    const here = extent(group[at]!, cos, sin)
    const unit = heightOf(seed)
    for (const box of boxes) {
      if (group.includes(box)) continue
      const there = extent(box, cos, sin)
      const down = Math.max(there.top - here.bottom, here.top - there.bottom)
      const across = Math.max(there.left - here.right, here.left - there.right)
      if (down < unit * 1.5 && across < unit * 6) group.push(box)
    }
  }
  return group
}

function boundsOf(group: readonly TextBox[]): Corners {
  const longest = group.reduce((a, b) => (heightOf(b) > 0 && lengthOf(b) > lengthOf(a) ? b : a))
  const [cos, sin] = [Math.cos(angleOf(longest)), Math.sin(angleOf(longest))]
  const parts = group.map((box) => extent(box, cos, sin))
  const pad = heightOf(longest) * 0.4
  const left = Math.min(...parts.map((part) => part.left)) - pad
  const right = Math.max(...parts.map((part) => part.right)) + pad
  const top = Math.min(...parts.map((part) => part.top)) - pad
  const bottom = Math.max(...parts.map((part) => part.bottom)) + pad
  const corner = (u: number, v: number): Point => [u * cos - v * sin, u * sin + v * cos]
  return [corner(left, top), corner(right, top), corner(right, bottom), corner(left, bottom)]
}

const lengthOf = ({ corners: [a, b] }: TextBox) => Math.hypot(b[0] - a[0], b[1] - a[1])

function toPhoto(corners: Corners, area: Corners, width: number, height: number): Corners {
  const plane = createPlane(area, { widthMm: width, heightMm: height })!
  return corners.map(([x, y]) => plane.toPixels(x, y)) as unknown as Corners
}
