/**
 * A grader's own record page against what the listing claims, field by field. The page is read by its words alone: labels and
 * values on lines of their own or beside each other. A field that one of the two does not state is not compared, and an agreeing
 * record says nothing of the card in the photos: a valid number can be copied.
 */
import type { Claim } from '../claim.ts'
import type { Grader } from '../grader-book.ts'
import { factsDiffer } from '../rules/compare-facts.ts'
import type { FactKind } from '../rules/fact-ids.ts'
import { parseClaims } from './parse-claims.ts'
import type { Vocabulary } from './vocabulary.ts'

export const RECORD_FIELDS = ['year', 'subject', 'cardNumber', 'grade', 'certificate'] as const
export type RecordFieldName = (typeof RECORD_FIELDS)[number]

export interface RecordField {
  readonly field: RecordFieldName
  readonly listing: string | null
  readonly record: string | null
  readonly verdict: 'agrees' | 'differs' | 'not-shown'
}

const KINDS: Readonly<Record<RecordFieldName, FactKind>> = {
  year: 'year',
  subject: 'text',
  cardNumber: 'card-number',
  grade: 'grade',
  certificate: 'certificate',
}

/** Characters of a label; a longer line is a sentence. Lines that are looked at; a record fills a tenth of them. Both ours. */
const LONGEST_LABEL = 40
const LINES_READ = 2000

/** The number in the address of a grader's record page, `null` where the address is none of this grader's. */
export function recordNumberIn(url: string | null, lookUp: string | undefined): string | null {
  const [before, after] = (lookUp ?? '').split('{certificate}')
  if (url === null || before === undefined || after === undefined || before === '') return null
  const bare = (address: string) => address.replace(/^https?:\/\//i, '').toLowerCase()
  if (!bare(url).startsWith(bare(before))) return null
  const rest = bare(url).slice(bare(before).length)
  const number = /^[a-z0-9-]+/.exec(rest)?.[0] ?? ''
  return number !== '' && rest.slice(number.length).startsWith(after.toLowerCase()) ? number : null
}

/** "Year: 1958" on one line, or "Year" on one and "1958" on the next. The first of a label counts. */
function pairsOf(text: string): Record<string, string> {
  const lines = text
    .split('\n', LINES_READ)
    .map((line) => line.trim())
    .filter(Boolean)
  const pairs: Record<string, string> = {}
  const add = (label: string, value: string) => {
    if (value !== '' && !Object.hasOwn(pairs, label)) pairs[label] = value
  }
  for (const [at, line] of lines.entries()) {
    const pair = /^([^:\t]{1,40})[:\t]\s*(.+)$/.exec(line)
    if (pair) add(pair[1]!.trim(), pair[2]!.trim())
    else if (line.length <= LONGEST_LABEL && !/\d{3}/.test(line)) add(line.replace(/:$/, ''), lines[at + 1] ?? '')
  }
  return pairs
}

const fold = (text: string) => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()

/** Every word of `wanted` stands in the text. */
function holdsWords(text: string, wanted: string): boolean {
  const present = new Set(fold(text).split(/[^\p{L}\p{N}]+/u))
  return fold(wanted)
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean)
    .every((word) => present.has(word))
}

/**
 * @param page the record page's visible text, a line a block, and its pairs where a reader found some.
 * @param address the number in the page's address, where it was opened by the grader's look-up.
 */
export function compareRecord(
  claim: Claim,
  page: { readonly text: string; readonly specifics: Readonly<Record<string, string>> },
  address: string | null,
  knowledge: { readonly graders: readonly Grader[]; readonly vocabulary: Vocabulary },
): RecordField[] {
  const specifics = { ...pairsOf(page.text), ...page.specifics }
  const record = parseClaims({ title: null, specifics, description: null }, knowledge)[0]
  const found = (field: RecordFieldName): string | null => {
    const read = record?.[field] ?? null
    const wanted = claim[field]
    // What is not labelled is looked for: a name stands in a heading, a number in the address.
    if (field === 'subject') return wanted !== null && holdsWords(page.text, wanted) ? wanted : read
    if (field === 'certificate') return read ?? (wanted !== null && holdsWords(page.text, wanted) ? wanted : address)
    return read
  }
  return RECORD_FIELDS.map((field): RecordField => {
    const listing = claim[field]
    const recorded = found(field)
    if (listing === null || recorded === null) return { field, listing, record: recorded, verdict: 'not-shown' }
    const differs = factsDiffer(KINDS[field], listing, recorded, knowledge.graders)
    return { field, listing, record: recorded, verdict: differs ? 'differs' : 'agrees' }
  })
}
