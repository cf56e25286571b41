/**
 * What finished sales say about a claim and an asked price. Pure: the date comes in as `on`.
 * It estimates what such a card fetched, never whether this one is genuine.
 */
import { Decimal } from 'decimal.js'
import type { Claim } from '../claim.ts'
import type { Money } from '../money.ts'
import type { MatchedPoint, MatchLevel, Said, Sale, Valuation } from '../valuation.ts'
import { chooseCurrency } from './choose-currency.ts'
import { chooseLevel, THIN_BELOW } from './choose-level.ts'
import { type Estimate, estimate, LEVEL } from './estimate.ts'
import { medianAmount } from './exact-amounts.ts'
import {
  claimOf,
  type Excluded,
  findSetMates,
  isGraded,
  type Knowledge,
  leaveOut,
  type MatchedSale,
  type MatchOptions,
  matchSales,
} from './match-sales.ts'
import { minorUnitDigits } from './minor-units.ts'
import { type Moved, moveByLadder } from './move-by-ladder.ts'
import { apart, sayEstimate } from './say-steps.ts'
import { findSoldLately, type ThisItem } from './sold-lately.ts'
import { inEnglish, said } from './words.ts'
import { worthIfGenuine } from './worth-if-genuine.ts'

export interface ValueOptions extends MatchOptions {
  /** ISO date that the value is for; later sales are left out. */
  readonly on: string
  readonly ask: Money | null
  readonly knowledge: Knowledge
  /** What is offered, for finding its own last sale. */
  readonly item?: ThisItem | null
  /** Where sales of other cards of the set are looked for; absent: among `sales`. */
  readonly mates?: readonly Sale[]
}

/** The sales that a valuation rests on, each with the logarithm that it speaks with. */
interface Basis {
  readonly level: MatchLevel | null
  readonly sales: readonly { readonly match: MatchedSale; readonly log: number }[]
  readonly moveError: number
  readonly comparable: boolean
  readonly steps: readonly Said[]
}

const MS_PER_YEAR = 365.25 * 86_400_000
/** What is drawn and kept with a dossier: more of the newest than a person looks through one by one. Ours. */
export const MOST_POINTS = 5000

export function valueClaim(claim: Claim, sales: readonly Sale[], options: ValueOptions): Valuation {
  const found = matchSales(claim, sales, options)
  const inCurrency = chooseCurrency(found.matched, options.ask, options.rates ?? null)
  const { currency } = inCurrency
  const mates = () => findSetMates(claim, options.mates ?? sales, currency, options)
  const basis = findBasis(claim, inCurrency.sales, options, mates)
  const before = [...found.excluded, ...inCurrency.excluded]
  const steps = [...basis.steps]
  if (inCurrency.converted > 0) {
    steps.push(said('step.converted', { count: inCurrency.converted, currency: currency as string }))
  }
  if (inCurrency.excluded.length > 0) steps.push(said('step.other-currencies', { count: inCurrency.excluded.length }))
  const notCounted = found.excluded.filter(({ reason }) => NOT_COUNTED.has(reason.code))
  if (notCounted.length > 0) steps.push(said('step.not-counted', { count: notCounted.length }))
  const worth = worthIfGenuine(claim, inCurrency.sales, currency, options.knowledge)
  const { counted, bounds, ...result } =
    exactOf(basis).length >= THIN_BELOW ? weigh(basis, options, currency) : describeRange(basis, options, currency)
  const excluded = [...before, ...result.excluded]
  const all = [...steps, ...result.said]
  return {
    ...result,
    level: basis.level,
    currency,
    excluded,
    worthIfGenuine: worth,
    used: counted.map(({ sale }) => sale),
    steps: all.map(inEnglish),
    said: all,
    points: pointsOf(claim, inCurrency.sales, excluded, new Set(counted.map(({ sale }) => sale.id)), currency, options),
    bounds,
    onlyNotCounted: found.matched.length === 0 && notCounted.length > 0,
    soldLately: findSoldLately(claim, options.item ?? null, inCurrency.sales, options.on),
    converted: inCurrency.converted,
  }
}

const NOT_COUNTED: ReadonlySet<string> = new Set([
  'why.sale-not-counted',
  'why.seller-not-counted',
  'why.venue-not-counted',
])

/** Whether sales of other cards of the set would be asked for: fewer than five of this card in this grade are among `sales`. */
export function needsMates(claim: Claim, sales: readonly Sale[], options: ValueOptions): boolean {
  let asked = false
  const { sales: matched } = chooseCurrency(
    matchSales(claim, sales, options).matched,
    options.ask,
    options.rates ?? null,
  )
  findBasis(claim, matched, options, () => {
    asked = true
    return []
  })
  return asked
}

function exactOf({ sales }: Basis): Basis['sales'] {
  return sales.filter(({ match }) => !match.sale.bestOffer)
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
    sales: choice.sales.map((match) => ({ match, log: Math.log(Number(match.amount)) })),
    moveError: 0,
    comparable: choice.comparable,
    steps: choice.comparable || choice.level === null ? [choice.step] : [choice.step, said('step.not-comparable')],
  }
  const enough = choice.level === 'same-card-same-grade' && exactOf(plain).length >= THIN_BELOW
  const graded = matched.filter(({ condition }) => condition === 'graded')
  if (enough || choice.level === null || claim.grade === null || graded.length === 0) return plain
  const moved: Moved | null = moveByLadder(claim, graded, mates())
  if (!moved || moved.sales.filter(({ match }) => !match.sale.bestOffer).length < THIN_BELOW) return plain
  return {
    level: 'same-card-other-grade',
    sales: moved.sales,
    moveError: moved.error,
    comparable: true,
    steps: [moved.step],
  }
}

