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
  title: Reading | null,
  description: Reading | null,
  whole: Claim,
  { graders, vocabulary }: { graders: readonly Grader[]; vocabulary: Vocabulary },
): Partial<Sayings>[] {
  if (description === null) return []
  const cards: Partial<Sayings>[] = []
  const seen = new Set<string>()
  for (const line of description.text.original.split('\n')) {
    if (cards.length >= MOST_CARDS) break
    if (line.length > LONGEST_LINE || !/[0-9]/.test(line)) continue
    const number = LISTED.exec(line)?.[1]
    if (number === undefined || /^(?:18|19|20)[0-9]{2}$/.test(number)) continue
    const reading = readText('description', line.trim(), vocabulary)
    if (reading.startingAt('label:count-noun', 1) !== null) continue
    const said = parseText(reading, { graders, running: false })
    if (seen.has(number)) continue
    seen.add(number)
    cards.push({
      ...said,
      cardNumber: said.cardNumber ?? { value: number, reading, span: { first: 0, last: 0 } },
    })
  }
  const needed = whole.multiple ? 2 : FEWEST_LINES
  void title
  return cards.length >= needed ? cards : []
}
