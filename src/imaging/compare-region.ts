/**
 * One point of an exemplar on one photo, from pixels to a verdict. What a photo cannot resolve is never measured into a
 * verdict, and a difference that its own uncertainty could explain is none.
 */
import type { ExemplarPoint, PointComparison } from '../domain/exemplar.ts'
import { defaultToleranceOf, POINT_KINDS, type PointKind, unitOf } from '../domain/exemplar-kinds.ts'
import { type CannotTell, cannotTell, cannotTellOn } from './cannot-tell.ts'
import type { PlacedPicture } from './placed-picture.ts'
import { borderWidth } from './points/border-width.ts'
import { cornerRoundness } from './points/corner-roundness.ts'
import { countersOpen } from './points/counters-open.ts'
import { edgeSharpness } from './points/edge-sharpness.ts'
import { flush, gap } from './points/lines-apart.ts'
import { markPresent } from './points/mark-present.ts'
import { paperTone } from './points/paper-tone.ts'
import type { AnyMeasure, Measured, MeasuredBeside } from './points/point-measure.ts'
import { sameLook } from './points/same-look.ts'
import { seam } from './points/seam.ts'
import { solidOrScreen } from './points/solid-or-screen.ts'
import { strokeWidth } from './points/stroke-width.ts'
import { tint } from './points/tint.ts'
import { tintOrder } from './points/tint-order.ts'

const MEASURES = {
  'edge-sharpness': edgeSharpness,
  'stroke-width': strokeWidth,
  'corner-roundness': cornerRoundness,
  'counters-open': countersOpen,
  'solid-or-screen': solidOrScreen,
  tint,
  'tint-order': tintOrder,
  seam,
  flush,
  gap,
  'mark-present': markPresent,
  'border-width': borderWidth,
  'paper-tone': paperTone,
  'same-look': sameLook,
} as const

/** @returns how a kind is measured; `null` for what only a person judges. */
export function createPointMeasure(kind: PointKind): AnyMeasure | null {
  // Each kind's measure takes its own kind of point; whoever asks hands over the point of this very kind.
  return kind === 'judged' ? null : (MEASURES[kind] as unknown as AnyMeasure)
}

/** Blur in px at the needed scale that every kind bears: a sharp photo has 0.5 to 1. Ours. */
const LARGEST_BLUR_PX_AT_NEED = 1.3
/** So many exemplars, and their own variation sets the tolerance. */
const LEAST_PIECES = 3
/**
 * Two-sided 99 % prediction for one more piece: Student's t at 0.995 by degrees of freedom (standard table), times √(1 + 1/n).
 */
const STUDENT_995 = [63.66, 9.925, 5.841, 4.604, 4.032, 3.707, 3.499, 3.355, 3.25]
/** Few pieces may happen to be alike or far apart: their variation counts between these shares of the kind's default. Ours. */
const TOLERANCE_SHARES = { least: 0.5, most: 3 }

/** What an exemplar's pictures measure does not change from photo to photo. */
export type ModelMemo = Map<string, unknown>

function remember<T>(memo: ModelMemo, key: string, make: () => T): T {
  if (!memo.has(key)) memo.set(key, make())
  return memo.get(key) as T
}

/** @param models the side's pictures of different known-genuine pieces, all in the first one's print; the best resolved first. */
export function compareRegion(
  point: ExemplarPoint,
  models: readonly PlacedPicture[],
  photo: PlacedPicture,
  memo: ModelMemo = new Map(),
): PointComparison {
  const facts = POINT_KINDS[point.kind]
  const measure = createPointMeasure(point.kind)
  const [exemplar] = models
  const middle = [point.region.x + point.region.width / 2, point.region.y + point.region.height / 2] as const
  const pxPerMm = Math.round(100 * photo.plane.scaleAt(...middle)) / 100
  const { x, y, width, height } = point.region
  const place = [
    photo.plane.toPixels(x, y),
    photo.plane.toPixels(x + width, y),
    photo.plane.toPixels(x + width, y + height),
    photo.plane.toPixels(x, y + height),
  ]
  const base = {
    ...nothingMeasured(point),
    pxPerMm,
    neededPxPerMm: Math.max(facts.needsPxPerMm, point.needsPxPerMm ?? 0),
    place,
  }
  const untold = (why: CannotTell): PointComparison => ({ ...base, verdict: 'cannot-tell', ...why })
  if (!exemplar) return untold(cannotTell('exemplar-unusable'))
  if (!measure) return untold(cannotTell('for-the-person'))

  const key = point.id
  let model: Measured | null = null
  let asked = 0
  if (measure.way === 'alone') {
    const measured = remember(memo, `model ${key}`, () => measure.measure(point, exemplar))
    if ('reason' in measured) {
      const weak = tooWeak(exemplar, middle, base.neededPxPerMm, 'exemplar-')
      return untold(weak ?? cannotTellOn('exemplar', measured))
    }
    model = measured
    asked = measure.needs?.(point, measured) ?? 0
  } else asked = remember(memo, `needs ${key}`, () => measure.needs?.(point, exemplar) ?? 0)
  const needed = Math.max(base.neededPxPerMm, Math.round(10 * asked) / 10)
  const told = { ...base, neededPxPerMm: needed }
  const weak = tooWeak(photo, middle, needed, '') ?? tooWeak(exemplar, middle, needed, 'exemplar-')
  if (weak) return { ...told, verdict: 'cannot-tell', ...weak }

  const { tolerance, from, mean } = remember(memo, `tolerance ${key}`, () => toleranceOf(point, models, measure, model))
  if (measure.way === 'alone') {
    const seen = measure.measure(point, photo)
    if ('reason' in seen) return { ...told, verdict: 'cannot-tell', ...seen }
    const known = mean ?? (model as Measured).value
    const also = measure.alsoDiffers?.(point, model as Measured, seen, tolerance) ?? false
    return {
      ...told,
      tolerance,
      toleranceFrom: from,
      ...judge(
        seen,
        known,
        Math.abs(seen.value - known),
        Math.hypot(seen.uncertainty, (model as Measured).uncertainty),
        tolerance,
        also,
        point,
      ),
    }
  }
  const beside = measure.compare(point, exemplar, photo)
  if ('reason' in beside) return { ...told, verdict: 'cannot-tell', ...beside }
  const apart = beside.apart ?? Math.abs(beside.value - beside.exemplar)
  return {
    ...told,
    tolerance,
    toleranceFrom: from,
    ...judge(beside, beside.exemplar, apart, beside.uncertainty, tolerance, beside.alsoDiffers ?? false, point),
  }
}

