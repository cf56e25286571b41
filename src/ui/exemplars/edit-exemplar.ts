/** Changing an exemplar by hand: a point of each kind with all that its kind needs, pictures, makes of copy. Pure; keeps it well-formed. */
import type { ExemplarDraft, StoredPicture } from '../../domain/examination.ts'
import type { DrawnCorners, Exemplar, ExemplarPoint, Region, Side } from '../../domain/exemplar.ts'
import { POINT_KINDS, type PointKind, type RegionRole } from '../../domain/exemplar-kinds.ts'
import { freeName } from '../../domain/merge-exemplars.ts'
import type { Size } from '../light-table/square-picture.ts'

export const SIDES: readonly Side[] = ['front', 'back', 'label']

/** Finest screen of the trade's table of rulings, lines per inch: what a new point looks for unless it is told otherwise. */
const FINEST_LPI = 175
/** L*, from memory: what an eye tells apart at once, side by side. */
const LEAST_DELTA_L = 5
/** Millimetres: smaller, nothing can be measured nor grasped. Ours. */
export const SMALLEST_MM = 0.2

export function createDraft(title: string, nominalSize: Size, id: string): ExemplarDraft {
  return {
    exemplar: {
      schemaVersion: 2,
      id,
      title,
      provenance: '',
      author: '',
      licence: '',
      nominalSize,
      pieces: [{ id: 'piece-1', name: '1', provenance: '' }],
      copies: [],
      pictures: [],
      points: [],
    },
    stored: {},
  }
}

export function addPicture(draft: ExemplarDraft, name: string, stored: StoredPicture): ExemplarDraft {
  const { exemplar } = draft
  const plain =
    name
      .normalize('NFKD')
      .replace(/[^\w.-]+/g, '-')
      .replace(/^[^A-Za-z0-9]+/, '') || 'picture'
  const file = freeName(plain, new Set(exemplar.pictures.map((picture) => picture.file)))
  const taken = new Set(exemplar.pictures.map(({ side }) => side))
  const side = taken.has('front') && !taken.has('back') ? 'back' : 'front'
  const piece = exemplar.pieces[0]!.id
  return {
    exemplar: {
      ...exemplar,
      pictures: [...exemplar.pictures, { file, side, corners: null, piece, greyCard: null }],
    },
    stored: { ...draft.stored, [file]: stored },
  }
}

export const idOf = (name: string, taken: readonly string[], fallback: string): string =>
  freeName(
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40) || fallback,
    new Set(taken),
  )

export function setPicture(exemplar: Exemplar, file: string, change: Partial<Exemplar['pictures'][number]>): Exemplar {
  return {
    ...exemplar,
    pictures: exemplar.pictures.map((picture) => (picture.file === file ? { ...picture, ...change } : picture)),
  }
}

/** Corners in shares of the picture become pixels of it. */
export function cornersInPixels(corners: DrawnCorners, width: number, height: number) {
  return corners.map(([x, y]) => [x * width, y * height]) as NonNullable<Exemplar['pictures'][number]['corners']>
}

const inside = (region: Region, size: Size): Region => {
  const width = Math.max(Math.min(region.width, size.widthMm), SMALLEST_MM)
  const height = Math.max(Math.min(region.height, size.heightMm), SMALLEST_MM)
  const around = 5
  const x = Math.min(Math.max(region.x, -around), size.widthMm + around - width)
  const y = Math.min(Math.max(region.y, -around), size.heightMm + around - height)
  const round = (mm: number) => Math.round(mm * 100) / 100
  return { x: round(x), y: round(y), width: round(width), height: round(height) }
}
export const keepOnPiece = inside

/** Somewhere to begin: beside the place itself, or in the margin, where stock is mostly bare. */
function firstRegion(role: RegionRole, region: Region, size: Size): Region {
  if (role === 'neutral' || role === 'paper')
    return inside({ x: size.widthMm * 0.42, y: size.heightMm - 4, width: size.widthMm * 0.16, height: 2 }, size)
  if (role === 'reference') return inside({ x: -1, y: size.heightMm * 0.4, width: 2, height: 6 }, size)
  const room = region.x + 2 * region.width + 1 <= size.widthMm
  return inside({ ...region, x: room ? region.x + region.width + 1 : region.x - region.width - 1 }, size)
}

type Shared = Pick<
  ExemplarPoint,
  'id' | 'name' | 'why' | 'copiesDo' | 'side' | 'region' | 'needsPxPerMm' | 'tolerance' | 'copies'
>

/** A point of this kind on this place, with whatever else its kind needs to begin with. */
export function createPoint(kind: PointKind, shared: Shared, size: Size): ExemplarPoint {
  const near = (role: RegionRole) => firstRegion(role, shared.region, size)
  const { id, name, why, copiesDo, side, region, needsPxPerMm, tolerance, copies } = shared
  const base = { id, name, why, copiesDo, side, region, needsPxPerMm, tolerance, copies }
  switch (kind) {
    case 'edge-sharpness':
      return { ...base, kind, reference: near('reference') }
    case 'solid-or-screen':
      return { ...base, kind, finestLpi: FINEST_LPI }
    case 'tint':
      return { ...base, kind, neutral: [near('neutral')] }
    case 'tint-order':
      return { ...base, kind, other: near('other'), order: 'darker', leastDeltaL: LEAST_DELTA_L, neutral: [] }
    case 'seam':
      return { ...base, kind, paper: near('paper') }
    case 'flush':
      return { ...base, kind, other: near('other'), axis: 'x' }
    case 'gap':
      return { ...base, kind, other: near('other'), axis: 'x' }
    case 'border-width':
      return { ...base, kind, edge: nearestEdge(region, size), opposite: null }
    case 'paper-tone':
      return { ...base, kind, neutral: [] }
    case 'judged':
      return { ...base, kind, question: '' }
    default:
      return { ...base, kind }
  }
}

