/** Where the offer stands among the sales at hand: one sentence, and one line drawn to scale. It computes no statistics. */
import type { Valuation } from '../../domain/valuation.ts'
import { useWording } from '../wording.ts'

interface PriceComparisonProps {
  readonly valuation: Valuation | null
  readonly onAddSales?: () => void
}

export function PriceComparison({ valuation, onAddSales }: PriceComparisonProps) {
  const { t } = useWording()
  return (
    <section class="valuation" aria-labelledby="valuation-heading">
      <h2 id="valuation-heading">{t('valuation.heading')}</h2>
      {valuation === null || valuation.n === 0 ? (
        <p class="quiet">
          {t('valuation.none')}{' '}
          {onAddSales && (
            <button type="button" class="link-button" onClick={onAddSales}>
              {t('valuation.add-sales')}
            </button>
          )}
        </p>
      ) : (
        <Stated valuation={valuation} />
      )}
    </section>
  )
}

function Stated({ valuation }: { valuation: Valuation }) {
  const { t, money, percent } = useWording()
  const { currency, ask, centre, interval, n, excluded } = valuation
  const amount = (value: string) => money({ amount: value, currency })
  return (
    <>
      <p>
        {ask !== null && centre !== null && !valuation.thin
          ? t('valuation.ask', {
              ask: amount(ask.amount),
              share: percent(ask.ratioToCentre),
              centre: amount(centre),
              count: n,
            })
          : t('valuation.sales', { count: n })}{' '}
        {valuation.thin &&
          interval !== null &&
          t('valuation.thin', { low: amount(interval.low), high: amount(interval.high) })}
        {!valuation.thin && interval !== null && interval.level !== null
          ? t('valuation.interval', {
              level: percent(interval.level),
              low: amount(interval.low),
              high: amount(interval.high),
            })
          : ''}
      </p>
      {interval !== null && <Scale valuation={valuation} />}
      <p class="quiet">
        {valuation.level !== null && t(`valuation.level.${valuation.level}`)}{' '}
        {excluded.length > 0 && t('valuation.excluded', { count: excluded.length })}
      </p>
      {valuation.steps.length > 0 && (
        <details class="valuation-steps">
          <summary>{t('valuation.steps')}</summary>
          <ol>
            {valuation.steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </details>
      )}
    </>
  )
}

/** Width of the drawing in its own units. */
const SCALE_WIDTH = 300

function Scale({ valuation }: { valuation: Valuation }) {
  const { t } = useWording()
  const low = Number(valuation.interval?.low)
  const high = Number(valuation.interval?.high)
  const marks = [low, high, Number(valuation.centre ?? low), Number(valuation.ask?.amount ?? low)].filter((x) => x > 0)
  if (!(low > 0) || marks.length < 2) return null
  // A log scale: half and double lie equally far from the centre, as buyers judge prices.
  const from = Math.log(Math.min(...marks)) - 0.15
  const to = Math.log(Math.max(...marks)) + 0.15
  const place = (value: number) => ((Math.log(value) - from) / (to - from)) * SCALE_WIDTH
  return (
    <svg class="scale" viewBox={`0 0 ${SCALE_WIDTH} 34`} role="img" aria-label={t('valuation.scale')}>
      <path class="scale-line" d={`M0 20H${SCALE_WIDTH}`} />
      <rect
        class="scale-band"
        x={place(low)}
        y="14"
        width={Math.max(2, place(high) - place(low))}
        height="12"
        rx="1.5"
      />
      {valuation.centre !== null && <path class="scale-centre" d={`M${place(Number(valuation.centre))} 11V29`} />}
      {valuation.ask !== null && <path class="scale-ask" d={`M${place(Number(valuation.ask.amount))} 13l-5 -9h10z`} />}
    </svg>
  )
}
