/**
 * How long claims take: a title, a 20 kB description, 200 titles of a results page, and texts of half a megabyte and more, each twice
 * as long as the one before. Run with `npx tsx tests/bench/claim.bench.ts`; prints medians of
 * processor time (what else runs on the machine must not count) and, with `--check`, fails past the budgets.
 */
import { readFileSync } from 'node:fs'
import { parseClaims } from '../../src/domain/claim/parse-claims.ts'
import { parsePacks } from '../../src/domain/rules/packs.ts'
import { knowledge } from '../unit/claim/knowledge.ts'
import { readPackFiles, readTexts } from '../unit/rules/load-packs.ts'

const titles = (
  JSON.parse(readFileSync(new URL('../fixtures/titles/titles-train.json', import.meta.url), 'utf8')) as {
    title: string
  }[]
).map(({ title }) => title)
const descriptions = (
  JSON.parse(readFileSync(new URL('../fixtures/titles/descriptions-train.json', import.meta.url), 'utf8')) as {
    description?: string
  }[]
).flatMap(({ description }) => description ?? [])

const fill = (length: number): string => {
  let text = ''
  for (let index = 0; text.length < length; index += 1) text += `${descriptions[index % descriptions.length]}\n`
  return text.slice(0, length)
}

const median = (run: () => void, repeats: number): number => {
  const times: number[] = []
  for (let index = 0; index < repeats; index += 1) {
    const start = process.cpuUsage()
    run()
    times.push(process.cpuUsage(start).user / 1000)
  }
  return times.sort((a, b) => a - b)[Math.floor(repeats / 2)] ?? 0
}

const parse = (title: string | null, description: string | null): void => {
  parseClaims({ title, specifics: {}, description }, knowledge)
}

for (let round = 0; round < 3; round += 1) for (const title of titles) parse(title, null)
parse(null, fill(20_000))

const results: { name: string; milliseconds: number; budget: number | null }[] = []
let next = 0
results.push({
  name: 'one title',
  milliseconds: median(() => parse(titles[next++ % titles.length] ?? '', null), 500),
  budget: 0.3,
})
results.push({
  name: '200 titles',
  milliseconds: median(() => {
    for (const title of titles.slice(0, 200)) parse(title, null)
  }, 9),
  budget: 60,
})
const page = fill(20_000)
results.push({
  name: 'title and 20 kB of description',
  milliseconds: median(() => parse(titles[0] ?? '', page), 15),
  budget: 15,
})
/** Sentences of a shop's page, few facts in them: what most descriptions are made of. Invented. */
const SENTENCES = [
  'We are a small family business by the harbour and have packed parcels with care for many years.',
  'Every parcel leaves our house on the next working day, well wrapped and with a number that you can follow on the way.',
  'The light in our photos comes from a north window, so colours may look a little cooler than they do in the hand.',
  'My father kept his albums in a dry cupboard and hardly ever showed them to anybody outside the family.',
  'If something is not as you expected, write to us first and we will find a way that suits both of us.',
  'You will find a light wave along the upper edge that can only be seen when it is tilted against the light.',
  'Please ask before the end of the week, because we travel to the coast and cannot send anything from there.',
]
let prose = ''
for (let index = 0; prose.length < 20_000; index += 1)
  prose += `${SENTENCES[(index * 3) % SENTENCES.length]}${index % 4 === 3 ? '\n\n' : ' '}`
for (let round = 0; round < 30; round += 1) parse(titles[0] ?? '', prose)
results.push({
  name: 'title and 20 kB of ordinary prose',
  milliseconds: median(() => parse(titles[0] ?? '', prose), 100),
  budget: 4,
})
const packFiles = readPackFiles()
const texts = readTexts('en')
results.push({
  name: 'all packs and the vocabulary (warm)',
  milliseconds: median(() => parsePacks(packFiles, texts), 9),
  budget: 60,
})
const sizes = [131_072, 262_144, 524_288, 1_048_576]
const doublings = sizes.map((size) => {
  const text = fill(size)
  return { name: `${size / 1024} kB of description`, milliseconds: median(() => parse(null, text), 3), budget: null }
})
results.push(...doublings)
for (const { name, milliseconds, budget } of results)
  console.log(
    `${name.padEnd(34)} ${milliseconds.toFixed(2).padStart(9)} ms${budget === null ? '' : `   budget ${budget} ms`}`,
  )
const growth = (doublings.at(-1)?.milliseconds ?? 0) / (doublings[0]?.milliseconds ?? 1)
console.log(`8 times the text takes ${growth.toFixed(1)} times as long`)
if (process.argv.includes('--check')) {
  const over = results.filter(({ milliseconds, budget }) => budget !== null && milliseconds > budget)
  if (over.length > 0 || growth > 16) {
    console.error(`over budget: ${[...over.map(({ name }) => name), ...(growth > 16 ? ['growth'] : [])].join(', ')}`)
    process.exit(1)
  }
}
