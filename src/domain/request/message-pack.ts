/** Message packs (`rules/messages/*.json`): the words of the request in one language. Types and schema only. */
import * as v from 'valibot'
import { idSchema } from '../rules/conditions.ts'
import { VIEW_IDS, type ViewId } from '../views.ts'
import { MESSAGE_TERMS, MESSAGE_TONES, type MessageTerm, type MessageTone } from './message-style.ts'

export interface MessagePack {
  readonly schemaVersion: 1
  readonly kind: 'messages'
  readonly id: string
  /** BCP 47 primary tag. */
  readonly language: string
  readonly tones: Readonly<Record<MessageTone, ToneWords>>
  /** How a line is put together, by status; places `{ask}` and `{because}`. */
  readonly lines: StatusLines
  /** The same without the reason, for a brief message; place `{ask}`. */
  readonly shortLines: StatusLines
  /** What is asked for, as a noun phrase, and the reason in half a sentence. */
  readonly views: Readonly<Record<ViewId, { readonly ask: string; readonly because: string }>>
  /** The buyer's own words for a risky issue; place `{ask}`. */
  readonly issue: string
  /** What the buyer proposes, each as a noun phrase; `return-right` has the place `{days}`. */
  readonly terms: Readonly<Record<MessageTerm | 'opening', string>>
}

interface ToneWords {
  readonly greeting: string
  readonly opening: string
  /** The opening of a message after the first. */
  readonly again: string
  readonly closing: string
}

interface StatusLines {
  readonly missing: string
  readonly 'not-readable': string
  readonly 'cannot-tell': string
}

const words = v.pipe(v.string(), v.trim(), v.minLength(1, 'must not be empty'))
const line = v.pipe(
  words,
  v.includes('{ask}', 'needs the place {ask}'),
  v.includes('{because}', 'needs the place {because}'),
)
const shortLine = v.pipe(words, v.includes('{ask}', 'needs the place {ask}'))
const tone = v.strictObject({ greeting: words, opening: words, again: words, closing: words })
const view = v.strictObject({ ask: words, because: words })

export const messagePackSchema = v.strictObject({
  schemaVersion: v.literal(1),
  kind: v.literal('messages'),
  id: idSchema,
  language: v.pipe(v.string(), v.regex(/^[a-z]{2}$/)),
  tones: v.strictObject(Object.fromEntries(MESSAGE_TONES.map((id) => [id, tone])) as Record<MessageTone, typeof tone>),
  lines: v.strictObject({ missing: line, 'not-readable': line, 'cannot-tell': line }),
  shortLines: v.strictObject({ missing: shortLine, 'not-readable': shortLine, 'cannot-tell': shortLine }),
  views: v.strictObject(Object.fromEntries(VIEW_IDS.map((id) => [id, view])) as Record<ViewId, typeof view>),
  issue: v.pipe(words, v.includes('{ask}', 'needs the place {ask}')),
  terms: v.strictObject({
    ...(Object.fromEntries(MESSAGE_TERMS.map((id) => [id, words])) as Record<MessageTerm, typeof words>),
    opening: words,
    'return-right': v.pipe(words, v.includes('{days}', 'needs the place {days}')),
  }),
}) as unknown as v.GenericSchema<MessagePack>
