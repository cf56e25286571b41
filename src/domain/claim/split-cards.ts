/**
 * Several cards on one page: a list in the description ("pick your card"), or a title with several card numbers. One text each,
 * read like a title; what it leaves open is the page's.
 */
import type { Claim } from '../claim.ts'
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
  /^\s*(?:[-–—•*·▪►]\s*)?(?:(?:#|no\.?|nr\.?|n[°º.]|num\.?|№|card|karte|cromo|carta|carte|figurina)\s*#?\s*)?([A-Z]{0,3}-?[0-9]{1,4}[a-z]?)\s*(?:[-–—:.)|]\s*|\s+)(?=\p{L})/iu

export function splitCards(
  description: Reading | null,
  whole: Claim,
  { graders, vocabulary }: { graders: readonly Grader[]; vocabulary: Vocabulary },
): Partial<Sayings>[] {
  if (description === null) return []
  const needed = whole.multiple ? 2 : FEWEST_LINES
  const lines = listLines(description.text.original)
  if (lines.length < needed) return []
  const cards: Partial<Sayings>[] = []
  for (const { line, number } of lines) {
    const reading = readText('description', line, vocabulary)
    if (reading.startingAt('label:count-noun', 1) !== null) continue
    const said = parseText(reading, { graders, running: false })
    cards.push({
      ...said,
      cardNumber: said.cardNumber ?? { value: number, reading, span: { first: 0, last: 0 } },
    })
  }
  return cards.length >= needed ? cards : []
}

/** Lines that begin with a number of their own, each number once. */
function listLines(text: string): { line: string; number: string }[] {
  const lines: { line: string; number: string }[] = []
  const seen = new Set<string>()
  for (const line of text.split('\n')) {
    if (lines.length >= MOST_CARDS) break
    if (line.length > LONGEST_LINE) continue
    const number = LISTED.exec(line)?.[1]
    if (number === undefined || /^(?:18|19|20)[0-9]{2}$/.test(number) || seen.has(number)) continue
    seen.add(number)
    lines.push({ line: line.trim(), number })
  }
  return lines
}
