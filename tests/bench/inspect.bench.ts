/**
 * How long one inspection takes, by length of the description: `npx tsx tests/bench/inspect.bench.ts`.
 * Aimed at: 3 ms for 20 kB and 60 rules, and time in proportion to length. Figures depend on the machine; run it on yours.
 */
import { inspect } from '../../src/domain/inspect.ts'
import { loadPacks } from '../unit/rules/load-packs.ts'
import { BOOK, FACTS, LISTING } from '../unit/rules/sample-facts.ts'

/** Plain sentences with a hedge, a negation and a number now and then, as descriptions have them. */
const SENTENCES = [
  'Tamsin Quillfeather, number 34 of the 1958 Tidal League, in the condition that the photos show.',
  'Light wear at two corners, one faint crease on the back that does not reach the picture.',
  'This is not a reprint, and no returns are needed where the card is as shown.',
  'Versand gut verpackt zwischen Pappe; weitere Karten der Reihe auf Anfrage.',
  'Stored in a toploader since 2015, away from light, in a house without smoke.',
]

function describe(length: number): string {
  let text = ''
  for (let at = 0; text.length < length; at++) text += `${SENTENCES[at % SENTENCES.length]} `
  return text.slice(0, length)
}

/** Letters and signs that begin phrases over and over: what a backtracking matcher would choke on. */
const adversarial = (length: number) => 'not not no no sure if '.repeat(Math.ceil(length / 22)).slice(0, length)

interface Measured {
  /** Time on the clock; grows where other programs share the processor. */
  readonly median: number
  readonly best: number
  /** Processor time a run, collection of garbage included. */
  readonly processor: number
}

function measure(description: string, runs: number): Measured {
  const packs = loadPacks()
  const facts = { ...FACTS, listing: { ...LISTING, description } }
  const times: number[] = []
  const before = process.cpuUsage()
  for (let run = 0; run < runs; run++) {
    const start = performance.now()
    inspect(facts, BOOK, packs)
    times.push(performance.now() - start)
  }
  const used = process.cpuUsage(before)
  times.sort((a, b) => a - b)
  return { median: times[Math.floor(runs / 2)]!, best: times[0]!, processor: (used.user + used.system) / 1000 / runs }
}

const { rules } = loadPacks()
// Warmed up, as in a panel that stays open.
measure(describe(20_000), 60)
console.log(`inspect, ${rules.length} rules, Node ${process.version}`)
console.log('text            length     median ms   best ms   processor ms   best ns/char')
const rows: [string, string, number][] = [
  ['prose', describe(500), 200],
  ['prose', describe(20_000), 60],
  ['prose', describe(125_000), 9],
  ['prose', describe(250_000), 7],
  ['prose', describe(500_000), 5],
  ['prose', describe(1_000_000), 3],
  ['adversarial', adversarial(20_000), 30],
  ['adversarial', adversarial(500_000), 3],
  ['adversarial', adversarial(1_000_000), 3],
]
for (const [name, text, runs] of rows) {
  const { median, best, processor } = measure(text, runs)
  const cells = [
    name.padEnd(12),
    String(text.length).padStart(9),
    median.toFixed(2).padStart(13),
    best.toFixed(2).padStart(9),
    processor.toFixed(2).padStart(14),
  ]
  console.log(`${cells.join(' ')} ${((best * 1e6) / text.length).toFixed(0).padStart(14)}`)
}

/** A results page as the panel judges it: the packs are loaded, the words are new. */
function judgeRows(page: number): number {
  const start = performance.now()
  for (let row = 0; row < 200; row++) {
    const title = `${LISTING.title} ${page} ${row}`
    const listing = { ...LISTING, title, description: null, specifics: {}, photos: [] }
    inspect({ ...FACTS, listing }, BOOK, packs)
  }
  return performance.now() - start
}
const packs = loadPacks()
const before = process.cpuUsage()
const pages = Array.from({ length: 15 }, (_, page) => judgeRows(page)).sort((a, b) => a - b)
const used = process.cpuUsage(before)
const processor = (used.user + used.system) / 1000 / pages.length
console.log(
  `200 result rows: median ${pages[7]!.toFixed(1)}, best ${pages[0]!.toFixed(1)}, processor ${processor.toFixed(1)} ms (aimed at: 60)`,
)
