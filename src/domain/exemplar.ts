/**
 * An exemplar: known-genuine pieces of one issue in pictures, and the points on it where copies go wrong. One file: a zip with
 * the pictures and `exemplar.json`, which holds an `Exemplar`. Lengths are millimetres of the piece, from its top left corner.
 */
import * as v from 'valibot'
import type { PointKind, PointUnit } from './exemplar-kinds.ts'

const name = v.pipe(v.string(), v.trim(), v.nonEmpty())
const identifier = v.pipe(v.string(), v.regex(/^[a-z0-9-]+$/, 'lower case letters, digits and hyphens'))
const positive = v.pipe(v.number(), v.finite(), v.minValue(Number.EPSILON))
const millimetres = v.pipe(v.number(), v.finite())

/** A rectangle on the card. It may reach over the card's edge, where a border is measured from outside. */
const regionSchema = v.strictObject({ x: millimetres, y: millimetres, width: positive, height: positive })
const regions = v.array(regionSchema)
const side = v.picklist(['front', 'back', 'label'])

const pixelPoint = v.tuple([v.pipe(v.number(), v.finite()), v.pipe(v.number(), v.finite())])
const pixelCorners = v.tuple([pixelPoint, pixelPoint, pixelPoint, pixelPoint])

const pictureSchema = v.strictObject({
  /** File name inside the zip. */
  file: v.pipe(v.string(), v.regex(/^[\w][\w.-]*$/, 'a plain file name without folders')),
  side,
  /** The piece's corners in pixels of the picture, clockwise from its top left; `null`: found when it is read. */
  corners: v.nullable(pixelCorners),
  /** Id of the piece in the picture. */
  piece: identifier,
  /** A grey card or other neutral surface in the frame: its corners in pixels of the picture; `null`: none. */
  greyCard: v.nullable(pixelCorners),
})

/** One known-genuine piece: several of one issue show how genuine ones vary. */
const pieceSchema = v.strictObject({
  id: identifier,
  name,
  /** Where the piece came from and why it is held to be genuine, in words. */
  provenance: v.string(),
})

/** A make of copy that is known of this issue. */
const copySchema = v.strictObject({ id: identifier, name, description: v.string() })

const edgeName = v.picklist(['left', 'top', 'right', 'bottom'])

const pointBase = {
  id: identifier,
  name,
  /** Why this place matters, in half a sentence. */
  why: v.string(),
  /** What copies do here, in half a sentence. */
  copiesDo: v.string(),
  side,
  region: regionSchema,
  /** Pixels per millimetre that this point needs beyond what its kind needs; `null`: the kind's need. */
  needsPxPerMm: v.nullable(positive),
  /** In the kind's unit; `null`: from the exemplars' own variation, or the kind's stated default. */
  tolerance: v.nullable(positive),
  /** By make of copy: whether such a copy passes this point. A make that is not named is unknown. */
  copies: v.record(identifier, v.picklist(['passes', 'fails', 'unknown'])),
}

