/**
 * What part of a piece a pane shows: the millimetre in its middle and the scale. Pure: panning, zooming at a place, flying to a region.
 * Two panes with one view are linked by it: the same millimetres at the same scale in both.
 */
import type { Region } from '../../domain/exemplar.ts'
import type { Size } from './square-picture.ts'

export interface View {
  /** Millimetre of the piece in the pane's middle. */
  readonly xMm: number
  readonly yMm: number
  /** CSS pixels a millimetre. */
  readonly scale: number
}

/** CSS pixels. */
export interface Pane {
  readonly width: number
  readonly height: number
}

export interface Place {
  readonly x: number
  readonly y: number
}

/** Fifty CSS pixels for a tenth of a millimetre: beyond, only single pixels are seen. Ours. */
const LARGEST_SCALE = 500
/** A piece the size of a thumbnail. Ours. */
const SMALLEST_SCALE = 0.5
/** A place is shown with this much around it, as a multiple of its own size. */
const AROUND = 1.6
/** Millimetres: no closer than this, or a tiny region would fill the pane with a few blurred pixels. Ours. */
const LEAST_SHOWN_MM = 6

const within = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most)

export function fitView(size: Size, pane: Pane, marginMm = 3): View {
  const across = pane.width / (size.widthMm + 2 * marginMm)
  const down = pane.height / (size.heightMm + 2 * marginMm)
  return {
    xMm: size.widthMm / 2,
    yMm: size.heightMm / 2,
    scale: within(Math.min(across, down), SMALLEST_SCALE, LARGEST_SCALE),
  }
}

export function viewOfRegion(region: Region, pane: Pane): View {
  const across = Math.max(region.width * AROUND, LEAST_SHOWN_MM)
  const down = Math.max(region.height * AROUND, LEAST_SHOWN_MM)
  return {
    xMm: region.x + region.width / 2,
    yMm: region.y + region.height / 2,
    scale: within(Math.min(pane.width / across, pane.height / down), SMALLEST_SCALE, LARGEST_SCALE),
  }
}

/** The middle stays within the piece and a little around it, so that nobody gets lost. */
export function keepNear(view: View, size: Size): View {
  const around = 10
  return {
    ...view,
    xMm: within(view.xMm, -around, size.widthMm + around),
    yMm: within(view.yMm, -around, size.heightMm + around),
  }
}

export function pan(view: View, dx: number, dy: number): View {
  return { ...view, xMm: view.xMm - dx / view.scale, yMm: view.yMm - dy / view.scale }
}

/** The millimetre under `at` stays there. */
export function zoom(view: View, factor: number, at: Place, pane: Pane): View {
  const scale = within(view.scale * factor, SMALLEST_SCALE, LARGEST_SCALE)
  const place = toMm(view, at, pane)
  return {
    xMm: place.x - (at.x - pane.width / 2) / scale,
    yMm: place.y - (at.y - pane.height / 2) / scale,
    scale,
  }
}

export function toMm(view: View, at: Place, pane: Pane): Place {
  return {
    x: view.xMm + (at.x - pane.width / 2) / view.scale,
    y: view.yMm + (at.y - pane.height / 2) / view.scale,
  }
}

export function toCss(view: View, xMm: number, yMm: number, pane: Pane): Place {
  return {
    x: (xMm - view.xMm) * view.scale + pane.width / 2,
    y: (yMm - view.yMm) * view.scale + pane.height / 2,
  }
}

/** Between two views, `share` from 0 to 1; the scale by its logarithm, so that flying looks even. */
export function between(from: View, to: View, share: number): View {
  const mix = (a: number, b: number) => a + (b - a) * share
  return {
    xMm: mix(from.xMm, to.xMm),
    yMm: mix(from.yMm, to.yMm),
    scale: Math.exp(mix(Math.log(from.scale), Math.log(to.scale))),
  }
}

/** Millimetres between two lines of the grid: never closer than 24 CSS pixels. */
export function gridStep(scale: number): number {
  return [0.1, 0.5, 1, 5, 10, 50].find((step) => step * scale >= 24) ?? 50
}
