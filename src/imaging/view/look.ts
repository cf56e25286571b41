/** Everything that the view is told from, measured once: outlines, lettering, light, screen, close-ups. */
import { type Layout, readLayout } from '../geometry/read-layout.ts'
import { shrinkForWork, type WorkingPicture } from '../geometry/working-picture.ts'
import { type Grey, type Pixels, shrink } from '../pixels.ts'
import { type FullSide, findCorner, findFullSides, findStrip, type PartialCorner, type Strip } from './find-partial.ts'
import { findScreen, type ScreenSigns } from './find-screen.ts'
import { findTextRows, type TextRow } from './find-text-rows.ts'
import { type LightSigns, measureLight } from './measure-light.ts'
import { type FaceSigns, readFace } from './read-face.ts'

export interface Look {
  readonly picture: WorkingPicture
  readonly layout: Layout
  /** Rows of lettering, px of the working picture. */
  readonly rows: readonly TextRow[]
  readonly light: LightSigns
  /** Measured only where no card lies whole in the photo: `null` else. */
  readonly screen: ScreenSigns | null
  readonly corner: PartialCorner | null
  readonly strip: Strip | null
  readonly sides: readonly FullSide[]
  readonly face: FaceSigns | null
}

// Lettering of 2 mm on a card that fills half of the photo is nine px high at this. Ours.
const READING_SIDE = 1100
// The tallest letters looked for, share of the photo's long side: a grade on a label that fills the photo.
const TALLEST = 0.09

export function look(pixels: Pixels, grey: Grey): Look {
  const picture = shrinkForWork(pixels)
  const layout = readLayout(picture)
  const rows = readRows(grey, picture, layout)
  const { card } = layout
  return {
    picture,
    layout,
    rows,
    light: measureLight(picture, card),
    screen: card !== null && card.merit > 0.7 ? null : findScreen(grey),
    corner: findCorner(picture, layout.lines),
    strip: findStrip(picture, layout.lines),
    sides: findFullSides(picture, layout.lines),
    face: card && readFace(picture, card.corners, rows),
  }
}

function readRows(grey: Grey, picture: WorkingPicture, { card }: Layout): TextRow[] {
  const factor = Math.min(1, READING_SIDE / Math.max(grey.width, grey.height))
  const small = shrink(grey, Math.round(grey.width * factor), Math.round(grey.height * factor))
  const tallest = TALLEST * Math.max(small.width, small.height)
  const [kx, ky] = [picture.width / small.width, picture.height / small.height]
  const upright = findTextRows(small, tallest).map((row) => scaled(row, kx, ky))
  // A card lying on its side is read again, turned; lettering upright in the photo wins.
  const lying =
    card !== null &&
    Math.abs(card.corners[1][0] - card.corners[0][0]) > Math.abs(card.corners[3][1] - card.corners[0][1])
  if (!lying || upright.reduce((sum, row) => sum + row.glyphs, 0) > 40) return upright
  const turned = findTextRows(transposed(small), tallest).map(({ left, top, right, bottom, ...row }) =>
    scaled({ ...row, left: top, top: left, right: bottom, bottom: right }, kx, ky),
  )
  return [...upright, ...turned]
}

function scaled(row: TextRow, kx: number, ky: number): TextRow {
  return {
    ...row,
    left: row.left * kx,
    right: row.right * kx,
    top: row.top * ky,
    bottom: row.bottom * ky,
    height: row.height * ky,
  }
}

/** Rows become columns. Mirrored lettering is still lettering by its form. */
function transposed({ width, height, data }: Grey): Grey {
  const turned = new Float32Array(data.length)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) turned[x * height + y] = data[y * width + x] as number
  return { width: height, height: width, data: turned }
}