const kinds = {
  'edge-sharpness': v.strictObject({
    ...pointBase,
    kind: v.literal('edge-sharpness'),
    /** An edge in the same plane that copying does not soften: the cut edge, the edge of the holder's label, a rule. */
    reference: regionSchema,
  }),
  'stroke-width': v.strictObject({ ...pointBase, kind: v.literal('stroke-width') }),
  'corner-roundness': v.strictObject({ ...pointBase, kind: v.literal('corner-roundness') }),
  'counters-open': v.strictObject({ ...pointBase, kind: v.literal('counters-open') }),
  'solid-or-screen': v.strictObject({
    ...pointBase,
    kind: v.literal('solid-or-screen'),
    /** The finest screen that a copy is looked for, lines per inch; a photo must resolve it before "solid" is said. */
    finestLpi: v.pipe(positive, v.maxValue(400)),
  }),
  tint: v.strictObject({
    ...pointBase,
    kind: v.literal('tint'),
    /** Unprinted or evenly grey places by which light and camera are balanced out. */
    neutral: v.pipe(regions, v.minLength(1)),
  }),
  'tint-order': v.strictObject({
    ...pointBase,
    kind: v.literal('tint-order'),
    other: regionSchema,
    /** What `region` is beside `other`. */
    order: v.picklist(['darker', 'lighter']),
    /** By at least this much, L*. */
    leastDeltaL: v.pipe(v.number(), v.minValue(0), v.maxValue(100)),
    neutral: regions,
  }),
  seam: v.strictObject({
    ...pointBase,
    kind: v.literal('seam'),
    /** Unprinted stock: what shows where the two inks do not meet. */
    paper: regionSchema,
  }),
  flush: v.strictObject({
    ...pointBase,
    kind: v.literal('flush'),
    other: regionSchema,
    /** Direction in which the two edges may be apart: `x` for upright edges. */
    axis: v.picklist(['x', 'y']),
  }),
  gap: v.strictObject({ ...pointBase, kind: v.literal('gap'), other: regionSchema, axis: v.picklist(['x', 'y']) }),
  'mark-present': v.strictObject({ ...pointBase, kind: v.literal('mark-present') }),
  'border-width': v.strictObject({
    ...pointBase,
    kind: v.literal('border-width'),
    /** The cut edge from which the border is measured; `region` holds the border's inner edge. */
    edge: edgeName,
    /** The inner edge of the border across from it: then the point is the centering on that axis; `null`: the width. */
    opposite: v.nullable(regionSchema),
  }),
  'paper-tone': v.strictObject({
    ...pointBase,
    kind: v.literal('paper-tone'),
    /** Neutral places in the plane of the piece (a holder's white label); empty: the grey card in the frame. */
    neutral: regions,
  }),
  'same-look': v.strictObject({ ...pointBase, kind: v.literal('same-look') }),
  judged: v.strictObject({
    ...pointBase,
    kind: v.literal('judged'),
    /** What the person is asked to look at. */
    question: v.string(),
  }),
} satisfies Record<PointKind, unknown>

const pointSchema = v.variant('kind', [
  kinds['edge-sharpness'],
  kinds['stroke-width'],
  kinds['corner-roundness'],
  kinds['counters-open'],
  kinds['solid-or-screen'],
  kinds.tint,
  kinds['tint-order'],
  kinds.seam,
  kinds.flush,
  kinds.gap,
  kinds['mark-present'],
  kinds['border-width'],
  kinds['paper-tone'],
  kinds['same-look'],
  kinds.judged,
])

export const exemplarSchema = v.strictObject({
  schemaVersion: v.literal(2),
  id: name,
  title: name,
  /** Where the pieces came from and why they are held to be genuine, in words. */
  provenance: v.string(),
  author: name,
  /** SPDX identifier, or words. */
  licence: name,
  nominalSize: v.strictObject({ widthMm: positive, heightMm: positive }),
  pieces: v.pipe(v.array(pieceSchema), v.minLength(1)),
  /** Makes of copy that are known of this issue. */
  copies: v.array(copySchema),
  pictures: v.pipe(v.array(pictureSchema), v.minLength(1)),
  points: v.array(pointSchema),
})

export type Exemplar = v.InferOutput<typeof exemplarSchema>
export type ExemplarPicture = Exemplar['pictures'][number]
export type ExemplarPoint = Exemplar['points'][number]
/** What a make of copy does at a point. */
export type CopyAtPoint = ExemplarPoint['copies'][string]
export type PointOf<K extends PointKind> = Extract<ExemplarPoint, { readonly kind: K }>
export type BorderPoint = PointOf<'border-width'>
export type Region = v.InferOutput<typeof regionSchema>
export type Side = ExemplarPicture['side']
/** Kinds that a region drawn on two bare pictures can be judged by. */
export type DrawnKind = Extract<PointKind, 'tint' | 'border-width'>

/** A card's corners by the person, clockwise from its top left, as shares of the picture's width and height. */
export type DrawnCorners = readonly [SharePoint, SharePoint, SharePoint, SharePoint]
type SharePoint = readonly [x: number, y: number]

/** Why nothing can be told, for whoever says it in another language than the `reason`. */
export interface CannotTellCause {
  readonly code: string
  /** What the sentence names, as it is to be read. */
  readonly figures: Readonly<Record<string, string>>
  /** Where it is so; `null`: at the place in question, or the code says it. */
  readonly on: 'exemplar' | 'neutral' | 'reference' | 'other' | null
}

export const VERDICTS = ['agrees', 'differs-explained', 'differs', 'cannot-tell', 'not-applicable'] as const
export type PointVerdict = (typeof VERDICTS)[number]

