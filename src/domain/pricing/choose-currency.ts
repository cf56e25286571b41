/** One currency for one valuation. What was paid in another is converted at the rate of its day, or left out and said so. */
import type { Money } from '../money.ts'
import { type Excluded, leaveOut, type MatchedSale } from './match-sales.ts'
import type { RateTable } from './rates.ts'
import { said } from './words.ts'

export interface CurrencyChoice {
  readonly currency: string | null
  readonly sales: readonly MatchedSale[]
  readonly excluded: readonly Excluded[]
  readonly converted: number
}

/** The ask's currency where any sale has it or a rate leads to it, else the commonest among the sales. */
export function chooseCurrency(
  matched: readonly MatchedSale[],
  ask: Money | null,
  rates: RateTable | null,
): CurrencyChoice {
  const counts = new Map<string | null, number>()
  for (const { sale } of matched) counts.set(sale.price.currency, (counts.get(sale.price.currency) ?? 0) + 1)
  const [commonest] = [...counts].sort(([, a], [, b]) => b - a)
  const asked = ask?.currency ?? null
  const reached =
    asked !== null && matched.some(({ sale }) => rates?.convert(sale.price, asked, sale.date.slice(0, 10)) != null)
  const currency = asked !== null && (counts.has(asked) || reached) ? asked : (commonest?.[0] ?? asked)
  const sales: MatchedSale[] = []
  const excluded: Excluded[] = []
  let converted = 0
  for (const match of matched) {
    const { sale } = match
    if (sale.price.currency === currency) {
      sales.push(match)
      continue
    }
    const found = currency === null ? null : (rates?.convert(sale.price, currency, sale.date.slice(0, 10)) ?? null)
    if (found === null) {
      const why =
        sale.price.currency === null ? said('why.no-currency') : said('why.currency', { currency: sale.price.currency })
      excluded.push(leaveOut(sale, why))
      continue
    }
    converted++
    sales.push({ ...match, amount: found.money.amount })
  }
  return { currency, sales, excluded, converted }
}
