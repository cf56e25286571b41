/**
 * The kinds of point: in what each is measured, what it needs of a photo, what it allows where nothing better is known, which
 * regions a person has to draw, and which physical cause it speaks of. Pure data, for the measuring and the screens alike.
 */

export const POINT_KIND_IDS = [
  'edge-sharpness',
  'stroke-width',
  'corner-roundness',
  'counters-open',
  'solid-or-screen',
  'tint',
  'tint-order',
  'seam',
  'flush',
  'gap',
  'mark-present',
  'border-width',
  'paper-tone',
  'same-look',
  'judged',
] as const
export type PointKind = (typeof POINT_KIND_IDS)[number]

/**
 * What one cause can bring about at many points at once. Points of one cause are no independent evidence: one bad scan
 * softens every edge, one wrong ink shifts every tint.
 */
export const POINT_CAUSES = [
  'sharpness-of-print',
  'ink-gain',
  'screening',
  'inks',
  'register',
  'cutting',
  'stock',
  'design',
] as const
export type PointCause = (typeof POINT_CAUSES)[number]

/** Regions beside the point's own: `reference` an edge that copying does not soften, `other` the second place of a pair. */
export type RegionRole = 'region' | 'other' | 'reference' | 'neutral' | 'paper' | 'opposite'

export interface NeededRegion {
  readonly role: RegionRole
  readonly required: boolean
  /** Several regions may be drawn for this role. */
  readonly many: boolean
}

export type PointUnit = 'µm' | 'mm' | 'ΔE00' | 'ΔL*' | 'b*' | 'lpi' | 'counters' | '%' | 'SSIM' | 'word'

export interface PointKindFacts {
  readonly kind: PointKind
  readonly unit: PointUnit
  /** The least px/mm of any point of the kind; the exemplar may ask for more (a fine stroke, a fine screen). */
  readonly needsPxPerMm: number
  /** Allowed difference from the exemplar where one exemplar alone cannot say how copies vary, in the unit. */
  readonly defaultTolerance: number
  readonly regionsNeeded: readonly NeededRegion[]
  readonly cause: PointCause
}

const PLACE: NeededRegion = { role: 'region', required: true, many: false }
const one = (role: RegionRole, required = true): NeededRegion => ({ role, required, many: false })
const many = (role: RegionRole, required = true): NeededRegion => ({ role, required, many: true })

/**
 * Needs are ours, from the bench (`npm run bench -- compare`): where sharp, square-on photos decide the point and planted faults
 * are found. Tolerances are ours and from memory where no source stands beside them: the spread within one print run of
 * letterpress or offset, doubled for age and wear.
 */
