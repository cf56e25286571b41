/**
 * What finished sales say about a claim and an asked price. Pure: the date comes in as `on`.
 * It estimates what such a card fetched, never whether this one is genuine.
 */
import { Decimal } from 'decimal.js'
import type { Claim } from '../claim.ts'
import type { Money } from '../money.ts'
import type { MatchLevel, Sale, Valuation } from '../valuation.ts'
import { chooseCurrency } from './choose-currency.ts'
import { chooseLevel, THIN_BELOW } from './choose-level.ts'
import { type Estimate, estimate, LEVEL } from './estimate.ts'
import { medianAmount } from './exact-amounts.ts'
import {
  type Excluded,
  findSetMates,
  type Knowledge,
  type MatchedSale,
  type MatchOptions,
  matchSales,
} from './match-sales.ts'
import { minorUnitDigits } from './minor-units.ts'
import { type Moved, moveByLadder } from './move-by-ladder.ts'
import { apartWords, sayEstimate } from './say-steps.ts'
import { worthIfGenuine } from './worth-if-genuine.ts'

export interface ValueOptions extends MatchOptions {
  /** ISO date that the value is for; later sales are left out. */
  readonly on: string
  readonly ask: Money | null
  readonly knowledge: Knowledge
}

/** The sales that a valuation rests on, each with the logarithm that it speaks with. */
interface Basis {
  readonly level: MatchLevel | null
  readonly sales: readonly { readonly match: MatchedSale; readonly log: number }[]
  readonly moveError: number
  readonly comparable: boolean
  readonly steps: readonly string[]
}

const NOT_COMPARABLE = 'These are no sales of the card as it is offered, so the asked price is not held against them.'
const MS_PER_YEAR = 365.25 * 86_400_000

export function valueClaim(claim: Claim, sales: readonly Sale[], options: ValueOptions): Valuation {
  const found = matchSales(claim, sales, options)
  const inCurrency = chooseCurrency(found.matched, options.ask)
  const { currency } = inCurrency
  const basis = findBasis(claim, inCurrency.sales, options, () => findSetMates(claim, sales, currency, options))
  const before = [...found.excluded, ...inCurrency.excluded]
  const steps = [...basis.steps]
  if (inCurrency.excluded.length > 0) {
    steps.push(`Left out ${inCurrency.excluded.length} in other currencies: no rate is at hand.`)
  }
  const worth = worthIfGenuine(claim, inCurrency.sales, currency, options.knowledge)
  const result =
    basis.sales.length >= THIN_BELOW ? weigh(basis, options, currency) : describeRange(basis, options, currency)
  return {
    ...result,
    level: basis.level,
    currency,
    excluded: [...before, ...result.excluded],
    worthIfGenuine: worth,
    steps: [...steps, ...result.steps],
  }
}

function findBasis(
  claim: Claim,
  matched: readonly MatchedSale[],
  options: ValueOptions,
  mates: () => MatchedSale[],
): Basis {
  const choice = chooseLevel(claim, matched, options.knowledge)
  const plain: Basis = {
    level: choice.level,
    sales: choice.sales.map((match) => ({ match, log: Math.log(Number(match.sale.price.amount)) })),
    moveError: 0,
    comparable: choice.comparable,
    steps: choice.comparable || choice.level === null ? [choice.step] : [choice.step, NOT_COMPARABLE],
  }
  const enough = choice.level === 'same-card-same-grade' && choice.sales.length >= THIN_BELOW
  const graded = matched.filter(({ condition }) => condition === 'graded')
  if (enough || choice.level === null || claim.grade === null || graded.length === 0) return plain
  const moved: Moved | null = moveByLadder(claim, graded, mates())
  if (!moved || moved.sales.length < THIN_BELOW) return plain
  return {
    level: 'same-card-other-grade',
    sales: moved.sales,
    moveError: moved.error,
    comparable: true,
    steps: [moved.step],
  }
}

type Result = Pick<Valuation, 'n' | 'centre' | 'interval' | 'trend' | 'excluded' | 'thin' | 'ask' | 'used' | 'steps'>

function weigh({ sales, moveError, comparable }: Basis, { on, ask }: ValueOptions, currency: string | null): Result {
  const day = Date.parse(`${on}T00:00:00Z`)
  const observations = sales.map(({ match, log }) => ({
    log,
    age: (day - Date.parse(`${match.sale.date.slice(0, 10)}T00:00:00Z`)) / MS_PER_YEAR,
    seller: match.sale.seller,
  }))
  const result = estimate(observations, moveError)
  const whys = whyLeftOut(result)
  const kept = sales.filter((_, i) => !whys.has(i))
  const amount = (log: number) => new Decimal(Math.exp(log)).toFixed(minorUnitDigits(currency))
  const { trend } = result
  return {
    n: kept.length,
    centre: amount(result.centre),
    interval: { low: amount(result.low), high: amount(result.high), level: LEVEL, method: result.method },
    trend: trend && {
      perYear: Math.expm1(trend.slope),
      low: Math.expm1(trend.low),
      high: Math.expm1(trend.high),
      applied: trend.applied,
    },
    excluded: sales.flatMap(({ match }, i): Excluded[] => {
      const why = whys.get(i)
      return why === undefined ? [] : [{ sale: match.sale, why }]
    }),
    thin: kept.length < THIN_BELOW,
    ask: standingOf(
      comparable ? ask : null,
      currency,
      new Decimal(amount(result.centre)),
      kept.map(({ log }) => Math.exp(log)),
    ),
    used: kept.map(({ match }) => match.sale),
    steps: sayEstimate(result),
  }
}

function whyLeftOut({ outliers, oddSellers }: Estimate): Map<number, string> {
  const whys = new Map<number, string>()
  for (const i of outliers) whys.set(i, 'its price stands apart from the rest (generalized ESD test)')
  for (const { places, apart } of oddSellers) {
    for (const i of places) whys.set(i, `all sales of this seller together lie ${apartWords(apart)} the others`)
  }
  return whys
}

/** Too few sales for an estimate: their range, exact. */
function describeRange({ sales, level, comparable }: Basis, { ask }: ValueOptions, currency: string | null): Result {
  const amounts = sales.map(({ match }) => new Decimal(match.sale.price.amount))
  const digits = minorUnitDigits(currency)
  const centre = amounts.length > 0 ? medianAmount(amounts) : null
  return {
    n: sales.length,
    centre: centre?.toFixed(digits) ?? null,
    interval: centre && {
      low: Decimal.min(...amounts).toFixed(digits),
      high: Decimal.max(...amounts).toFixed(digits),
      level: null,
      method: 'range',
    },
    trend: null,
    excluded: [],
    thin: true,
    ask:
      centre &&
      standingOf(
        comparable ? ask : null,
        currency,
        centre,
        amounts.map((amount) => amount.toNumber()),
      ),
    used: sales.map(({ match }) => match.sale),
    steps:
      level === null
        ? []
        : ['Fewer than five sales: their range and their median, no estimate; the next sale may well lie outside.'],
  }
}

/** Where an asked price stands among the sales; `null` in another currency. */
function standingOf(
  ask: Money | null,
  currency: string | null,
  centre: Decimal,
  prices: readonly number[],
): Valuation['ask'] {
  if (ask === null || (ask.currency !== null && ask.currency !== currency) || prices.length === 0) return null
  const asked = new Decimal(ask.amount)
  return {
    amount: ask.amount,
    position: prices.filter((price) => price < asked.toNumber()).length / prices.length,
    ratioToCentre: asked.dividedBy(centre).toNumber(),
  }
}
