/** One currency for one valuation: no rate is at hand, so nothing is converted. */
import type { Money } from '../money.ts'
import type { Excluded, MatchedSale } from './match-sales.ts'

export interface CurrencyChoice {
  readonly currency: string | null
  readonly sales: readonly MatchedSale[]
  readonly excluded: readonly Excluded[]
}

/** The ask's currency where any sale has it, else the commonest among the sales. */
export function chooseCurrency(matched: readonly MatchedSale[], ask: Money | null): CurrencyChoice {
  const counts = new Map<string | null, number>()
  for (const { sale } of matched) counts.set(sale.price.currency, (counts.get(sale.price.currency) ?? 0) + 1)
  const [commonest] = [...counts].sort(([, a], [, b]) => b - a)
  const asked = ask?.currency ?? null
  const currency = asked !== null && counts.has(asked) ? asked : (commonest?.[0] ?? asked)
  const sales = matched.filter(({ sale }) => sale.price.currency === currency)
  const excluded = matched
    .filter(({ sale }) => sale.price.currency !== currency)
    .map(({ sale }) => ({
      sale,
      why: `paid in ${sale.price.currency ?? 'a currency that is not stated'}, and no rate is at hand`,
    }))
  return { currency, sales, excluded }
}