function nearestEdge({ x, y, width, height }: Region, size: Size): 'left' | 'top' | 'right' | 'bottom' {
  const apart = {
    left: x + width / 2,
    top: y + height / 2,
    right: size.widthMm - x - width / 2,
    bottom: size.heightMm - y - height / 2,
  }
  const edges = ['left', 'top', 'right', 'bottom'] as const
  return edges.reduce((best, edge) => (apart[edge] < apart[best] ? edge : best))
}

export function changeKind(point: ExemplarPoint, kind: PointKind, size: Size): ExemplarPoint {
  // A tolerance belongs to the unit of its kind.
  return createPoint(kind, { ...point, tolerance: point.kind === kind ? point.tolerance : null }, size)
}

export interface RoleRegion {
  readonly role: RegionRole
  readonly index: number
  readonly region: Region
}

/** All that is drawn for a point, its own place first. */
export function regionsOf(point: ExemplarPoint): RoleRegion[] {
  return POINT_KINDS[point.kind].regionsNeeded.flatMap(({ role }) => {
    const value = (point as unknown as Record<string, Region | readonly Region[] | null | undefined>)[role]
    const all = Array.isArray(value) ? (value as readonly Region[]) : value ? [value as Region] : []
    return all.map((region, index) => ({ role, index, region }))
  })
}

export function setRegion(point: ExemplarPoint, role: RegionRole, index: number, region: Region): ExemplarPoint {
  const many = POINT_KINDS[point.kind].regionsNeeded.find((needed) => needed.role === role)?.many ?? false
  if (!many) return { ...point, [role]: region } as ExemplarPoint
  const list = [...((point as unknown as Record<string, readonly Region[]>)[role] ?? [])]
  list[index] = region
  return { ...point, [role]: list } as ExemplarPoint
}

export function addRegion(point: ExemplarPoint, role: RegionRole, size: Size): ExemplarPoint {
  const count = regionsOf(point).filter((one) => one.role === role).length
  const first = firstRegion(role, point.region, size)
  return setRegion(point, role, count, inside({ ...first, x: first.x + count * (first.width + 1) }, size))
}

/** Only what the kind can do without: the last of several that are required stays. */
export function removeRegion(point: ExemplarPoint, role: RegionRole, index: number): ExemplarPoint {
  const needed = POINT_KINDS[point.kind].regionsNeeded.find((one) => one.role === role)
  if (needed === undefined) return point
  if (!needed.many) return needed.required ? point : ({ ...point, [role]: null } as ExemplarPoint)
  const list = (point as unknown as Record<string, readonly Region[]>)[role] ?? []
  if (needed.required && list.length < 2) return point
  return { ...point, [role]: list.filter((_, at) => at !== index) } as ExemplarPoint
}

export function moveInList<T>(list: readonly T[], from: number, to: number): T[] {
  const next = [...list]
  const [item] = next.splice(from, 1)
  if (item !== undefined) next.splice(Math.min(Math.max(to, 0), next.length), 0, item)
  return next
}

/** A make of copy goes with what was said of it at every point. */
export function removeMake(exemplar: Exemplar, id: string): Exemplar {
  return {
    ...exemplar,
    copies: exemplar.copies.filter((make) => make.id !== id),
    points: exemplar.points.map((point) => {
      const { [id]: _gone, ...copies } = point.copies
      return { ...point, copies }
    }),
  }
}

/** A picture leaves with its bytes' entry; points stay, since another picture of that side may come. */
export function removePicture(draft: ExemplarDraft, file: string): ExemplarDraft {
  const { [file]: _gone, ...stored } = draft.stored
  return {
    exemplar: { ...draft.exemplar, pictures: draft.exemplar.pictures.filter((picture) => picture.file !== file) },
    stored,
  }
}

/** The piece's nominal size from its corners and a ruler beside it in the same plane: mean of opposite sides. */
export function sizeFromRuler(
  corners: readonly (readonly [number, number])[],
  ruler: readonly [readonly [number, number], readonly [number, number]],
  millimetres: number,
): Size | null {
  const apart = (a: readonly [number, number], b: readonly [number, number]) => Math.hypot(a[0] - b[0], a[1] - b[1])
  const pixels = apart(ruler[0], ruler[1])
  if (!(pixels > 0) || !(millimetres > 0) || corners.length !== 4) return null
  const scale = pixels / millimetres
  const [a, b, c, d] = corners as [[number, number], [number, number], [number, number], [number, number]]
  const round = (mm: number) => Math.round(mm * 10) / 10
  return {
    widthMm: round((apart(a, b) + apart(d, c)) / 2 / scale),
    heightMm: round((apart(a, d) + apart(b, c)) / 2 / scale),
  }
}
