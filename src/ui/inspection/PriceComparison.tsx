/** Where the offer stands among the sales at hand: one sentence, the sales as a picture, the most to pay. It computes no statistics. */
import { type CostPreset, ceilingOf } from '../../domain/pricing/ceiling.ts'
import type { Valuation } from '../../domain/valuation.ts'
import { useSaid } from '../ledger/say.ts'
import { LazyPlot } from '../plots/LazyPlot.tsx'
import { useWording } from '../wording.ts'

interface PriceComparisonProps {
  readonly valuation: Valuation | null
  readonly onAddSales?: () => void
  /** The costs that the buyer reckoned with last; absent or `null`: no ceiling is told. */
  readonly costs?: CostPreset | null
  /** ISO 8601 in UTC. */
  readonly now?: string
  /** More room for it: the sales in full, and the reckoning of the ceiling. */
  readonly onOpenValue?: () => void
}

export function PriceComparison({ valuation, onAddSales, costs, now, onOpenValue }: PriceComparisonProps) {
  const { t } = useWording()
  const empty = valuation === null || (valuation.n === 0 && (valuation.points?.length ?? 0) === 0)
  return (
    <section class="valuation" aria-labelledby="valuation-heading">
      <h2 id="valuation-heading">{t('valuation.heading')}</h2>
      {empty || valuation === null ? (
        <p class="quiet">
          {t(valuation === null ? 'valuation.none' : 'valuation.none-of-this')}{' '}
          {onAddSales && (
            <button type="button" class="link-button" onClick={onAddSales}>
              {t('valuation.add-sales')}
            </button>
          )}
        </p>
      ) : (
        <Stated
          valuation={valuation}
          costs={costs ?? null}
          now={now ?? new Date().toISOString()}
          onOpenValue={onOpenValue}
        />
      )}
    </section>
  )
}

interface StatedProps {
  readonly valuation: Valuation
  readonly costs: CostPreset | null
  readonly now: string
  readonly onOpenValue?: () => void
}

function Stated({ valuation, costs, now, onOpenValue }: StatedProps) {
  const { t, money } = useWording()
  const say = useSaid()
  const { currency, excluded } = valuation
  const ceiling = ceilingIn(valuation, costs)
  return (
    <>
      <p class="valuation-line">
        <ValuationLine valuation={valuation} />
      </p>
      {ceiling !== null && (
        <p>
          <strong>
            {ceiling.bid === null
              ? t('valuation.no-ceiling', { name: ceiling.name })
              : t('valuation.ceiling', { bid: money({ amount: ceiling.bid, currency }), name: ceiling.name })}
          </strong>
        </p>
      )}
      {valuation.soldLately && (
        <p>
          {t('valuation.sold-lately', {
            count: valuation.soldLately.days,
            amount: money(valuation.soldLately.sale.price),
          })}
        </p>
      )}
      {valuation.onlyNotCounted && <p>{t('valuation.only-not-counted')}</p>}
      <LazyPlot valuation={valuation} ceiling={ceiling?.bid ?? null} now={now} small />
      <p class="quiet">
        {valuation.level !== null && t(`valuation.level.${valuation.level}`)}{' '}
        {excluded.length > 0 && t('valuation.excluded', { count: excluded.length })}{' '}
        {onOpenValue && (
          <button type="button" class="link-button" onClick={onOpenValue}>
            {t('valuation.open')}
          </button>
        )}
      </p>
      {(valuation.said?.length ?? valuation.steps.length) > 0 && (
        <details class="valuation-steps">
          <summary>{t('valuation.steps')}</summary>
          <ol>
            {/* A dossier of an older version holds the words alone. */}
            {(valuation.said?.map(say) ?? valuation.steps).map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </details>
      )}
    </>
  )
}

/** "Asks 610: 54 % of the centre of 14 sales, 1,120. It lies below the 90 % band, 840 to 1,490." */
export function ValuationLine({ valuation }: { valuation: Valuation }) {
  const { t, money, percent } = useWording()
  const { currency, ask, centre, interval, n, thin } = valuation
  const amount = (value: string) => money({ amount: value, currency })
  if (centre === null) return <>{t('valuation.sales', { count: n })}</>
  const asked =
    ask === null
      ? t('valuation.centre', { centre: amount(centre), count: n })
      : t('valuation.ask', {
          ask: amount(ask.amount),
          share: percent(ask.ratioToCentre),
          centre: amount(centre),
          count: n,
        })
  if (interval === null) return <>{asked}</>
  const ends = { low: amount(interval.low), high: amount(interval.high) }
  if (thin || interval.level === null) {
    return (
      <>
        {asked} {t('valuation.thin', ends)}
      </>
    )
  }
  const band = { ...ends, level: percent(interval.level) }
  if (ask === null) {
    return (
      <>
        {asked} {t('valuation.interval', band)}
      </>
    )
  }
  const price = Number(ask.amount)
  const where = price < Number(interval.low) ? 'below' : price > Number(interval.high) ? 'above' : 'within'
  return (
    <>
      {asked} {t(`valuation.where.${where}`, band)}
    </>
  )
}

function ceilingIn(
  { centre, currency, ask }: Valuation,
  costs: CostPreset | null,
): { readonly bid: string | null; readonly name: string } | null {
  // Only for a card whose sales are comparable with what is offered: then an asked price was held against them.
  if (costs === null || centre === null || ask === null || costs.terms.currency !== currency) return null
  return { bid: ceilingOf(centre, costs).bid?.toFixed() ?? null, name: costs.name }
}
