/**
 * Does the 90 % interval hold what it says? Simulated markets with known truth, 2 to 200 sales; beside it three plain rules.
 * Settings were chosen on seed 1; the table is made on other seeds.
 */
import { estimate } from '../../src/domain/pricing/estimate.ts'
import { createRandom, type Market, type MarketKind, simulateMarket } from './scenes/simulate-market.ts'

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
  for (const name of Object.keys(RULES)) tallies[name] = { covered: 0, widths: [], errors: [], strains: [] }
  for (let i = 0; i < MARKETS; i++) {
    const n = Math.round(low * (high / low) ** random())
    const market = simulateMarket(kind, n, random)
    for (const [name, rule] of Object.entries(RULES)) {
      const tally = tallies[name]!
      const { centre, low: from, high: to } = rule(market)
      if (market.next >= from && market.next <= to) tally.covered++
      tally.widths.push((to - from) / market.level)
      tally.errors.push(Math.abs(Math.log(centre / market.level)))
      tally.strains.push((2 * Math.abs(market.next - centre)) / (to - from))
    }
  }
  return tallies
}

const random = createRandom(SEED)
const rows: string[][] = [['sales', 'market', 'rule', 'covers', 'width', 'width at 90 %', 'centre off by']]
const whole: Record<string, Tally> = {}
for (const [label, low, high] of SIZES) {
  for (const kind of KINDS) {
    for (const [name, tally] of Object.entries(run(low, high, kind, random))) {
      rows.push(row(label, kind, name, tally))
      whole[name] ??= { covered: 0, widths: [], errors: [], strains: [] }
      whole[name].covered += tally.covered
      for (const key of ['widths', 'errors', 'strains'] as const) whole[name][key].push(...tally[key])
    }
  }
}
for (const [name, tally] of Object.entries(whole)) rows.push(row('all', 'all', name, tally))
const narrow = process.env.ONLY
for (const cells of rows) {
  if (narrow && cells[2] !== narrow && cells[0] !== 'all') continue
  console.log(cells.map((cell, i) => (i < 3 ? cell.padEnd(13) : cell.padStart(14))).join(''))
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
