/**
 * An amount in a column of amounts. Stricter than reading prices out of prose: what can be read two ways is a fault
 * that the person settles, never a guess.
 */
import { isCurrencyCode } from '../currencies.ts'
import type { Said } from '../valuation.ts'
import { minorUnitDigits } from './minor-units.ts'
import { said } from './words.ts'

export type DecimalMark = '.' | ','
export type AmountReading = { readonly amount: string; readonly sign: string | null } | { readonly fault: Said }

const GROUPED = /^\d{1,3}(?:([.,'’\u00a0\u202f ])\d{3})(?:\1\d{3})*(?:([.,])(\d+))?$/
const PLAIN = /^(\d+)(?:([.,])(\d+))?$/
/** Signs that stand for one currency alone. A lone dollar or yen sign stands for several and says nothing here. */
const SIGNS: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP', '₽': 'RUB', '₹': 'INR', zł: 'PLN' }
/** No card was ever sold for this much, in whole units of any currency with cents; from memory. Ours. */
const ABSURD = 1e9
/** Digits after the mark beyond which it is no amount of money. ISO 4217 has no more than four. */
const MOST_DECIMALS = 4

/**
 * @param text digits with separators, a currency sign or code beside them allowed.
 * @param decimal the file's decimal mark, where it is known.
 */
export function parseAmount(text: string, currency: string | null, decimal: DecimalMark | null = null): AmountReading {
  const whole = text.trim()
  if (whole === '') return { fault: said('fault.no-price') }
  const { digits: trimmed, sign } = takeSign(whole)
  if (/^[-−(]/.test(trimmed) || /[-−]$/.test(trimmed)) return { fault: said('fault.negative', { text: whole }) }
  const reading = decimal === null ? readEither(trimmed, sign ?? currency) : readWith(trimmed, decimal)
  if ('fault' in reading)
    return reading.fault.code === 'fault.no-amount' ? { fault: said('fault.no-amount', { text: whole }) } : reading
  if (!/[1-9]/.test(reading.amount)) return { fault: said('fault.zero') }
  if (Number(reading.amount) >= ABSURD) return { fault: said('fault.absurd', { text: whole }) }
  return { amount: reading.amount, sign }
}

type Reading = { readonly amount: string } | { readonly fault: Said }

function takeSign(text: string): { digits: string; sign: string | null } {
  const beside =
    /^(?:([A-Za-z]{3}|[^\d\s.,()'’−-]{1,3})\s*)?([-−(]?\s*[\d.,'’\u00a0\u202f ]*\d[\d.,'’\u00a0\u202f ]*[-−)]?)(?:\s*([A-Za-z]{3}|[^\d\s.,()'’−-]{1,3}))?$/u.exec(
      text,
    )
  if (beside === null) return { digits: text, sign: null }
  const word = beside[1] ?? beside[3] ?? null
  const digits = (beside[2] as string).trim()
  if (word === null) return { digits, sign: null }
  const code = word.toUpperCase()
  if (isCurrencyCode(code)) return { digits, sign: code }
  if (SIGNS[word] !== undefined) return { digits, sign: SIGNS[word] as string }
  // A dollar, a yen: an amount, but of whose money the column has to say.
  return /^[$¥]|[$¥]$/.test(word) ? { digits, sign: null } : { digits: text, sign: null }
}

/** The decimal mark is known, so the other one can only group. */
function readWith(text: string, decimal: DecimalMark): Reading {
  const group = decimal === '.' ? "[,'’\\u00a0\\u202f ]" : "[.'’\\u00a0\\u202f ]"
  const fit = new RegExp(
    `^(\\d{1,3}(?:(${group})\\d{3})(?:\\2\\d{3})*|\\d+)(?:\\${decimal}(\\d{1,${MOST_DECIMALS}}))?$`,
  ).exec(text)
  return fit === null ? { fault: said('fault.no-amount') } : plain((fit[1] as string).replace(/\D/g, ''), fit[3])
}

function readEither(text: string, currency: string | null): Reading {
  const simple = PLAIN.exec(text)
  if (simple) {
    const [, whole = '', separator, fraction] = simple
    // `1.234`: a thousand or one? Only a currency with three minor digits would be written so on purpose.
    if (separator && fraction?.length === 3 && whole.length <= 3 && whole !== '0' && minorUnitDigits(currency) !== 3) {
      return { fault: said('fault.two-ways', { text, whole: `${whole}${fraction}.00`, part: `${whole}.${fraction}0` }) }
    }
    return plain(whole, fraction)
  }
  const grouped = GROUPED.exec(text)
  if (grouped && grouped[1] !== grouped[2]) {
    const [whole = ''] = grouped[2] ? text.split(new RegExp(`\\${grouped[2]}(?=\\d+$)`)) : [text]
    return plain(whole.replace(/\D/g, ''), grouped[3])
  }
  return { fault: said('fault.no-amount') }
}

function plain(whole: string, fraction: string | undefined): Reading {
  if ((fraction?.length ?? 0) > MOST_DECIMALS) return { fault: said('fault.no-amount') }
  const integer = whole.replace(/^0+(?=\d)/, '')
  return { amount: fraction === undefined ? integer : `${integer}.${fraction}` }
}

/** What one price tells of its file's decimal mark; `null`: nothing. */
export function decimalMarkIn(text: string): DecimalMark | 'either' | null {
  const { digits } = takeSign(text.trim())
  const marks = digits.replace(/[^.,]/g, '')
  const last = marks.at(-1) as DecimalMark | undefined
  if (last === undefined) return null
  const other = last === '.' ? ',' : '.'
  if (marks.includes(other)) return last
  // Several of one mark group thousands, so the decimal mark is the other.
  if (marks.length > 1) return other
  return digits.split(last)[1]?.length === 3 ? 'either' : last
}
