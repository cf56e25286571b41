/**
 * View packs (`rules/views/*.json`): which views an offer needs, what each must resolve, and the words by which a
 * photo counts as one. Types and schemas only; `find-views.ts` decides.
 */
import * as v from 'valibot'
import { idSchema, type Threshold, thresholdSchema } from '../rules/conditions.ts'
import { VIEW_IDS, type ViewId } from '../views.ts'

export interface ViewSpec {
  readonly view: ViewId
  /** `always`: part of every such offer's checklist. `when-asked`: only where an open concern asks for it. */
  readonly needed: 'always' | 'when-asked'
  /** Smallest scale at which the view can be judged. */
  readonly pxPerMm?: Threshold
  /** Smallest long edge of the photo, where its scale is not known. */
  readonly longEdge?: Threshold
  /** Views on which this one is seen as well, from the given scale on. */
  readonly alsoOn?: readonly { readonly view: ViewId; readonly pxPerMm: Threshold }[]
  /** What it costs the seller: 1 a snapshot, 5 tools or an hour. Ours, from common practice; orders requests only. */
  readonly bother: number
  /** Cannot be among the photos. */
  readonly medium?: 'video'
}

export interface ViewPack {
  readonly schemaVersion: 1
  readonly kind: 'views'
  readonly id: 'raw' | 'encapsulated'
  readonly about: string
  readonly views: readonly ViewSpec[]
}

export interface ViewWordPack {
  readonly schemaVersion: 1
  readonly kind: 'view-words'
  readonly id: string
  readonly about: string
  /** By view, then by language: plain words, matched as whole words in captions, alternative texts and file names. */
  readonly words: Readonly<Partial<Record<ViewId, Readonly<Record<string, readonly string[]>>>>>
  /** In an encapsulated offer a word for the first means the second. */
  readonly inHolder: Readonly<Partial<Record<ViewId, ViewId>>>
}

const sentence = v.pipe(v.string(), v.trim(), v.minLength(1, 'must not be empty'))
const viewSchema = v.picklist(VIEW_IDS, (issue) => `no such view: ${issue.received}`)

export const viewPackSchema: v.GenericSchema<ViewPack> = v.strictObject({
  schemaVersion: v.literal(1),
  kind: v.literal('views'),
  id: v.picklist(['raw', 'encapsulated'] as const),
  about: sentence,
  views: v.pipe(
    v.array(
      v.strictObject({
        view: viewSchema,
        needed: v.picklist(['always', 'when-asked'] as const),
        pxPerMm: v.optional(thresholdSchema),
        longEdge: v.optional(thresholdSchema),
        alsoOn: v.optional(v.array(v.strictObject({ view: viewSchema, pxPerMm: thresholdSchema }))),
        bother: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(5)),
        medium: v.optional(v.literal('video')),
      }),
    ),
    v.check((views) => new Set(views.map((spec) => spec.view)).size === views.length, 'a view stands here twice'),
  ),
})

export const viewWordPackSchema = v.strictObject({
  schemaVersion: v.literal(1),
  kind: v.literal('view-words'),
  id: idSchema,
  about: sentence,
  words: v.record(viewSchema, v.record(v.pipe(v.string(), v.regex(/^[a-z]{2}$/)), v.array(sentence))),
  inHolder: v.record(viewSchema, viewSchema),
}) as unknown as v.GenericSchema<ViewWordPack>
