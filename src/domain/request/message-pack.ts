/** Message packs (`rules/messages/*.json`): the words of the request in one language. Types and schema only. */
import * as v from 'valibot'
import { idSchema } from '../rules/conditions.ts'
import { VIEW_IDS, type ViewId } from '../views.ts'

export interface MessagePack {
  readonly schemaVersion: 1
  readonly kind: 'messages'
  readonly id: string
  /** BCP 47 primary tag. */
  readonly language: string
  readonly greeting: string
  readonly opening: string
  readonly closing: string
  /** How a line is put together, by status; places `{ask}` and `{because}`. */
  readonly lines: { readonly missing: string; readonly 'not-readable': string; readonly 'cannot-tell': string }
  /** What is asked for, as a noun phrase, and the reason in half a sentence. */
  readonly views: Readonly<Record<ViewId, { readonly ask: string; readonly because: string }>>
  /** The buyer's own words for a risky issue; place `{ask}`. */
  readonly issue: string
}

const words = v.pipe(v.string(), v.trim(), v.minLength(1, 'must not be empty'))
const line = v.pipe(
  words,
  v.includes('{ask}', 'needs the place {ask}'),
  v.includes('{because}', 'needs the place {because}'),
)
const view = v.strictObject({ ask: words, because: words })

export const messagePackSchema = v.strictObject({
  schemaVersion: v.literal(1),
  kind: v.literal('messages'),
  id: idSchema,
  language: v.pipe(v.string(), v.regex(/^[a-z]{2}$/)),
  greeting: words,
  opening: words,
  closing: words,
  lines: v.strictObject({ missing: line, 'not-readable': line, 'cannot-tell': line }),
  views: v.strictObject(Object.fromEntries(VIEW_IDS.map((id) => [id, view])) as Record<ViewId, typeof view>),
  issue: v.pipe(words, v.includes('{ask}', 'needs the place {ask}')),
}) as unknown as v.GenericSchema<MessagePack>
