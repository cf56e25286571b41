/**
 * Does the 90 % interval hold what it says? Simulated markets with known truth, 2 to 200 sales; beside it three plain rules.
 * Settings were chosen on seed 1; the table is made on other seeds.
 */
import { estimate } from '../../src/domain/pricing/estimate.ts'
import { moveByLadder } from '../../src/domain/pricing/move-by-ladder.ts'
import { createRandom, type Market, type MarketKind, simulateGrades, simulateMarket } from './scenes/simulate-market.ts'

interface Answer {
  readonly centre: number
  readonly low: number
  readonly high: number
}

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length
const deviation = (values: readonly number[]) =>
  Math.sqrt(values.reduce((a, b) => a + (b - mean(values)) ** 2, 0) / (values.length - 1))
const quantile = (values: readonly number[], p: number) => {
  const sorted = [...values].sort((a, b) => a - b)
  const at = p * (sorted.length - 1)
  return sorted[Math.floor(at)]! + (at % 1) * ((sorted[Math.ceil(at)] ?? 0) - sorted[Math.floor(at)]!)
}
const prices = ({ sales }: Market) => sales.map(({ price }) => price)

const RULES: Record<string, (market: Market) => Answer> = {
  touchstone: ({ sales }) => {
    const { centre, low, high } = estimate(
      sales.map(({ price, age, seller }) => ({ log: Math.log(price), age, seller })),
    )
    return { centre: Math.exp(centre), low: Math.exp(low), high: Math.exp(high) }
  },
  // t for four degrees of freedom, two-sided 90 %: 2.132 (NIST/SEMATECH e-Handbook 1.3.6.7.2).
  'last five': (market) => {
    const last = prices(market).slice(-5)
    const reach = 2.132 * deviation(last) * Math.sqrt(1 + 1 / last.length)
    return { centre: mean(last), low: mean(last) - reach, high: mean(last) + reach }
  },
  'plain median': (market) => ({
    centre: quantile(prices(market), 0.5),
    low: quantile(prices(market), 0.05),
    high: quantile(prices(market), 0.95),
  }),
  'mean ± 2 sd': (market) => {
    const [centre, sd] = [mean(prices(market)), deviation(prices(market))]
    return { centre, low: centre - 2 * sd, high: centre + 2 * sd }
  },
}

const SIZES: [string, number, number][] = [
  ['5–9', 5, 9],
  ['10–19', 10, 19],
  ['20–49', 20, 49],
  ['50–200', 50, 200],
]
const KINDS: MarketKind[] = ['calm', 'trend', 'jump', 'contaminated', 'mixed']
const MARKETS = Number(process.env.MARKETS ?? 1200)
const SEED = Number(process.env.SEED ?? 2)

interface Tally {
  covered: number
  widths: number[]
  errors: number[]
  /** How far the next sale lay from the centre, in half widths: its 90 % quantile scales a rule to honest coverage. */
  strains: number[]
}

function run(low: number, high: number, kind: MarketKind, random: () => number): Record<string, Tally> {
  const tallies: Record<string, Tally> = {}
  for (const name of Object.keys(RULES)) tallies[name] = emptyTally()
  for (let i = 0; i < MARKETS; i++) {
    const n = Math.round(low * (high / low) ** random())
    const market = simulateMarket(kind, n, random)
    for (const [name, rule] of Object.entries(RULES)) count(tallies[name]!, rule(market), market)
  }
  return tallies
}

const random = createRandom(SEED)
const heads = ['sales', 'market', 'rule', 'covers', 'width', 'width at 90 %', 'centre off by']
const rows: string[][] = [heads]
const whole: Record<string, Tally> = {}
for (const [label, low, high] of SIZES) {
  for (const kind of KINDS) {
    for (const [name, tally] of Object.entries(run(low, high, kind, random))) {
      rows.push(row(label, kind, name, tally))
      whole[name] ??= emptyTally()
      whole[name].covered += tally.covered
      for (const key of ['widths', 'errors', 'strains'] as const) whole[name][key].push(...tally[key])
    }
  }
}
for (const [name, tally] of Object.entries(whole)) rows.push(row('5–200', 'all', name, tally))

// Under five sales no coverage is promised: what the plain range holds is shown all the same.
const thin = emptyTally()
for (let i = 0; i < MARKETS; i++) {
  const market = simulateMarket('mixed', 2 + (i % 3), random)
  const all = prices(market)
  count(thin, { centre: quantile(all, 0.5), low: Math.min(...all), high: Math.max(...all) }, market)
}
rows.push(row('2–4', 'mixed', 'range (thin)', thin))

// A grade sold at most four times, its neighbours' sales moved to it along the ladder.
const moved = emptyTally()
for (let i = 0; i < 2 * MARKETS; i++) {
  const market = simulateGrades(random)
  const matches = market.sales.map(({ price, grade }, k) => ({
    sale: { id: String(k), price: { amount: String(price) } },
    claim: { grade: String(grade) },
    amount: String(price),
  }))
  type Arguments = Parameters<typeof moveByLadder>
  const result = moveByLadder({ grade: String(market.grade) } as Arguments[0], matches as unknown as Arguments[1], [])
  if (!result || result.sales.length < 5) continue
  const observations = result.sales.map(({ match, log }) => ({ log, ...market.sales[Number(match.sale.id)]! }))
  const { centre, low, high } = estimate(observations, result.error)
  count(moved, { centre: Math.exp(centre), low: Math.exp(low), high: Math.exp(high) }, market)
}
rows.push(row('0–4 of grade', 'grades', 'ladder', moved))

for (const cells of rows) console.log(cells.map((cell, i) => (i < 3 ? cell.padEnd(14) : cell.padStart(14))).join(''))
console.log(`
${MARKETS} markets a row, seed ${SEED}. covers: share of next honest sales inside the band (aim 90 %). width: band over the true level.
width at 90 %: the band scaled until it covers 90 % – the fair comparison. centre off by: mean distance from the true level, in logs.`)

function emptyTally(): Tally {
  return { covered: 0, widths: [], errors: [], strains: [] }
}

function count(tally: Tally, { centre, low, high }: Answer, { next, level }: { next: number; level: number }): void {
  if (next >= low && next <= high) tally.covered++
  tally.widths.push((high - low) / level)
  tally.errors.push(Math.abs(Math.log(Math.max(centre, 1e-9) / level)))
  tally.strains.push((2 * Math.abs(next - centre)) / (high - low))
}

function row(label: string, kind: string, name: string, { covered, widths, errors, strains }: Tally): string[] {
  const scale = quantile(strains, 0.9)
  return [
    label,
    kind,
    name,
    `${((100 * covered) / widths.length).toFixed(1)} %`,
    mean(widths).toFixed(3),
    (mean(widths) * scale).toFixed(3),
    `${(100 * mean(errors)).toFixed(1)} %`,
  ]
}
