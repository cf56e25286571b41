/**
 * Phrase lists by language as they stand in `rules/phrases/*.json`, and their search in a listing's words.
 * A phrase is plain words; there are no patterns, so nothing can be made to backtrack.
 */
import * as v from 'valibot'
import { idSchema } from './conditions.ts'

export interface PhrasePack {
  readonly schemaVersion: 1
  readonly kind: 'phrases'
  readonly id: string
  readonly about: string
  /**
   * `cancels`: "not X", "kein X" is no hit. `kept`: the phrase carries its own negation ("no returns") and a negator
   * before it is not looked for.
   */
  readonly negation: 'cancels' | 'kept'
  /** `cancels`: what is only talked about ("beware of X", "unlike X") is no hit. `kept`: the same words state it. */
  readonly mention: 'cancels' | 'kept'
  /** Phrases by language (BCP 47). All languages are searched, since listings mix them. */
  readonly phrases: Readonly<Record<string, readonly string[]>>
  /** Longer phrases that contain one of the above and mean something else ("last chance" / "last chance lottery"). */
  readonly except?: Readonly<Record<string, readonly string[]>>
}

const sentence = v.pipe(v.string(), v.trim(), v.minLength(1, 'must not be empty'))
const phrase = v.pipe(v.string(), v.regex(/[\p{L}\p{N}]/u, 'a phrase holds at least one letter or digit'))
const byLanguage = v.record(v.pipe(v.string(), v.regex(/^[a-z]{2}$/)), v.pipe(v.array(phrase), v.minLength(1)))

export const phrasePackSchema: v.GenericSchema<PhrasePack> = v.strictObject({
  schemaVersion: v.literal(1),
  kind: v.literal('phrases'),
  id: idSchema,
  about: sentence,
  negation: v.picklist(['cancels', 'kept'] as const),
  mention: v.picklist(['cancels', 'kept'] as const),
  phrases: byLanguage,
  except: v.optional(byLanguage),
})
