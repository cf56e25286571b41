/**
 * Exchange rates by day, against the euro, and what they make of an amount. A day without a rate takes that of the last days before it;
 * where those have none either, nothing is converted. Exact decimals, rounded once, to the smallest coin.
 */
import { Decimal } from 'decimal.js'
import { isCurrencyCode } from '../currencies.ts'
import type { Money } from '../money.ts'
import { minorUnitDigits } from './minor-units.ts'

/** Units of each currency for one euro on one day. Decimal strings. */
export interface DayRates {
  /** ISO 8601 date. */
  readonly day: string
  readonly perEuro: Readonly<Record<string, string>>
}

export interface Converted {
  readonly money: Money
  /** The day whose rate was taken. */
  readonly rateOf: string
}

export interface RateTable {
  readonly days: number
  /** `null` where no rate of that day or the days before it is at hand. */
  convert(money: Money, to: string, on: string): Converted | null
}

/** A central bank publishes on working days, and the longest run of holidays at a year's turn stays below this. In days; ours. */
const OLDEST_RATE = 10

export function createRateTable(rows: readonly DayRates[]): RateTable {
  const sorted = [...rows].sort((a, b) => (a.day < b.day ? -1 : 1))
  const perEuro = (row: DayRates, currency: string) => (currency === 'EUR' ? '1' : row.perEuro[currency])

  function find(on: string, from: string, to: string): DayRates | null {
    let [low, high] = [0, sorted.length]
    while (low < high) {
      const middle = (low + high) >> 1
      if ((sorted[middle] as DayRates).day <= on) low = middle + 1
      else high = middle
    }
    for (let i = low - 1; i >= 0; i--) {
      const row = sorted[i] as DayRates
      if (Date.parse(on) - Date.parse(row.day) > OLDEST_RATE * 86_400_000) return null
      if (perEuro(row, from) !== undefined && perEuro(row, to) !== undefined) return row
    }
    return null
  }

  return {
    days: sorted.length,
    convert({ amount, currency }, to, on) {
      if (currency === null) return null
      if (currency === to) return { money: { amount, currency }, rateOf: on }
      const row = find(on.slice(0, 10), currency, to)
      if (row === null) return null
      const value = new Decimal(amount)
        .times(perEuro(row, to) as string)
        .dividedBy(perEuro(row, currency) as string)
        .toDecimalPlaces(minorUnitDigits(to), Decimal.ROUND_HALF_UP)
      return { money: { amount: value.toFixed(minorUnitDigits(to)), currency: to }, rateOf: row.day }
    },
  }
}

export interface RatesRead {
  readonly rows: readonly DayRates[]
  readonly faults: readonly { readonly line: number; readonly fault: string }[]
}

/**
 * The European Central Bank's table of euro reference rates as CSV (`eurofxref.csv`, `eurofxref-hist.csv`): first column `Date`, then a
 * column a currency; `N/A` where there was none; a comma at the end of each line. The history writes days as `2026-11-20`, the
 * daily file as `20 November 2026`.
 */
export function parseRatesCsv(text: string): RatesRead {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/)
  const cells = (line: string) => line.split(',').map((cell) => cell.trim())
  const header = cells(lines[0] ?? '')
  const faults: { line: number; fault: string }[] = []
  if (header[0]?.toLowerCase() !== 'date') {
    return { rows: [], faults: [{ line: 1, fault: 'the first column is not called Date' }] }
  }
  const columns = header.map((name) => (isCurrencyCode(name) ? name : null))
  if (columns.every((name) => name === null)) {
    return { rows: [], faults: [{ line: 1, fault: 'no column is called by a currency code' }] }
  }
  const rows = new Map<string, DayRates>()
  lines.slice(1).forEach((line, i) => {
    if (line.replaceAll(',', '').trim() === '') return
    const row = cells(line)
    const day = readDay(row[0] ?? '')
    if (day === null) {
      faults.push({ line: i + 2, fault: `"${row[0]}" is no day` })
      return
    }
    const perEuro: Record<string, string> = {}
    columns.forEach((currency, place) => {
      const rate = row[place] ?? ''
      if (currency === null || rate === '' || rate === 'N/A') return
      if (/^\d+(?:\.\d+)?$/.test(rate) && !new Decimal(rate).isZero()) perEuro[currency] = rate
      else faults.push({ line: i + 2, fault: `"${rate}" is no rate of ${currency}` })
    })
    if (rows.has(day)) faults.push({ line: i + 2, fault: `repeats ${day}` })
    else if (Object.keys(perEuro).length > 0) rows.set(day, { day, perEuro })
  })
  return { rows: [...rows.values()], faults }
}

const MONTHS = 'january february march april may june july august september october november december'.split(' ')

function readDay(text: string): string | null {
  const words = /^(\d{1,2}) (\p{L}+) (\d{4})$/u.exec(text)
  const month = words === null ? -1 : MONTHS.indexOf((words[2] as string).toLowerCase())
  const iso =
    words === null ? text : `${words[3]}-${String(month + 1).padStart(2, '0')}-${(words[1] as string).padStart(2, '0')}`
  if (!/^\d{4}-\d{2}-\d{2}$/.test(iso)) return null
  const time = Date.parse(`${iso}T00:00:00Z`)
  return Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== iso ? null : iso
}