export const POINT_KINDS: Readonly<Record<PointKind, PointKindFacts>> = {
  // Beyond the reference edge. Ink edges rise over 20 to 50 µm, a re-screened or sprayed edge over 100 µm and more (from memory).
  'edge-sharpness': {
    kind: 'edge-sharpness',
    unit: 'µm',
    needsPxPerMm: 20,
    defaultTolerance: 60,
    regionsNeeded: [PLACE, one('reference')],
    cause: 'sharpness-of-print',
  },
  // Type swells by 20 to 40 µm within a run (from memory).
  'stroke-width': {
    kind: 'stroke-width',
    unit: 'µm',
    needsPxPerMm: 12,
    defaultTolerance: 60,
    regionsNeeded: [PLACE],
    cause: 'ink-gain',
  },
  'corner-roundness': {
    kind: 'corner-roundness',
    unit: 'µm',
    needsPxPerMm: 16,
    defaultTolerance: 80,
    regionsNeeded: [PLACE],
    cause: 'ink-gain',
  },
  // A counter is open or it is not: none may be missing.
  'counters-open': {
    kind: 'counters-open',
    unit: 'counters',
    needsPxPerMm: 12,
    defaultTolerance: 0,
    regionsNeeded: [PLACE],
    cause: 'ink-gain',
  },
  // Two rulings of one press agree within 2 %; neighbouring standard rulings lie 10 % and more apart (85, 100, 120, 133, 150, 175).
  'solid-or-screen': {
    kind: 'solid-or-screen',
    unit: 'lpi',
    needsPxPerMm: 10,
    defaultTolerance: 6,
    regionsNeeded: [PLACE],
    cause: 'screening',
  },
  // Copies of one old issue differ by fading and ink more than one print run may (ISO 12647-2 allows 3.5 to 5 for solids); from memory.
  tint: {
    kind: 'tint',
    unit: 'ΔE00',
    needsPxPerMm: 5,
    defaultTolerance: 6,
    regionsNeeded: [PLACE, many('neutral')],
    cause: 'inks',
  },
  // How far the order may fall short of the least difference that the point states.
  'tint-order': {
    kind: 'tint-order',
    unit: 'ΔL*',
    needsPxPerMm: 4,
    defaultTolerance: 3,
    regionsNeeded: [PLACE, one('other'), many('neutral', false)],
    cause: 'inks',
  },
  // Register within a run wanders by about a tenth of a millimetre (from memory).
  seam: {
    kind: 'seam',
    unit: 'µm',
    needsPxPerMm: 10,
    defaultTolerance: 120,
    regionsNeeded: [PLACE, one('paper')],
    cause: 'register',
  },
  flush: {
    kind: 'flush',
    unit: 'mm',
    needsPxPerMm: 8,
    defaultTolerance: 0.15,
    regionsNeeded: [PLACE, one('other')],
    cause: 'register',
  },
  gap: {
    kind: 'gap',
    unit: 'mm',
    needsPxPerMm: 8,
    defaultTolerance: 0.15,
    regionsNeeded: [PLACE, one('other')],
    cause: 'register',
  },
  // Of the mark's strength on the exemplar: fainter than half is no longer the mark.
  'mark-present': {
    kind: 'mark-present',
    unit: '%',
    needsPxPerMm: 8,
    defaultTolerance: 50,
    regionsNeeded: [PLACE],
    cause: 'design',
  },
  // Half of the size tolerance after 1945 (from memory).
  'border-width': {
    kind: 'border-width',
    unit: 'mm',
    needsPxPerMm: 6,
    defaultTolerance: 0.4,
    regionsNeeded: [PLACE, one('opposite', false)],
    cause: 'cutting',
  },
  // Stock of one issue tones with age by this much and more (from memory).
  'paper-tone': {
    kind: 'paper-tone',
    unit: 'b*',
    needsPxPerMm: 3,
    defaultTolerance: 7,
    regionsNeeded: [PLACE, many('neutral', false)],
    cause: 'stock',
  },
  // One less the structural similarity of two copies of one design, seen alike.
  'same-look': {
    kind: 'same-look',
    unit: 'SSIM',
    needsPxPerMm: 6,
    defaultTolerance: 0.3,
    regionsNeeded: [PLACE],
    cause: 'design',
  },
  judged: {
    kind: 'judged',
    unit: 'word',
    needsPxPerMm: 1,
    defaultTolerance: 0,
    regionsNeeded: [PLACE],
    cause: 'design',
  },
}

/** The unit of one point: a border compared with its opposite is a share in per cent. */
export function unitOf(point: { readonly kind: PointKind; readonly opposite?: unknown }): PointUnit {
  return point.kind === 'border-width' && point.opposite ? '%' : POINT_KINDS[point.kind].unit
}

/** Centering: percentage points of the larger share. Cutting varies more than printing; ours. */
export const CENTERING_TOLERANCE_PERCENT = 12

/** What one point allows where it does not say and one exemplar alone cannot. */
export function defaultToleranceOf(point: { readonly kind: PointKind; readonly opposite?: unknown }): number {
  return unitOf(point) === '%' && point.kind === 'border-width'
    ? CENTERING_TOLERANCE_PERCENT
    : POINT_KINDS[point.kind].defaultTolerance
}
