/**
 * An amount in a column of amounts. Stricter than reading prices out of prose: what can be read two ways is a fault
 * that the person settles, never a guess.
 */
import { minorUnitDigits } from './minor-units.ts'

export type AmountReading = { readonly amount: string } | { readonly fault: string }

const GROUPED = /^\d{1,3}(?:([.,'’\u00a0\u202f ])\d{3})(?:\1\d{3})*(?:([.,])(\d+))?$/
const PLAIN = /^(\d+)(?:([.,])(\d+))?$/

/** @param text digits with separators; a currency sign or code beside them is not expected in an amounts column. */
export function parseAmount(text: string, currency: string | null): AmountReading {
  const trimmed = text.trim()
  if (trimmed === '') return { fault: 'the price is empty' }
  if (/^[-−(]/.test(trimmed)) return { fault: `the price "${trimmed}" is negative` }
  const plain = PLAIN.exec(trimmed)
  if (plain) {
    const [, whole = '', separator, fraction] = plain
    // `1.234`: a thousand or one? Only a currency with three minor digits would be written so on purpose.
    if (separator && fraction?.length === 3 && whole.length <= 3 && whole !== '0' && minorUnitDigits(currency) !== 3) {
      return {
        fault: `the price "${trimmed}" can be read two ways; write it as ${whole}${fraction}.00 or ${whole}.${fraction}0`,
      }
    }
    return positive(whole, fraction)
  }
  const grouped = GROUPED.exec(trimmed)
  if (grouped && grouped[1] !== grouped[2]) {
    const [whole = ''] = grouped[2] ? trimmed.split(new RegExp(`\\${grouped[2]}(?=\\d+$)`)) : [trimmed]
    return positive(whole.replace(/\D/g, ''), grouped[3])
  }
  return { fault: `the price "${trimmed}" is no amount` }
}

function positive(whole: string, fraction: string | undefined): AmountReading {
  const integer = whole.replace(/^0+(?=\d)/, '')
  const amount = fraction === undefined ? integer : `${integer}.${fraction}`
  return /[1-9]/.test(amount) ? { amount } : { fault: 'the price is zero' }
}
