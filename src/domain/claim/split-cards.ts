/**
 * Several cards on one page: a list in the description ("pick your card"), or a title with several card numbers. One text each,
 * read like a title; what it leaves open is the page's.
 */
import type { Grader } from '../grader-book.ts'
import { parseText, type Sayings } from './parse-text.ts'
import { type Reading, readText } from './reading.ts'
import type { Vocabulary } from './vocabulary.ts'

/** Most cards that are told apart; a longer list is a catalogue. Ours. */
const MOST_CARDS = 200
const LONGEST_LINE = 160
/** Fewest lines of a kind that make a list where the title does not announce one. Ours. */
const FEWEST_LINES = 3

const LISTED =
  /^\s*(?:[-–—•*·▪►]\s*)?((?:#|no\.?|nr\.?|n[°º.]|num\.?|№|card|karte|cromo|carta|carte|figurina)\s*#?\s*)?([A-Z]{0,3}-?[0-9]{1,4}[a-z]?)\s*(?:[-–—:.)|]\s*|\s+)(?=\p{L})/iu

export interface SplitCards {
  readonly cards: readonly Partial<Sayings>[]
  /** The description without the list: what it says of all of them. */
  readonly rest: Sayings
}

/** `null` where the description lists no cards. */
export function splitCards(
  description: Reading | null,
  isMultiple: boolean,
  { graders, vocabulary }: { graders: readonly Grader[]; vocabulary: Vocabulary },
): SplitCards | null {
  if (description === null) return null
  const needed = isMultiple ? 2 : FEWEST_LINES
  const text = description.text.original
  // Where the title announces no list, only signs and labels make one: "1. small crease" numbers remarks.
  const lines = listLines(text).filter(
    ({ labelled, line }) => labelled || (isMultiple && /^[^\p{L}]*\p{Lu}/u.test(line)),
  )
  if (lines.length < needed) return null
  const cards: Partial<Sayings>[] = []
  const rest: string[] = []
  let copied = 0
  for (const { line, number, start } of lines) {
    const reading = readText('description', line, vocabulary, { offset: start })
    if (reading.startingAt('label:count-noun', 1) !== null) continue
    const said = parseText(reading, { graders, running: false })
    cards.push({
      ...said,
      cardNumber: said.cardNumber ?? { value: number, reading, span: { first: 0, last: 0 } },
    })
    // Blanks keep every other word at its place.
    rest.push(text.slice(copied, start), ' '.repeat(line.length))
    copied = start + line.length
  }
  if (cards.length < needed) return null
  rest.push(text.slice(copied))
  return {
    cards,
    rest: parseText(readText('description', rest.join(''), vocabulary, { running: true }), { graders, running: true }),
  }
}

/** Words and signs between two cards of one title. */
const AND = /^(and|und|et|y|e|with|plus|mit|avec|con)$/

/** A title with several card numbers: the words around each, cut at the sign or word between two of them. */
export function splitTitle(
  title: Reading | null,
  said: Sayings | null,
  { graders, vocabulary }: { graders: readonly Grader[]; vocabulary: Vocabulary },
): Partial<Sayings>[] | null {
  if (title === null || said === null) return null
  const numbers = said.numbers.filter(
    ({ value }, index, all) => all.findIndex((other) => other.value === value) === index,
  )
  if (numbers.length < 2 || numbers.length > MOST_CARDS) return null
  const cuts: number[] = []
  for (let index = 1; index < numbers.length; index += 1) {
    const from = (numbers[index - 1]?.span.last ?? 0) + 1
    const to = numbers[index]?.span.first ?? from
    let cut = -1
    for (let at = from; at <= to && cut < 0; at += 1)
      if (AND.test(title.tokens[at]?.form ?? '') || /[&+,;/|–—]/.test(title.tokens[at]?.separator ?? '')) cut = at
    if (cut < 0) return null
    cuts.push(cut)
  }
  const { original } = title.text
  const edges = [0, ...cuts.map((at) => startWithSign(original, title.tokens[at]?.start ?? 0)), original.length]
  return numbers.map((number, index) => {
    const start = edges[index] ?? 0
    const reading = readText('title', original.slice(start, edges[index + 1]), vocabulary, { offset: start })
    return { ...parseText(reading, { graders, running: false }), cardNumber: number }
  })
}

/** The number's sign goes with it. */
function startWithSign(original: string, start: number): number {
  let at = start
  while (at > 0 && /[#\s]/.test(original.charAt(at - 1))) at -= 1
  return original.slice(at, start).includes('#') ? at : start
}

interface ListLine {
  readonly line: string
  readonly number: string
  readonly start: number
  /** Its number stands behind a sign or a label. */
  readonly labelled: boolean
}

/** Lines that begin with a number of their own, each number once. */
function listLines(text: string): ListLine[] {
  const lines: ListLine[] = []
  const seen = new Set<string>()
  let start = 0
  for (const line of text.split('\n')) {
    const at = start
    start += line.length + 1
    if (lines.length >= MOST_CARDS) break
    if (line.length > LONGEST_LINE) continue
    const listed = LISTED.exec(line)
    const number = listed?.[2]
    if (number === undefined || /^(?:18|19|20)[0-9]{2}$/.test(number) || seen.has(number)) continue
    seen.add(number)
    lines.push({ line, number, start: at, labelled: listed?.[1] !== undefined })
  }
  return lines
}
