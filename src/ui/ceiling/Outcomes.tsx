/** A raw or doubtful card: what it is worth on average over outcomes, by the buyer's own probabilities, and how the ceiling moves with them. */
import { Decimal } from 'decimal.js'
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks'
import { breakEvenFor, type CostPreset, ceilingSensitivity } from '../../domain/pricing/ceiling.ts'
import { expectedWorth, type Outcome } from '../../domain/pricing/expected-worth.ts'
import { TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import { parseNumber } from './parse-costs.ts'

interface OutcomesProps {
  readonly costs: CostPreset
  readonly ask: string | null
  readonly worth: string | null
  readonly onUse: (amount: string) => void
}

const NAMES = ['as-hoped', 'altered', 'worthless'] as const

export function Outcomes({ costs, ask, worth, onUse }: OutcomesProps) {
  const { t, money, percent } = useWording()
  const { currency } = costs.terms
  const [rows, setRows] = useState(
    NAMES.map((name, i) => ({ name, percent: i === 0 ? '100' : '0', net: i === 0 ? (worth ?? '') : '' })),
  )
  const parsed = rows.map((row) => ({ ...row, share: parseNumber(row.percent), amount: parseNumber(row.net) }))
  const readable = parsed.every(({ share, amount }) => share !== null && amount !== null)
  const sum = readable ? parsed.reduce((total, { share }) => total.plus(share as string), new Decimal(0)) : null
  const key = JSON.stringify(rows)
  const outcomes = useMemo(
    (): readonly Outcome[] | null =>
      sum?.equals(100)
        ? parsed.map(({ name, share, amount }) => ({
            name,
            probability: new Decimal(share as string).dividedBy(100).toFixed(),
            net: amount as string,
          }))
        : null,
    [key],
  )
  const expected = outcomes === null ? null : expectedWorth(outcomes)
  const needed = outcomes === null || ask === null ? null : breakEvenFor(ask, outcomes, costs)
  const curve = useMemo(() => (outcomes === null ? null : ceilingSensitivity(outcomes, costs)), [outcomes, costs])
  const change = (place: number, field: 'percent' | 'net', text: string) =>
    setRows(rows.map((row, i) => (i === place ? { ...row, [field]: text } : row)))
  return (
    <details class="outcomes">
      <summary>{t('ceiling.outcomes')}</summary>
      <p class="quiet">{t('ceiling.outcomes-lead')}</p>
      {parsed.map(({ name, percent: share, net, share: readShare, amount }, place) => (
        <fieldset key={name} class="outcome-row">
          <legend>{t(`ceiling.outcome.${name}`)}</legend>
          <TextField
            label={t('ceiling.probability')}
            inputMode="decimal"
            value={share}
            fault={readShare === null ? t('ceiling.fault') : null}
            onChange={(text) => change(place, 'percent', text)}
          />
          <TextField
            label={`${t('ceiling.net')} (${currency})`}
            inputMode="decimal"
            value={net}
            fault={amount === null ? t('ceiling.fault') : null}
            onChange={(text) => change(place, 'net', text)}
          />
        </fieldset>
      ))}
      {sum !== null && !sum.equals(100) && <p class="field-fault">{t('ceiling.sum', { sum: sum.toFixed() })}</p>}
      {expected !== null && (
        <p class="form-actions">
          <strong>{t('ceiling.expected', { amount: money({ amount: expected.toFixed(2), currency }) })}</strong>
          <button type="button" class="button small" onClick={() => onUse(expected.toFixed())}>
            {t('ceiling.use')}
          </button>
        </p>
      )}
      {ask !== null && outcomes !== null && (
        <p>
          {needed === null
            ? t('ceiling.no-break-even')
            : t('ceiling.break-even', { share: percent(needed.toNumber()) })}
        </p>
      )}
      {curve !== null && <Sensitivity curve={curve} ask={ask === null ? null : Number(ask)} currency={currency} />}
    </details>
  )
}

interface SensitivityProps {
  readonly curve: ReturnType<typeof ceilingSensitivity>
  readonly ask: number | null
  readonly currency: string
}

/** The plot comes with the library when the first curve is drawn. */
function Sensitivity({ curve, ask, currency }: SensitivityProps) {
  const { t, money, percent, language } = useWording()
  const holder = useRef<HTMLDivElement>(null)
  const [draw, setDraw] = useState<typeof import('../plots/plot-curve.ts').plotCurve | null>(null)
  useEffect(() => {
    import('../plots/plot-curve.ts').then((module) => setDraw(() => module.plotCurve))
  }, [])
  useLayoutEffect(() => {
    const element = holder.current
    if (element === null || draw === null) return
    const format = new Intl.NumberFormat(language === 'de' ? 'de-DE' : 'en-GB', {
      style: 'currency',
      currency,
      maximumFractionDigits: 0,
    })
    return draw(
      element,
      curve.map(({ probability, bid }) => [probability, bid]),
      ask,
      { x: percent, y: (value) => format.format(value) },
    )
  }, [draw, curve, ask, currency, language])
  const told = curve.filter((_, i) => i % 5 === 0)
  return (
    <figure class="sensitivity">
      <figcaption>{t('ceiling.sensitivity')}</figcaption>
      <div ref={holder} class="plot-canvas" aria-hidden="true" />
      <dl class="ceiling-lines">
        {told.map(({ probability, bid }) => (
          <div key={probability}>
            <dt>{percent(probability)}</dt>
            <dd>{money({ amount: String(bid), currency })}</dd>
          </div>
        ))}
      </dl>
    </figure>
  )
}
