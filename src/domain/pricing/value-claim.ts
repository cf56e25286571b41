/**
 * What finished sales say about a claim and an asked price. Pure: the date comes in as `on`.
 * It estimates what such a card fetched, never whether this one is genuine.
 */
import { Decimal } from 'decimal.js'
import type { Claim } from '../claim.ts'
import type { Money } from '../money.ts'
import type { Sale, Valuation } from '../valuation.ts'
import { chooseCurrency } from './choose-currency.ts'
import { chooseLevel, THIN_BELOW } from './choose-level.ts'
import { amountsOf, medianAmount } from './exact-amounts.ts'
import { leaveOutOutliers } from './leave-out-outliers.ts'
import { type Knowledge, matchSales } from './match-sales.ts'
import { minorUnitDigits } from './minor-units.ts'
import { worthIfGenuine } from './worth-if-genuine.ts'

export interface ValueOptions {
  /** ISO date that the value is for; later sales are left out. */
  readonly on: string
  readonly ask: Money | null
  readonly knowledge: Knowledge
}

export function valueClaim(claim: Claim, sales: readonly Sale[], options: ValueOptions): Valuation {
  const found = matchSales(claim, sales, options.on, options.knowledge)
  const inCurrency = chooseCurrency(found.matched, options.ask)
  const choice = chooseLevel(claim, inCurrency.sales, options.knowledge)
  const { kept, excluded: outliers } = leaveOutOutliers(choice.sales)
  const digits = minorUnitDigits(inCurrency.currency)
  const amounts = amountsOf(kept)
  const thin = kept.length < THIN_BELOW
  const centre = kept.length > 0 ? medianAmount(amounts) : null
  const steps = [choice.step]
  if (inCurrency.excluded.length > 0) steps.push(`Left out ${inCurrency.excluded.length} in other currencies.`)
  if (outliers.length > 0) steps.push(`Left out ${outliers.length} whose price stands apart from the rest.`)
  if (centre) steps.push(thin ? 'Fewer than five sales: a range, not an estimate.' : 'Took the median.')
  return {
    n: kept.length,
    level: choice.level,
    currency: inCurrency.currency,
    centre: centre?.toFixed(digits) ?? null,
    interval: centre && {
      low: Decimal.min(...amounts).toFixed(digits),
      high: Decimal.max(...amounts).toFixed(digits),
      level: null,
      method: 'range',
    },
    trend: null,
    excluded: [...found.excluded, ...inCurrency.excluded, ...outliers],
    thin,
    ask: centre && options.ask && standingOf(options.ask, inCurrency.currency, centre, amounts),
    worthIfGenuine: worthIfGenuine(claim, inCurrency.sales, inCurrency.currency, options.knowledge),
    used: kept.map(({ sale }) => sale),
    steps,
  }
}

/** Where an asked price stands among the sales; `null` in another currency. */
function standingOf(
  ask: Money,
  currency: string | null,
  centre: Decimal,
  amounts: readonly Decimal[],
): Valuation['ask'] {
  if (ask.currency !== null && ask.currency !== currency) return null
  const asked = new Decimal(ask.amount)
  return {
    amount: ask.amount,
    position: amounts.filter((amount) => amount.lessThan(asked)).length / amounts.length,
    ratioToCentre: asked.dividedBy(centre).toNumber(),
  }
}
