/**
 * The sales of a card as a picture, with the same as a table for whoever reads by ear or wants the words. Arrow keys walk from sale to sale;
 * what is walked to is said. It computes nothing.
 */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { MatchedPoint, Valuation } from '../../domain/valuation.ts'
import { useSaid } from '../ledger/say.ts'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'
import { gradeRows, type SalesPlot as Plot, type PlotView, plotSales } from './plot-sales.ts'

interface SalesPlotProps {
  readonly valuation: Valuation
  /** Decimal string in the valuation's currency. */
  readonly ceiling: string | null
  /** ISO 8601 in UTC. */
  readonly now: string
  /** Beside a page: one view, low, no table. */
  readonly small?: boolean
  readonly onReject?: (point: MatchedPoint) => void
  readonly onOpen?: (url: string) => void
}

const SMALL_ROW = 22
const ROW = 34
const TIME_HEIGHT = 260
/** A table of more rows than this is shown piece by piece. */
const TABLE_PAGE = 100

export default function SalesPlot({ valuation, ceiling, now, small = false, onReject, onOpen }: SalesPlotProps) {
  const { t, money, date, language } = useWording()
  const say = useSaid()
  const [view, setView] = useState<PlotView>('grade')
  const [walked, setWalked] = useState<number | null>(null)
  const holder = useRef<HTMLDivElement>(null)
  const plot = useRef<Plot | null>(null)
  const { currency, interval } = valuation
  const points = useMemo(() => (valuation.points ?? []).filter(({ amount }) => Number(amount) > 0), [valuation])
  // From the cheapest to the dearest, as they lie in the picture; over time from the oldest to the newest.
  const order = useMemo(
    () =>
      points
        .map((_, i) => i)
        .sort((a, b) => {
          const [left, right] = [points[a] as MatchedPoint, points[b] as MatchedPoint]
          return view === 'grade' ? Number(left.amount) - Number(right.amount) : left.date < right.date ? -1 : 1
        }),
    [points, view],
  )
  const amount = (value: string) => money({ amount: value, currency })

  useLayoutEffect(() => {
    const element = holder.current
    if (element === null || points.length === 0) return
    const axisMoney = new Intl.NumberFormat(language === 'de' ? 'de-DE' : 'en-GB', {
      maximumSignificantDigits: 3,
      ...(currency === null ? {} : { style: 'currency' as const, currency, minimumFractionDigits: 0 }),
    })
    const axisDate = new Intl.DateTimeFormat(language === 'de' ? 'de-DE' : 'en-GB', {
      month: 'short',
      year: '2-digit',
      timeZone: 'UTC',
    })
    const rows = gradeRows(points).length
    const make = () =>
      plotSales(
        element,
        {
          points,
          centre: valuation.centre === null ? null : Number(valuation.centre),
          band: interval === null ? null : [Number(interval.low), Number(interval.high)],
          ask: valuation.ask === null ? null : Number(valuation.ask.amount),
          ceiling: ceiling === null ? null : Number(ceiling),
          now: Date.parse(now) / 1000,
        },
        view,
        {
          money: (value) => axisMoney.format(value),
          date: (value) => axisDate.format(value * 1000),
          raw: t('plot.raw'),
        },
        {
          width: element.clientWidth,
          height: view === 'time' ? TIME_HEIGHT : rows * (small ? SMALL_ROW : ROW) + (small ? 44 : 56),
          small,
        },
      )
    let current = make()
    plot.current = current
    const watcher = new ResizeObserver(() => element.clientWidth > 0 && current.resize(element.clientWidth))
    watcher.observe(element)
    // Other colours: drawn anew.
    const again = () => {
      current.destroy()
      current = make()
      plot.current = current
    }
    const scheme = matchMedia('(prefers-color-scheme: dark)')
    scheme.addEventListener('change', again)
    const theme = new MutationObserver(again)
    theme.observe(document.documentElement, { attributeFilter: ['data-theme'] })
    return () => {
      watcher.disconnect()
      theme.disconnect()
      scheme.removeEventListener('change', again)
      current.destroy()
      plot.current = null
    }
  }, [points, view, ceiling, language, small, valuation])
  useEffect(() => plot.current?.point(walked === null ? null : (order[walked] ?? null)), [walked, order])

  if (points.length === 0) return null
  const at = walked === null ? null : (points[order[walked] ?? -1] ?? null)
  const sentence = (point: MatchedPoint) =>
    [
      amount(point.amount),
      point.grade === null ? t('plot.raw') : t('plot.grade', { grade: point.grade }),
      date(point.date),
      say(point.why),
    ].join(' · ')
  const steps: Readonly<Record<string, (place: number) => number>> = {
    ArrowRight: (place) => place + 1,
    ArrowUp: (place) => place + 1,
    ArrowLeft: (place) => place - 1,
    ArrowDown: (place) => place - 1,
    Home: () => 0,
    End: () => order.length - 1,
  }
  return (
    <div class={`sales-plot${small ? ' is-small' : ''}`}>
      {!small && (
        <fieldset class="plot-views" aria-label={t('plot.view')}>
          {(['grade', 'time'] as const).map((each) => (
            <button
              key={each}
              type="button"
              class="button small"
              aria-pressed={view === each}
              onClick={() => {
                setView(each)
                setWalked(null)
              }}
            >
              {t(`plot.view.${each}`)}
            </button>
          ))}
        </fieldset>
      )}
      <div
        ref={holder}
        class="plot-canvas"
        role="img"
        aria-label={t('plot.label', { count: points.length })}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys walk through the sales
        tabIndex={0}
        onKeyDown={(event) => {
          if (event.key === 'Escape' && walked !== null) return setWalked(null)
          const step = steps[event.key]
          if (step === undefined) return
          event.preventDefault()
          const from = walked ?? (event.key === 'ArrowLeft' || event.key === 'ArrowDown' ? order.length : -1)
          setWalked(Math.max(0, Math.min(order.length - 1, step(from))))
        }}
        onBlur={() => setWalked(null)}
      />
      <p class="plot-said hint" role="status">
        {at === null ? (small ? '' : t('plot.keys')) : sentence(at)}
      </p>
      <Legend valuation={valuation} ceiling={ceiling} hollow={points.some(({ counted }) => !counted)} small={small} />
      {!small && <PointTable points={points} onReject={onReject} onOpen={onOpen} amount={amount} />}
    </div>
  )
}

