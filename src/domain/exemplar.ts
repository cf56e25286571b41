/**
 * An exemplar: a known-genuine piece in pictures, and the points on it where copies go wrong. One file: a zip with the pictures
 * and `exemplar.json`, which holds an `Exemplar`. Lengths are millimetres of the card, from its top left corner.
 */
import * as v from 'valibot'

const name = v.pipe(v.string(), v.trim(), v.nonEmpty())
const positive = v.pipe(v.number(), v.finite(), v.minValue(Number.EPSILON))
const millimetres = v.pipe(v.number(), v.finite())

/** A rectangle on the card. It may reach over the card's edge, where a border is measured from outside. */
const regionSchema = v.strictObject({ x: millimetres, y: millimetres, width: positive, height: positive })

const pixelPoint = v.tuple([v.pipe(v.number(), v.finite()), v.pipe(v.number(), v.finite())])

const pictureSchema = v.strictObject({
  /** File name inside the zip. */
  file: v.pipe(v.string(), v.regex(/^[\w][\w.-]*$/, 'a plain file name without folders')),
  side: v.picklist(['front', 'back', 'label']),
  /** The piece's corners in pixels of the picture, clockwise from its top left; `null`: found when it is read. */
  corners: v.nullable(v.tuple([pixelPoint, pixelPoint, pixelPoint, pixelPoint])),
})

const pointBase = {
  id: v.pipe(v.string(), v.regex(/^[a-z0-9-]+$/, 'lower case letters, digits and hyphens')),
  name,
  /** What copies do here, in half a sentence. */
  why: v.string(),
  side: v.picklist(['front', 'back', 'label']),
  region: regionSchema,
  /** Pixels per millimetre that this point needs beyond what its kind needs; `null`: the kind's need. */
  needsPxPerMm: v.nullable(positive),
  /** In the kind's unit; `null`: the kind's stated default. */
  tolerance: v.nullable(positive),
}

const tintPointSchema = v.strictObject({
  ...pointBase,
  kind: v.literal('tint'),
  /** Unprinted or evenly grey places by which light and camera are balanced out. */
  neutral: v.pipe(v.array(regionSchema), v.minLength(1)),
})

const borderPointSchema = v.strictObject({
  ...pointBase,
  kind: v.literal('border-width'),
  /** The cut edge from which the border is measured; `region` holds the border's inner edge. */
  edge: v.picklist(['left', 'top', 'right', 'bottom']),
})

const exemplarSchema = v.strictObject({
  schemaVersion: v.literal(1),
  id: name,
  title: name,
  /** Where the piece came from and why it is held to be genuine, in words. */
  provenance: v.string(),
  author: name,
  /** SPDX identifier, or words. */
  licence: name,
  nominalSize: v.strictObject({ widthMm: positive, heightMm: positive }),
  pictures: v.pipe(v.array(pictureSchema), v.minLength(1)),
  points: v.array(v.variant('kind', [tintPointSchema, borderPointSchema])),
})

export type Exemplar = v.InferOutput<typeof exemplarSchema>
export type ExemplarPicture = Exemplar['pictures'][number]
export type ExemplarPoint = Exemplar['points'][number]
export type TintPoint = v.InferOutput<typeof tintPointSchema>
export type BorderPoint = v.InferOutput<typeof borderPointSchema>
export type Region = v.InferOutput<typeof regionSchema>
export type Side = ExemplarPicture['side']

/** A card's corners by the person, clockwise from its top left, as shares of the picture's width and height. */
export type DrawnCorners = readonly [SharePoint, SharePoint, SharePoint, SharePoint]
type SharePoint = readonly [x: number, y: number]

/** Why nothing can be told, for whoever says it in another language than the `reason`. */
export interface CannotTellCause {
  readonly code: string
  /** What the sentence names, as it is to be read. */
  readonly figures: Readonly<Record<string, string>>
  /** Where it is so; `null`: at the place in question, or the code says it. */
  readonly on: 'exemplar' | 'neutral' | null
}

/** What one point's comparison ended in. Field names are a public contract (`compare --json`). */
export interface PointComparison {
  readonly point: string
  readonly kind: ExemplarPoint['kind']
  readonly verdict: 'agrees' | 'differs' | 'cannot-tell'
  /** Measured on the questioned photo; `null` where it was not measured. */
  readonly value: number | null
  readonly unit: 'ΔE00' | 'mm'
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
}

/** @returns the exemplar, or the first fault with its place. */
export function parseExemplar(raw: unknown): { exemplar: Exemplar } | { fault: string } {
  const parsed = v.safeParse(exemplarSchema, raw)
  if (!parsed.success) {
    const [fault] = parsed.issues
    return { fault: `${v.getDotPath(fault) ?? 'the exemplar'}: ${fault.message}` }
  }
  const exemplar = parsed.output
  const sides = new Set(exemplar.pictures.map(({ side }) => side))
  const stray = exemplar.points.find(({ side }) => !sides.has(side))
  if (stray) return { fault: `the point "${stray.id}" lies on the ${stray.side}, of which there is no picture` }
  const ids = exemplar.points.map(({ id }) => id)
  const twice = ids.find((id, i) => ids.indexOf(id) !== i)
  if (twice !== undefined) return { fault: `the point "${twice}" stands twice` }
  return { exemplar }
}
