/** A valuation for a person: one sentence first, then what it rests on and what was left out. */
import type { Valuation } from '../../domain/valuation.ts'
import { columns, paragraphs, safe, wrap } from './lay-out.ts'

// More than these are a list to read in JSON, not in a terminal.
const EXCLUDED_SHOWN = 12

const LEVEL_WORDS = {
  'same-card-same-grade': 'the same card in the same grade',
  'same-card-other-grade': 'the same card in other grades',
  'same-card-raw': 'the same card raw',
  similar: 'similar cards',
} as const

/** One line: "asks 610 EUR, centre of 14 sales 1120 EUR, 54 % of it, below the 90 % band 840–1490". */
export function valuationLine(valuation: Valuation): string {
  const { ask, centre, currency, interval, n } = valuation
  if (centre === null) return 'no sale of this card is at hand'
  const unit = currency ?? '(currency open)'
  const parts = [ask && `asks ${ask.amount} ${unit}`, `centre of ${n} ${n === 1 ? 'sale' : 'sales'} ${centre} ${unit}`]
  if (ask) parts.push(`${Math.round(ask.ratioToCentre * 100)} % of it`)
  if (interval) parts.push(bandWords(valuation))
  return parts.filter(Boolean).join(', ')
}

function bandWords({ ask, interval }: Valuation): string {
  if (!interval) return ''
  const band = `${interval.low}–${interval.high}`
  const name = interval.level === null ? 'the range' : `the ${Math.round(interval.level * 100)} % band`
  if (!ask) return `${name} ${band}`
  const asked = Number(ask.amount)
  const place = asked < Number(interval.low) ? 'below' : asked > Number(interval.high) ? 'above' : 'within'
  return `${place} ${name} ${band}`
}

export function valuationText(valuation: Valuation): string {
  const { excluded, level, steps, thin, trend, used, worthIfGenuine } = valuation
  const line = valuationLine(valuation)
  const sentence = `${line.charAt(0).toUpperCase()}${line.slice(1)}.`
  return paragraphs(
    wrap(sentence + (level ? ` Rests on ${LEVEL_WORDS[level]}.` : '') + (thin && level ? ' Thin.' : '')),
    trend &&
      wrap(
        `Trend ${percent(trend.perYear)} a year (${percent(trend.low)} to ${percent(trend.high)}), ${
          trend.applied ? 'applied' : 'not applied'
        }.`,
      ),
    worthIfGenuine &&
      wrap(
        `Worth if genuine: ${worthIfGenuine.amount} ${worthIfGenuine.currency ?? ''} by ${worthIfGenuine.n} ${
          worthIfGenuine.from === 'graded-sales' ? 'graded' : 'raw'
        } ${worthIfGenuine.n === 1 ? 'sale' : 'sales'}.`,
      ),
    steps.length > 0 && `What was done\n${steps.map((step) => wrap(step, '    ', '  - ')).join('\n')}`,
    used &&
      used.length > 0 &&
      `Sales used\n${columns(used.slice(0, EXCLUDED_SHOWN).map(saleCells))}${more(used.length)}`,
    excluded.length > 0 &&
      `Left out\n${columns(
        excluded.slice(0, EXCLUDED_SHOWN).map(({ sale, why }) => [...saleCells(sale), why]),
      )}${more(excluded.length)}`,
  )
}

function saleCells(sale: Valuation['excluded'][number]['sale']): string[] {
  return [sale.date, `${sale.price.amount} ${sale.price.currency ?? ''}`.trim(), safe(sale.title).slice(0, 40)]
}

function more(n: number): string {
  return n > EXCLUDED_SHOWN ? `\n  … and ${n - EXCLUDED_SHOWN} more (--json lists all)` : ''
}

function percent(share: number): string {
  return `${share >= 0 ? '+' : '−'}${Math.abs(share * 100).toFixed(1)} %`
}
