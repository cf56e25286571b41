/**
 * One point of an exemplar on one photo, from pixels to a verdict. What a photo cannot resolve is never measured into a
 * verdict, and a difference that its own uncertainty could explain is none.
 */
import type { ExemplarPoint, PointComparison } from '../domain/exemplar.ts'
import { type CannotTell, cannotTell, cannotTellOn } from './cannot-tell.ts'
import { measureBorder } from './measure-border.ts'
import { measureTint } from './measure-tint.ts'
import type { PlacedPicture } from './placed-picture.ts'

/** What a kind needs and allows where the point does not say. */
export const KINDS = {
  // A region of two millimetres then has a hundred pixels. Tolerance: copies of one old issue differ by fading and ink more
  // than one print run may (ISO 12647-2 allows 3.5 to 5 for solids); from memory, one exemplar cannot say better.
  tint: { unit: 'ΔE00', needsPxPerMm: 5, tolerance: 6 },
  // Half a pixel of doubt in either edge is then under 0.1 mm. Tolerance: half of the size tolerance after 1945. Ours.
  'border-width': { unit: 'mm', needsPxPerMm: 6, tolerance: 0.4 },
} as const

// Softer than this, an edge of the print spreads over a quarter of a millimetre to either side. Ours.
const LARGEST_BLUR_MM = 0.25

export function compareRegion(point: ExemplarPoint, exemplar: PlacedPicture, photo: PlacedPicture): PointComparison {
  const kind = KINDS[point.kind]
  const tolerance = point.tolerance ?? kind.tolerance
  const base = { point: point.id, kind: point.kind, unit: kind.unit, tolerance, photo: null, cause: null }
  const untold = (why: CannotTell): PointComparison => ({
    ...base,
    verdict: 'cannot-tell',
    value: null,
    uncertainty: null,
    exemplar: null,
    ...why,
  })
  const middle = [point.region.x + point.region.width / 2, point.region.y + point.region.height / 2] as const
  const needed = Math.max(kind.needsPxPerMm, point.needsPxPerMm ?? 0)
  for (const [of, picture] of [
    ['', photo],
    ['exemplar-', exemplar],
  ] as const) {
    const scale = picture.plane.scaleAt(...middle)
    if (scale < needed) {
      return untold(cannotTell(`${of}too-coarse`, { scale: scale.toFixed(1), needed: String(needed) }))
    }
    const blur = (picture.blurPx ?? 0) / scale
    if (blur > LARGEST_BLUR_MM) {
      return untold(cannotTell(`${of}blurred`, { blur: blur.toFixed(2), most: String(LARGEST_BLUR_MM) }))
    }
  }
  if (point.kind === 'tint') {
    const measure = measureTint(point, exemplar, photo)
    if ('reason' in measure) return untold(measure)
    return { ...base, ...judge(measure.value, 0, measure.uncertainty, tolerance, kind.unit) }
  }
  const model = measureBorder(point, exemplar)
  if ('reason' in model) return untold(cannotTellOn('exemplar', model))
  const seen = measureBorder(point, photo)
  if ('reason' in seen) return untold(seen)
  return {
    ...base,
    ...judge(seen.value, model.value, Math.hypot(seen.uncertainty, model.uncertainty), tolerance, kind.unit),
  }
}

/**
 * `differs` only where the whole of the uncertainty lies beyond the tolerance (ISO 14253-1's rule for proving
 * non-conformance); `agrees` within the tolerance where the uncertainty is under half of it; between the two, no verdict.
 */
function judge(value: number, model: number, uncertainty: number, tolerance: number, unit: string) {
  const apart = Math.abs(value - model)
  const digits = unit === 'mm' ? 2 : 1
  const round = (x: number) => Number(x.toFixed(digits + 1))
  const words = `${apart.toFixed(digits)} ± ${uncertainty.toFixed(digits)} ${unit} apart, ${tolerance} allowed`
  const figures = { value: round(value), exemplar: round(model), uncertainty: round(uncertainty) }
  if (apart - uncertainty > tolerance) return { verdict: 'differs', ...figures, reason: words } as const
  if (apart <= tolerance && uncertainty <= tolerance / 2)
    return { verdict: 'agrees', ...figures, reason: words } as const
  return { verdict: 'cannot-tell', ...figures, reason: `${words}: too near to say` } as const
}