/** A comparison of which nothing was measured yet. */
export function nothingMeasured(point: ExemplarPoint) {
  const passedBy = Object.entries(point.copies).flatMap(([make, does]) => (does === 'passes' ? [make] : []))
  return {
    point: point.id,
    kind: point.kind,
    value: null,
    unit: unitOf(point),
    uncertainty: null,
    exemplar: null,
    tolerance: point.tolerance ?? defaultToleranceOf(point),
    photo: null,
    cause: null,
    passedBy,
  } as const
}

/** Pixels that are not there, or there but empty: an enlarged picture has the px/mm and not the sharpness. */
function tooWeak(
  picture: PlacedPicture,
  middle: readonly [number, number],
  needed: number,
  of: '' | 'exemplar-',
): CannotTell | null {
  const scale = picture.plane.scaleAt(...middle)
  if (scale < needed) return cannotTell(`${of}too-coarse`, { scale: scale.toFixed(1), needed: String(needed) })
  const blur = (picture.blurPx ?? 0) / scale
  const most = LARGEST_BLUR_PX_AT_NEED / needed
  return blur > most ? cannotTell(`${of}blurred`, { blur: blur.toFixed(2), most: most.toFixed(2) }) : null
}

function toleranceOf(
  point: ExemplarPoint,
  models: readonly PlacedPicture[],
  measure: AnyMeasure,
  first: Measured | null,
): { tolerance: number; from: 'point' | 'exemplars' | 'default'; mean: number | null } {
  const stated = defaultToleranceOf(point)
  const [exemplar, ...others] = models
  const values: number[] = first ? [first.value] : []
  for (const other of others) {
    const measured = measure.way === 'alone' ? measure.measure(point, other) : measure.compare(point, exemplar!, other)
    if (!('reason' in measured)) values.push(measured.value)
  }
  // What is measured against the first piece varies about the first piece's own value.
  const n = measure.way === 'alone' ? values.length : values.length + 1
  const mean = values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length)
  const known = measure.way === 'alone' && n >= 2 ? mean : null
  if (point.tolerance !== null) return { tolerance: point.tolerance, from: 'point', mean: known }
  if (n < LEAST_PIECES || stated === 0) return { tolerance: stated, from: 'default', mean: known }
  const centre = measure.way === 'alone' ? mean : POINT_KINDS[point.kind].unit === 'SSIM' ? 1 : 0
  const spread = Math.sqrt(
    values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - (measure.way === 'alone' ? 1 : 0)),
  )
  const t = STUDENT_995[Math.min(STUDENT_995.length, n - 1) - 1]!
  const tolerance = t * spread * Math.sqrt(1 + 1 / n)
  return {
    tolerance: Math.min(TOLERANCE_SHARES.most * stated, Math.max(TOLERANCE_SHARES.least * stated, tolerance)),
    from: 'exemplars',
    mean: known,
  }
}

const DIGITS: Readonly<Record<string, number>> = { mm: 2, SSIM: 2, counters: 0, µm: 0, '%': 0, lpi: 0 }

/**
 * `differs` only where the whole of the uncertainty lies beyond the tolerance (ISO 14253-1's rule for proving
 * non-conformance); `agrees` where the whole of it lies within, or the value does and the uncertainty is under half of the
 * tolerance; between the two, no verdict.
 */
function judge(
  seen: Measured | MeasuredBeside,
  model: number,
  apart: number,
  uncertainty: number,
  tolerance: number,
  alsoDiffers: boolean,
  point: ExemplarPoint,
) {
  const unit = unitOf(point)
  const digits = DIGITS[unit] ?? 1
  const round = (x: number) => Number(x.toFixed(digits + 1))
  const allowed = Number(tolerance.toFixed(digits + 1))
  const words = `${apart.toFixed(digits)} ± ${uncertainty.toFixed(digits)} ${unit} apart, ${allowed} allowed`
  const figures = {
    value: round(seen.value),
    exemplar: round(model),
    uncertainty: round(uncertainty),
    ...(seen.figures && {
      figures: Object.fromEntries(
        Object.entries(seen.figures).map(([name, value]) => [name, Number(value.toFixed(3))]),
      ),
    }),
  }
  if (apart - uncertainty > tolerance || alsoDiffers) return { verdict: 'differs', ...figures, reason: words } as const
  if (apart + uncertainty <= tolerance || (apart <= tolerance && uncertainty <= tolerance / 2)) {
    return { verdict: 'agrees', ...figures, reason: words } as const
  }
  return { verdict: 'cannot-tell', ...figures, reason: `${words}: too near to say` } as const
}
