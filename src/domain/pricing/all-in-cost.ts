/**
 * From a bid to all that it costs, line by line, and back: the largest bid whose all-in cost stays within a limit. Exact decimals;
 * every line is rounded to the currency's smallest coin, half up, as an invoice rounds it. Rates are the buyer's own.
 */
import { Decimal } from 'decimal.js'
import { minorUnitDigits } from './minor-units.ts'

/** A percentage of the part of the hammer price up to `upTo` and above the tier before. Decimal strings; `null`: no end. */
export interface PremiumTier {
  readonly upTo: string | null
  readonly percent: string
}

export type TaxBase = 'hammer' | 'premium' | 'hammer-and-premium' | 'everything'

export interface Terms {
  readonly currency: string
  readonly premium: { readonly tiers: readonly PremiumTier[]; readonly minimum: string }
  readonly shipping: string
  /** Per cent of hammer and premium. */
  readonly insurancePercent: string
  readonly tax: { readonly percent: string; readonly base: TaxBase }
  /** Per cent of hammer, premium, shipping and insurance: the value at the border. */
  readonly dutyPercent: string
  /** Per cent of all that is paid to the seller or venue: payment and currency conversion. */
  readonly paymentPercent: string
  /** What comes after the purchase: grading, its shipping. */
  readonly afterwards: string
}

export interface CostLine {
  readonly line: 'hammer' | 'premium' | 'shipping' | 'insurance' | 'duty' | 'tax' | 'payment' | 'afterwards'
  readonly amount: Decimal
}

function premiumOf(hammer: Decimal, { tiers, minimum }: Terms['premium']): Decimal {
  let premium = new Decimal(0)
  let from = new Decimal(0)
  for (const { upTo, percent } of tiers) {
    const end = upTo === null ? hammer : Decimal.min(hammer, upTo)
    if (end.greaterThan(from)) premium = premium.plus(end.minus(from).times(percent).dividedBy(100))
    if (upTo === null) break
    from = Decimal.max(from, upTo)
  }
  return Decimal.max(premium, minimum)
}

/** Every line of what a bid costs, in the order of an invoice. */
export function costLines(bid: Decimal, terms: Terms): CostLine[] {
  const digits = minorUnitDigits(terms.currency)
  const coin = (amount: Decimal) => amount.toDecimalPlaces(digits, Decimal.ROUND_HALF_UP)
  const percent = (of: Decimal, rate: string) => coin(of.times(rate).dividedBy(100))
  const premium = coin(premiumOf(bid, terms.premium))
  const goods = bid.plus(premium)
  const shipping = coin(new Decimal(terms.shipping))
  const insurance = percent(goods, terms.insurancePercent)
  const landed = goods.plus(shipping).plus(insurance)
  const duty = percent(landed, terms.dutyPercent)
  const taxed = { hammer: bid, premium, 'hammer-and-premium': goods, everything: landed.plus(duty) }[terms.tax.base]
  const tax = percent(taxed, terms.tax.percent)
  const payment = percent(landed.plus(tax), terms.paymentPercent)
  return [
    { line: 'hammer', amount: bid },
    { line: 'premium', amount: premium },
    { line: 'shipping', amount: shipping },
    { line: 'insurance', amount: insurance },
    { line: 'duty', amount: duty },
    { line: 'tax', amount: tax },
    { line: 'payment', amount: payment },
    { line: 'afterwards', amount: coin(new Decimal(terms.afterwards)) },
  ]
}

export function allInCost(bid: Decimal, terms: Terms): Decimal {
  return costLines(bid, terms).reduce((sum, { amount }) => sum.plus(amount), new Decimal(0))
}

/** From this price on bids go up by this step. Decimal strings, ascending; the first from 0. */
export interface Increment {
  readonly from: string
  readonly step: string
}

/**
 * The largest bid on the venue's ladder whose all-in cost is at most `limit`. Costs never fall as bids rise, so the place is
 * searched by halving, first among the increments' ranges, then among a range's steps.
 * @returns `null` where even the smallest bid costs more.
 */
export function largestBid(limit: Decimal, terms: Terms, increments: readonly Increment[]): Decimal | null {
  const affordable = (bid: Decimal) => allInCost(bid, terms).lessThanOrEqualTo(limit)
  let best: Decimal | null = null
  for (let i = 0; i < increments.length; i++) {
    const { from, step } = increments[i] as Increment
    const start = new Decimal(from).isZero() ? new Decimal(step) : new Decimal(from)
    if (!affordable(start)) break
    const end = increments[i + 1]?.from ?? null
    // A bid above the limit itself costs more than the limit.
    const last = Decimal.min(...(end === null ? [limit] : [limit, new Decimal(end).minus(step)]))
    let [low, high] = [0, Decimal.max(0, last.minus(start).dividedBy(step).floor()).toNumber()]
    while (low < high) {
      const middle = Math.ceil((low + high) / 2)
      if (affordable(start.plus(new Decimal(step).times(middle)))) low = middle
      else high = middle - 1
    }
    best = start.plus(new Decimal(step).times(low))
  }
  return best
}