interface LegendProps {
  readonly valuation: Valuation
  readonly ceiling: string | null
  readonly hollow: boolean
  readonly small: boolean
}

function Legend({ valuation, ceiling, hollow, small }: LegendProps) {
  const { t } = useWording()
  const items = [
    ['counted', true],
    ['hollow', hollow],
    ['bound', valuation.points?.some(({ bound }) => bound) ?? false],
    ['centre', valuation.centre !== null],
    [valuation.interval?.level === null ? 'range' : 'band', valuation.interval !== null],
    ['ask', valuation.ask !== null],
    ['ceiling', ceiling !== null],
  ] as const
  return (
    <ul class={`plot-legend${small ? ' is-small' : ''}`}>
      {items.map(
        ([name, there]) =>
          there && (
            <li key={name}>
              <span class={`price-key is-${name}`} aria-hidden="true" />
              {t(`plot.key.${name}`)}
            </li>
          ),
      )}
    </ul>
  )
}

interface PointTableProps {
  readonly points: readonly MatchedPoint[]
  readonly amount: (value: string) => string
  readonly onReject?: (point: MatchedPoint) => void
  readonly onOpen?: (url: string) => void
}

function PointTable({ points, amount, onReject, onOpen }: PointTableProps) {
  const { t, date, money } = useWording()
  const say = useSaid()
  const [shown, setShown] = useState(TABLE_PAGE)
  return (
    <details class="plot-table">
      <summary>{t('plot.table', { count: points.length })}</summary>
      <div class="plot-table-scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">{t('ledger.field.date')}</th>
              <th scope="col">{t('plot.column.grade')}</th>
              <th scope="col">{t('ledger.field.price')}</th>
              <th scope="col">{t('plot.column.why')}</th>
              <th scope="col">{t('ledger.field.title')}</th>
              <th scope="col">
                <span class="for-readers">{t('plot.column.do')}</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {points.slice(0, shown).map((point) => (
              <tr key={point.sale} class={point.counted ? undefined : 'is-hollow'}>
                <td>{date(point.date)}</td>
                <td>{point.grade ?? t('plot.raw')}</td>
                <td class="sale-price">
                  {point.bound && '≤ '}
                  {amount(point.amount)}
                  {point.paid !== undefined && <span class="quiet"> ({money(point.paid)})</span>}
                </td>
                <td>
                  {point.counted ? '' : `${t('plot.not-counted')}: `}
                  {say(point.why)}
                </td>
                <td>
                  {point.url !== null && onOpen !== undefined ? (
                    <button type="button" class="link-button" onClick={() => onOpen(point.url as string)}>
                      <PageText text={point.title} />
                    </button>
                  ) : (
                    <PageText text={point.title} />
                  )}
                </td>
                <td>
                  {onReject !== undefined && point.why.code !== 'why.rejected' && (
                    <button
                      type="button"
                      class="button small"
                      aria-label={t('plot.reject-it', { title: point.title })}
                      onClick={() => onReject(point)}
                    >
                      {t('plot.reject')}
                    </button>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {points.length > shown && (
        <button type="button" class="button small" onClick={() => setShown(shown + TABLE_PAGE * 5)}>
          {t('plot.more', { count: points.length - shown })}
        </button>
      )}
    </details>
  )
}
