/**
 * The buyer's knowledge for one run: the grader file and the limits given as options.
 * A fault in the file is bad input with the path of the fault; nothing is half-loaded.
 */
import * as v from 'valibot'
import type { Book, Grader } from '../domain/grader-book.ts'
import type { Money } from '../domain/money.ts'
import { DEFAULT_SETTINGS } from '../domain/settings.ts'
import { BadInput } from './bad-input.ts'
import { readJson } from './read-file.ts'

const GRADER_FILE_LIMIT_BYTES = 4 * 2 ** 20

const graderSchema = v.object({
  name: v.pipe(v.string(), v.trim(), v.nonEmpty()),
  abbreviations: v.array(v.pipe(v.string(), v.trim(), v.nonEmpty())),
  certificateDigits: v.optional(v.array(v.pipe(v.number(), v.integer(), v.minValue(1)))),
  lookUp: v.optional(v.pipe(v.string(), v.startsWith('https://'), v.includes('{certificate}'))),
  halfGrades: v.optional(v.boolean()),
  qualifiers: v.optional(v.record(v.string(), v.string())),
  accepted: v.boolean(),
  conditions: v.optional(v.string()),
  notes: v.optional(v.string()),
})

export async function loadGraders(path: string | null): Promise<readonly Grader[]> {
  if (path === null) return []
  const read = v.safeParse(v.array(graderSchema), await readJson(path, GRADER_FILE_LIMIT_BYTES))
  if (read.success) return read.output
  const [fault] = read.issues
  throw new BadInput(`${path}: ${v.getDotPath(fault) ?? 'the file'}: ${fault.message}`)
}

/** `"610"`, `"610.50"`, `"610 EUR"`. The currency is `null` where none is given. */
export function parseMoneyOption(option: string, text: string | null): Money | null {
  if (text === null) return null
  const parts = /^(\d+(?:\.\d+)?)(?:\s*([A-Za-z]{3}))?$/.exec(text.trim())
  if (!parts) throw new BadInput(`--${option}: "${text}" is no amount; write it as 610 or "610.50 EUR".`)
  return { amount: parts[1] as string, currency: parts[2]?.toUpperCase() ?? null }
}

export async function loadBook(options: { graders: string | null; highValue: string | null }): Promise<Book> {
  const highValue = parseMoneyOption('high-value', options.highValue) ?? DEFAULT_SETTINGS.highValue
  return { graders: await loadGraders(options.graders), riskyIssues: [], limits: { highValue }, settled: {} }
}