type Result = Pick<Valuation, 'n' | 'centre' | 'interval' | 'trend' | 'thin' | 'ask'> & {
  readonly excluded: readonly Excluded[]
  readonly counted: readonly MatchedSale[]
  readonly bounds: number
  readonly said: readonly Said[]
}

function weigh({ sales, moveError, comparable }: Basis, { on, ask }: ValueOptions, currency: string | null): Result {
  const day = Date.parse(`${on}T00:00:00Z`)
  const observations = sales.map(({ match, log }) => ({
    log,
    age: (day - Date.parse(`${match.sale.date.slice(0, 10)}T00:00:00Z`)) / MS_PER_YEAR,
    seller: match.sale.seller,
    bound: match.sale.bestOffer ?? false,
  }))
  const result = estimate(observations, moveError)
  const whys = whyLeftOut(result)
  const kept = sales.filter((_, i) => !whys.has(i))
  const exact = kept.filter(({ match }) => !match.sale.bestOffer)
  const bounds = kept.length - exact.length
  const amount = (log: number) => new Decimal(Math.exp(log)).toFixed(minorUnitDigits(currency))
  const { trend } = result
  return {
    n: exact.length,
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
      return why === undefined ? [] : [leaveOut(match.sale, why)]
    }),
    thin: exact.length < THIN_BELOW,
    ask: standingOf(
      comparable ? ask : null,
      currency,
      new Decimal(amount(result.centre)),
      exact.map(({ log }) => Math.exp(log)),
    ),
    counted: kept.map(({ match }) => match),
    bounds,
    said: sayEstimate(result, bounds),
  }
}

function whyLeftOut({ outliers, oddSellers }: Estimate): Map<number, Said> {
  const whys = new Map<number, Said>()
  for (const i of outliers) whys.set(i, said('why.outlier'))
  for (const odd of oddSellers) {
    const { share, side } = apart(odd.apart)
    for (const i of odd.places) whys.set(i, said(`why.odd-seller-${side}`, { apartShare: share }))
  }
  return whys
}

/** Too few sales for an estimate: their range, exact. */
function describeRange(basis: Basis, { ask }: ValueOptions, currency: string | null): Result {
  const { sales, level, comparable } = basis
  const exact = exactOf(basis)
  const bounds = sales.length - exact.length
  const amounts = exact.map(({ match }) => new Decimal(match.amount))
  const digits = minorUnitDigits(currency)
  const centre = amounts.length > 0 ? medianAmount(amounts) : null
  return {
    n: exact.length,
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
    counted: sales.map(({ match }) => match),
    bounds,
    said: level === null ? [] : [said(amounts.length === 0 ? 'step.only-bounds' : 'step.thin')],
  }
}

/** Every sale of the card for the plot and its table: whatever its grade, counted or not. */
function pointsOf(
  claim: Claim,
  matched: readonly MatchedSale[],
  excluded: readonly Excluded[],
  counted: ReadonlySet<string>,
  currency: string | null,
  { knowledge }: ValueOptions,
): MatchedPoint[] {
  const whys = new Map(excluded.map(({ sale, reason }) => [sale.id, reason]))
  const amounts = new Map(matched.map(({ sale, amount }) => [sale.id, amount]))
  const seen = new Map<string, Sale>()
  for (const { sale } of matched) seen.set(sale.id, sale)
  // A sale in a currency that nothing converts has no place on the scale.
  for (const { sale } of excluded) if (sale.price.currency === currency || amounts.has(sale.id)) seen.set(sale.id, sale)
  return [...seen.values()]
    .sort((a, b) => (a.date < b.date ? 1 : a.date > b.date ? -1 : a.id < b.id ? -1 : 1))
    .slice(0, MOST_POINTS)
    .map((sale): MatchedPoint => {
      const offered = claimOf(sale, knowledge)
      const graded = isGraded(offered, knowledge.graders)
      const amount = amounts.get(sale.id) ?? sale.price.amount
      return {
        sale: sale.id,
        date: sale.date,
        title: sale.title,
        amount,
        ...(sale.price.currency === currency ? {} : { paid: sale.price }),
        grade: graded ? offered.grade : null,
        grader: offered.grader,
        venue: sale.venue,
        seller: sale.seller,
        url: sale.url,
        level: !graded
          ? 'same-card-raw'
          : offered.grade === claim.grade
            ? 'same-card-same-grade'
            : 'same-card-other-grade',
        counted: counted.has(sale.id),
        bound: sale.bestOffer ?? false,
        why: whys.get(sale.id) ?? whyMatched(claim, offered, graded, sale),
      }
    })
}

function whyMatched(claim: Claim, offered: Claim, graded: boolean, sale: Sale): Said {
  if (sale.bestOffer) return said('why.bound')
  if (!graded) return said('why.raw')
  const figures = { grade: offered.grade ?? '', grader: offered.grader ?? '' }
  return said(offered.grade === claim.grade ? 'why.same-grade' : 'why.other-grade', figures)
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
