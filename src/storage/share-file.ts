/**
 * One of the buyer's lists as a file for somebody else: places pointed at, risky issues, graders. JSON, readable, without ids,
 * dates or anything else of this profile. Reading checks the whole file first.
 */
import * as v from 'valibot'
import type { Grader, RiskyIssue } from '../domain/grader-book.ts'
import type { SiteHint } from '../domain/site-hint.ts'
import { BackupFault } from './faults.ts'
import { MONEY, TEXTS } from './record-schemas.ts'

const NAME = v.pipe(v.string(), v.trim(), v.minLength(1), v.maxLength(500))

const SITE_HINT = v.strictObject({ host: NAME, field: NAME, selectors: v.pipe(TEXTS, v.minLength(1)) })
const RISKY_ISSUE = v.strictObject({
  name: NAME,
  words: v.pipe(TEXTS, v.minLength(1)),
  worthIfGenuine: v.nullable(MONEY),
  copies: TEXTS,
  exemplar: v.nullable(v.string()),
  askFor: v.nullable(v.string()),
})
const GRADER = v.strictObject({
  name: NAME,
  abbreviations: TEXTS,
  certificateDigits: v.optional(v.array(v.pipe(v.number(), v.integer(), v.minValue(1)))),
  // Opened at a click, so nothing but a web address may stand here.
  lookUp: v.optional(v.pipe(v.string(), v.regex(/^https?:\/\//i, 'is no web address'))),
  halfGrades: v.optional(v.boolean()),
  qualifiers: v.optional(v.record(v.string(), v.string())),
  accepted: v.boolean(),
  conditions: v.optional(v.string()),
  notes: v.optional(v.string()),
})

const ITEMS = { 'site-hints': SITE_HINT, 'risky-issues': RISKY_ISSUE, graders: GRADER } as const

export type ShareKind = keyof typeof ITEMS
export interface Shared {
  'site-hints': SiteHint
  'risky-issues': Omit<RiskyIssue, 'id'>
  graders: Grader
}

/** What of a stored record belongs to the list, and nothing of what storing added. */
export function writeShareFile<Kind extends ShareKind>(kind: Kind, records: readonly Shared[Kind][]): string {
  const keys = Object.keys(ITEMS[kind].entries)
  const items = records.map((record) =>
    Object.fromEntries(keys.flatMap((key) => (key in record ? [[key, record[key as keyof typeof record]]] : []))),
  )
  return `${JSON.stringify({ touchstone: kind, schemaVersion: 1, items }, null, 2)}\n`
}

/** Throws `BackupFault` with the place of the first fault. */
export function parseShareFile<Kind extends ShareKind>(kind: Kind, text: string): Shared[Kind][] {
  const schema = v.strictObject({
    touchstone: v.literal(kind, `is no list of ${kind}`),
    schemaVersion: v.literal(1),
    items: v.array(ITEMS[kind]),
  })
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    throw new BackupFault('the file', 'is not JSON')
  }
  const parsed = v.safeParse(schema, value)
  if (parsed.success) return parsed.output.items as unknown as Shared[Kind][]
  const [issue] = parsed.issues
  throw new BackupFault(v.getDotPath(issue) ?? 'the file', issue.message)
}