/** What a difference may come from, where it has a plain explanation. */
export interface Explanation {
  readonly code: 'off-centre' | 'fading' | 'toning' | 'by-the-person'
  /** The person's own words; empty where the code says it. */
  readonly words: string
}

/** What one point's comparison ended in. Field names are a public contract (`compare --json`). */
export interface PointComparison {
  readonly point: string
  readonly kind: PointKind
  readonly verdict: PointVerdict
  /** Measured on the questioned photo; `null` where it was not measured. */
  readonly value: number | null
  readonly unit: PointUnit
  /** Expanded (about 95 %), in the unit. */
  readonly uncertainty: number | null
  /** The same measure on the exemplar. */
  readonly exemplar: number | null
  readonly tolerance: number
  /** One sentence: what was measured, or why nothing can be told. */
  readonly reason: string
  /** `null`: something was measured, or the reason is of one file alone. */
  readonly cause: CannotTellCause | null
  /** The photo that it was measured on. */
  readonly photo: string | null
  /** Where the tolerance comes from. Absent: nothing was looked at. */
  readonly toleranceFrom?: 'point' | 'exemplars' | 'default'
  /** px/mm at the place on the photo, and what was needed there. */
  readonly pxPerMm?: number | null
  readonly neededPxPerMm?: number
  /** Further measured figures of the kind, such as a screen's `angleDeg`, a border's `skewMm`. */
  readonly figures?: Readonly<Record<string, number>>
  readonly explanation?: Explanation
  /** Ids of makes of copy that are known to pass this point: where there are any, its agreement weighs nothing against them. */
  readonly passedBy?: readonly string[]
  /** The place in pixels of the photo, clockwise from the region's top left. */
  readonly place?: readonly (readonly [number, number])[]
}

/** Reads version 1 as version 2: one piece, no known copies, and what its points lacked. */
function upgrade(raw: unknown): unknown {
  if (typeof raw !== 'object' || raw === null || !('schemaVersion' in raw) || raw.schemaVersion !== 1) return raw
  const { pictures, points, title, provenance, ...rest } = raw as Record<string, unknown>
  const each = (list: unknown, more: (item: Record<string, unknown>) => object) =>
    Array.isArray(list)
      ? list.map((item) => (typeof item === 'object' && item !== null ? { ...item, ...more(item) } : item))
      : list
  return {
    ...rest,
    schemaVersion: 2,
    title,
    provenance,
    pieces: [{ id: 'piece-1', name: title, provenance }],
    copies: [],
    pictures: each(pictures, () => ({ piece: 'piece-1', greyCard: null })),
    points: each(points, ({ kind }) => ({
      copiesDo: '',
      copies: {},
      ...(kind === 'border-width' && { opposite: null }),
    })),
  }
}

/** @returns the exemplar in the present version, or the first fault with its place. */
export function parseExemplar(raw: unknown): { exemplar: Exemplar } | { fault: string } {
  const parsed = v.safeParse(exemplarSchema, upgrade(raw))
  if (!parsed.success) {
    const [fault] = parsed.issues
    return { fault: `${v.getDotPath(fault) ?? 'the exemplar'}: ${fault.message}` }
  }
  const exemplar = parsed.output
  const sides = new Set(exemplar.pictures.map((picture) => picture.side))
  const stray = exemplar.points.find((point) => !sides.has(point.side))
  if (stray) return { fault: `the point "${stray.id}" lies on the ${stray.side}, of which there is no picture` }
  for (const [what, list] of [
    ['point', exemplar.points],
    ['piece', exemplar.pieces],
    ['make of copy', exemplar.copies],
  ] as const) {
    const ids = list.map(({ id }) => id)
    const twice = ids.find((id, i) => ids.indexOf(id) !== i)
    if (twice !== undefined) return { fault: `the ${what} "${twice}" stands twice` }
  }
  const pieces = new Set(exemplar.pieces.map(({ id }) => id))
  const orphan = exemplar.pictures.find(({ piece }) => !pieces.has(piece))
  if (orphan) return { fault: `the picture ${orphan.file} shows the piece "${orphan.piece}", which is not named` }
  const makes = new Set(exemplar.copies.map(({ id }) => id))
  for (const { id, copies } of exemplar.points) {
    const unknown = Object.keys(copies).find((make) => !makes.has(make))
    if (unknown !== undefined)
      return { fault: `the point "${id}" names the make of copy "${unknown}", which is not described` }
  }
  return { exemplar }
}
