/** Drawing laid-square pictures into a pane: the picture, the grid, the cut edge, a mark. Draws only; decides nothing. */
import type { Region } from '../../domain/exemplar.ts'
import type { PaintedPane } from './Plate.tsx'
import { levelFor, type Size, type SquarePicture, toPhotoPixels } from './square-picture.ts'
import { gridStep, type Pane, type Place, toCss } from './view.ts'

/** Enlarged beyond this, a pixel is shown as the square that it is. */
const PIXELS_SHOW_AT = 4

type Surface = Pick<PaintedPane, 'context' | 'view' | 'ratio'> & Pane

export function paintPicture({ context, view, ratio, ...pane }: Surface, square: SquarePicture): void {
  const { level, pxPerMm } = levelFor(square, view.scale * ratio)
  context.imageSmoothingEnabled = (view.scale * ratio) / square.pxPerMm < PIXELS_SHOW_AT
  // What is not seen is not drawn: of a large level only the part under the glass.
  const edge = (mm: number, side: number) => Math.min(Math.max((mm + square.marginMm) * pxPerMm, 0), side)
  const left = Math.floor(edge(view.xMm - pane.width / 2 / view.scale, level.width))
  const right = Math.ceil(edge(view.xMm + pane.width / 2 / view.scale, level.width))
  const top = Math.floor(edge(view.yMm - pane.height / 2 / view.scale, level.height))
  const bottom = Math.ceil(edge(view.yMm + pane.height / 2 / view.scale, level.height))
  if (right <= left || bottom <= top) return
  const at = toCss(view, left / pxPerMm - square.marginMm, top / pxPerMm - square.marginMm, pane)
  const enlarged = view.scale / pxPerMm
  context.drawImage(
    level,
    left,
    top,
    right - left,
    bottom - top,
    at.x,
    at.y,
    (right - left) * enlarged,
    (bottom - top) * enlarged,
  )
}

/** Millimetres, with every tenth line heavier; light over dark, so that it shows on any picture. */
export function paintGrid({ context, view, ...pane }: Surface, size: Size): void {
  const step = gridStep(view.scale)
  const from = toCss(view, 0, 0, pane)
  const to = toCss(view, size.widthMm, size.heightMm, pane)
  context.save()
  context.beginPath()
  context.rect(Math.max(from.x, 0), Math.max(from.y, 0), Math.min(to.x, pane.width), Math.min(to.y, pane.height))
  context.lineWidth = 1
  for (const [colour, offset] of [
    ['rgb(0 0 0 / 45%)', 0.5],
    ['rgb(255 255 255 / 45%)', 1.5],
  ] as const) {
    context.beginPath()
    context.strokeStyle = colour
    const first = Math.max(0, Math.ceil((view.xMm - pane.width / 2 / view.scale) / step))
    for (let n = first; n * step <= size.widthMm; n++) {
      const x = Math.round(toCss(view, n * step, 0, pane).x) + offset
      if (x > pane.width) break
      context.moveTo(x, Math.max(from.y, 0))
      context.lineTo(x, Math.min(to.y, pane.height))
    }
    const firstDown = Math.max(0, Math.ceil((view.yMm - pane.height / 2 / view.scale) / step))
    for (let n = firstDown; n * step <= size.heightMm; n++) {
      const y = Math.round(toCss(view, 0, n * step, pane).y) + offset
      if (y > pane.height) break
      context.moveTo(Math.max(from.x, 0), y)
      context.lineTo(Math.min(to.x, pane.width), y)
    }
    context.stroke()
  }
  context.restore()
}

/** Two lines, dark and brass: one of them stands out on any picture. */
export function paintMark({ context, view, ...pane }: Surface, region: Region): void {
  const at = toCss(view, region.x, region.y, pane)
  const [width, height] = [region.width * view.scale, region.height * view.scale]
  context.lineWidth = 4
  context.strokeStyle = '#1b2023'
  context.strokeRect(at.x - 2, at.y - 2, width + 4, height + 4)
  context.lineWidth = 2
  context.strokeStyle = '#e3b75c'
  context.strokeRect(at.x - 2, at.y - 2, width + 4, height + 4)
}

export function paintCross({ context, view, ...pane }: Surface, mm: Place): void {
  const { x, y } = toCss(view, mm.x, mm.y, pane)
  for (const [width, colour] of [
    [3, '#1b2023'],
    [1, '#ffffff'],
  ] as const) {
    context.beginPath()
    context.lineWidth = width
    context.strokeStyle = colour
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      context.moveTo(x + dx * 4, y + dy * 4)
      context.lineTo(x + dx * 14, y + dy * 14)
    }
    context.stroke()
  }
}

export function paintLine({ context, view, ...pane }: Surface, from: Place, to: Place): void {
  const a = toCss(view, from.x, from.y, pane)
  const b = toCss(view, to.x, to.y, pane)
  for (const [width, colour] of [
    [4, '#1b2023'],
    [2, '#e3b75c'],
  ] as const) {
    context.beginPath()
    context.lineWidth = width
    context.strokeStyle = colour
    context.moveTo(a.x, a.y)
    context.lineTo(b.x, b.y)
    context.stroke()
  }
}

/**
 * The photo's own pixels around a place of the piece, each as the little square that it is, turned as the piece lies.
 * @param acrossMm what the surface shows from left to right.
 */
export function paintOwnPixels(
  context: CanvasRenderingContext2D,
  square: SquarePicture,
  at: Place,
  acrossMm: number,
  side: number,
): void {
  const scale = side / acrossMm
  // The plane near one place is as good as flat: photo pixels to millimetres by its two directions there.
  const here = toPhotoPixels(square, at.x, at.y)
  const step = 0.1
  const right = toPhotoPixels(square, at.x + step, at.y)
  const below = toPhotoPixels(square, at.x, at.y + step)
  const [ux, uy] = [(right.x - here.x) / step, (right.y - here.y) / step]
  const [vx, vy] = [(below.x - here.x) / step, (below.y - here.y) / step]
  const determinant = ux * vy - uy * vx
  if (Math.abs(determinant) < 1e-9) return
  const [a, b, c, d] = [vy / determinant, -uy / determinant, -vx / determinant, ux / determinant].map((n) => n * scale)
  context.save()
  context.clearRect(0, 0, side, side)
  context.imageSmoothingEnabled = false
  context.transform(a!, b!, c!, d!, side / 2 - a! * here.x - c! * here.y, side / 2 - b! * here.x - d! * here.y)
  const reach = acrossMm * Math.max(Math.hypot(ux, uy), Math.hypot(vx, vy))
  const left = Math.max(0, Math.floor(here.x - reach))
  const top = Math.max(0, Math.floor(here.y - reach))
  const width = Math.min(square.photo.width, Math.ceil(here.x + reach)) - left
  const height = Math.min(square.photo.height, Math.ceil(here.y + reach)) - top
  if (width > 0 && height > 0) context.drawImage(square.photo, left, top, width, height, left, top, width, height)
  context.restore()
}
