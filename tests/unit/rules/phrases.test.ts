/**
 * The phrase lists: every phrase can be met, and everyday sentences of clean listings meet none.
 * The words are common practice of the trade in five languages, no source.
 */
import { describe, expect, it } from 'vitest'
import { inspect } from '../../../src/domain/inspect.ts'
import type { PhrasePack } from '../../../src/domain/rules/phrase-pack.ts'
import { normaliseText } from '../../../src/domain/text/normalise-text.ts'
import { loadPacks, readPackFiles } from './load-packs.ts'
import { BOOK, FACTS, LISTING } from './sample-facts.ts'

const packs = loadPacks()
const lists = readPackFiles().flatMap(({ pack }) => {
  const phrases = pack as PhrasePack
  return phrases.kind === 'phrases' ? [phrases] : []
})

/** The words that a phrase stands for, with every choice taken first, then last. */
function spell(phrase: string): string[] {
  const take = (pick: (choices: string[]) => string) =>
    phrase
      .split(' ')
      .filter((part) => !part.startsWith('[') && !/^~\d$/.test(part))
      .map((part) => (part === ',~' ? ',' : pick(part.split('|')).replaceAll('*', '')))
      .join(' ')
      .replaceAll(' ,', ',')
  return [take((choices) => choices[0]!), take((choices) => choices.at(-1)!)]
}

describe.each(lists.map((list) => [list.id, list] as const))('%s', (id, list) => {
  it('meets each of its phrases', () => {
    const unmet: string[] = []
    for (const phrase of Object.values(list.phrases).flat()) {
      for (const words of spell(phrase)) {
        const hits = packs.searchPhrases(new Map([['description', normaliseText(`Light wear. ${words}. Thank you.`)]]))
        if (!hits.get(id)) unmet.push(words)
      }
    }
    expect(unmet).toEqual([])
  })
  it('has words in all five languages', () => {
    expect(Object.keys(list.phrases).sort()).toEqual(['de', 'en', 'es', 'fr', 'it'])
  })
})

const PLAIN = [
  'Not a reprint, not a facsimile, no reproduction: an original card of its year.',
  'I guarantee authenticity and refund in full if any grader disagrees.',
  'Returns accepted within 30 days, no questions asked.',
  'Please do not hesitate to ask for more photos.',
  'Payment by card or bank transfer through the site.',
  'I never ask for payment outside the platform.',
  'Message me here if you have any question.',
  'No hurry: the auction runs until Sunday.',
  'Shipped fast, tracked and insured, at my risk.',
  'Not trimmed, not recoloured, never cleaned or pressed.',
  'The holder has no cracks and no scratches.',
  'These are photos of the very card that you will receive.',
  'No stock photos.',
  'Bought from a dealer at the Saltmere fair in 2015, receipt included.',
  'The card shows its age: rounded corners, a light stain on the back.',
  'Ships in a toploader between boards.',
  'More cards in my other listings; I combine shipping.',
  'A text on the back names the club.',
  'The estate of Port Ennish is drawn in the background.',
  'First card of the set.',
  'The last of the series was issued in spring.',
  'Kein Nachdruck, keine Kopie: Original aus der Zeit.',
  'Ich garantiere die Echtheit und nehme die Karte jederzeit zurück.',
  'Rückgabe innerhalb von 14 Tagen möglich.',
  'Weitere Fotos schicke ich gerne.',
  'Bezahlung über den Käuferschutz der Plattform.',
  'Versand versichert mit Sendungsverfolgung.',
  'Nicht beschnitten, nicht gereinigt, nicht geklebt.',
  'Der Halter ist ohne Risse und ohne Kratzer.',
  'Auf den Fotos ist genau diese Karte zu sehen.',
  'Gekauft auf der Börse in Saltmere.',
  'Bei Fragen bitte einfach schreiben.',
  'Ce n’est pas une réimpression. Retours acceptés sous 30 jours.',
  'Photos supplémentaires sur demande.',
  'Authenticité garantie.',
  'No es una reimpresión. Se aceptan devoluciones en 30 días.',
  'Más fotos a petición.',
  'Autenticidad garantizada.',
  'Non è una ristampa. Resi accettati entro 30 giorni.',
  'Altre foto su richiesta.',
  'Autenticità garantita.',
]

it.each(PLAIN)('raises nothing on: %s', (sentence) => {
  const listing = { ...LISTING, description: `${LISTING.description} ${sentence}` }
  expect(
    inspect({ ...FACTS, listing }, BOOK, packs).concerns.map(({ rule, evidence }) => [rule, evidence[0]?.quote]),
  ).toEqual([])
})
