/**
 * Each thing that a valuation may say, by code, in English: for the command line and for JSON. The interface says the same codes in
 * its own languages. Must not decide anything.
 */
import { createTranslate, type TranslateParams } from '../translate.ts'
import type { Said } from '../valuation.ts'

export const ENGLISH = {
  'step.raw_one': 'Took the one sale of this card raw.',
  'step.raw_other': 'Took the {count} sales of this card raw.',
  'step.no-raw_one': 'No raw sale of this card is at hand; took the one sale of it graded, whatever the grade.',
  'step.no-raw_other': 'No raw sale of this card is at hand; took the {count} sales of it graded, whatever the grade.',
  'step.same-grade_one': 'Took the one sale of this card graded {grade} by {grader}.',
  'step.same-grade_other': 'Took the {count} sales of this card graded {grade} by {grader}.',
  'step.any-grader_one': 'Took the one sale of this card graded {grade} by any grader that the book accepts.',
  'step.any-grader_other': 'Took the {count} sales of this card graded {grade} by any grader that the book accepts.',
  'step.other-grades_one': 'No sale in grade {grade} is at hand; took the one sale of this card in another grade.',
  'step.other-grades_other':
    'No sale in grade {grade} is at hand; took the {count} sales of this card in other grades.',
  'step.no-graded_one': 'No graded sale is at hand; took the one sale of this card raw.',
  'step.no-graded_other': 'No graded sale is at hand; took the {count} sales of this card raw.',
  'step.nothing': 'No sale of this card is at hand.',
  'step.not-comparable':
    'These are no sales of the card as it is offered, so the asked price is not held against them.',
  'step.moved': 'Moved {sales} sales in {grades} grades to grade {grade} along the ladder of grades.',
  'step.moved-pooled':
    'Moved {sales} sales in {grades} grades to grade {grade} along the ladder of grades, its steps taken from these and {mates} sales of other cards of the set.',
  'step.other-currencies_one': 'Left out one sale in another currency: no rate is at hand.',
  'step.other-currencies_other': 'Left out {count} in other currencies: no rate is at hand.',
  'step.converted_one': 'Converted one sale into {currency} at the rate of its day.',
  'step.converted_other': 'Converted {count} sales into {currency} at the rate of their day.',
  'step.not-counted_one': 'Left out one sale that the buyer does not count.',
  'step.not-counted_other': 'Left out {count} sales that the buyer does not count.',
  'step.trend':
    'Prices moved by {slopeShare} a year (Theil–Sen, 90 % interval {lowShare} to {highShare}); every sale was moved to the day by it.',
  'step.no-trend':
    'No trend is supported (Theil–Sen {slopeShare} a year, 90 % interval {lowShare} to {highShare}); none was applied.',
  'step.odd-seller-above': 'Left out the {sales} sales of {seller}: together they lie {apartShare} above the others.',
  'step.odd-seller-below': 'Left out the {sales} sales of {seller}: together they lie {apartShare} below the others.',
  'step.outliers_one': 'Left out one sale whose price stands apart (generalized ESD test).',
  'step.outliers_other': 'Left out {count} sales whose price stands apart (generalized ESD test).',
  'step.bounds_one':
    'One accepted offer has no published price: its weight went to the sales below what was asked (Efron’s redistribution for censored values).',
  'step.bounds_other':
    '{count} accepted offers have no published price: their weight went to the sales below what was asked (Efron’s redistribution for censored values).',
  'step.age': 'Weighed by age: a sale counts half after {years} years.',
  'step.cap': 'Held {seller} to {capShare} of the weight.',
  'step.pairs': 'Took the Hodges–Lehmann centre of the logarithms: the median of the averages of all pairs.',
  'step.median': 'Took the weighted median of the logarithms.',
  'step.conformal': 'The {levelShare} band reaches to the conformal rank among the distances from the centre.',
  'step.t-in-logs': 'The {levelShare} band is a t-interval in the logarithms for the next sale.',
  'step.thin': 'Fewer than five sales: their range and their median, no estimate; the next sale may well lie outside.',
  'step.only-bounds': 'Only accepted offers without a published price are at hand: nothing but upper bounds.',
  'step.newest': 'Of {fitting} sales whose words fit, looked at the {count} newest.',
  'why.same-grade': 'same card, grade {grade} by {grader}',
  'why.other-grade': 'same card, grade {grade} by {grader}',
  'why.raw': 'same card, raw',
  'why.bound': 'accepted offer, price not published: no more than an upper bound',
  'why.lot': 'not a single card',
  'why.reprint': 'its words speak of a reprint',
  'why.variation': 'another variation: {words}',
  'why.no-variation': 'the variation is not stated',
  'why.qualifier': 'its grade carries the qualifier {words}',
  'why.no-qualifier': 'its grade carries no qualifier',
  'why.autograph': 'it is autographed',
  'why.no-autograph': 'it is not autographed',
  'why.later': 'its date lies after {day}',
  'why.grader': 'graded by {grader}, which the grader book does not accept',
  'why.currency': 'paid in {currency}, and no rate is at hand',
  'why.no-currency': 'paid in a currency that is not stated, and no rate is at hand',
  'why.outlier': 'its price stands apart from the rest (generalized ESD test)',
  'why.odd-seller-above': 'all sales of this seller together lie {apartShare} above the others',
  'why.odd-seller-below': 'all sales of this seller together lie {apartShare} below the others',
  'why.rejected': 'you said that it is another card',
  'why.sale-not-counted': 'you do not count it: {words}',
  'why.seller-not-counted': 'you do not count sales by {seller}: {words}',
  'why.venue-not-counted': 'you do not count sales at {venue}: {words}',
  'fault.header': 'the header lacks {columns}; expected {expected}',
  'fault.cells': 'has more cells than the header; quote cells that contain the delimiter',
  'fault.quotes': 'a quotation mark is not closed',
  'fault.repeats': 'repeats line {line}',
  'fault.no-date': 'the date is empty',
  'fault.date-form': 'the date "{text}" is not written as YYYY-MM-DD',
  'fault.date-order': 'the date "{text}" does not fit the order of day and month in this file',
  'fault.short-year': 'the year of "{text}" has two digits',
  'fault.no-day': 'there is no day {text}',
  'fault.future': 'the date {text} lies in the future',
  'fault.no-title': 'the title is empty',
  'fault.currency': '"{text}" is no ISO 4217 currency code',
  'fault.currencies': 'the price says {sign} and its column says {currency}',
  'fault.no-price': 'the price is empty',
  'fault.negative': 'the price "{text}" is negative',
  'fault.zero': 'the price is zero',
  'fault.absurd': 'the price "{text}" is absurdly high',
  'fault.two-ways': 'the price "{text}" can be read two ways; write it as {whole} or {part}',
  'fault.no-amount': 'the price "{text}" is no amount',
  'skip.no-price': 'no price',
  'skip.no-date': 'no date',
  'skip.unsold': 'not sold',
  'skip.open': 'the page does not say that it was sold',
  'skip.lot': 'not a single card',
  'skip.future': 'its date lies in the future',
  'skip.known': 'in the ledger already',
} as const satisfies Readonly<Record<string, string>>

type Written = keyof typeof ENGLISH
/** A code without its plural ending. */
export type SaidCode = Written extends infer Key
  ? Key extends `${infer Stem}_one` | `${infer Stem}_other`
    ? Stem
    : Key
  : never

export function said(code: SaidCode, figures: Said['figures'] = {}): Said {
  return { code, figures }
}

export function percent(share: number): string {
  const rounded = Math.round(share * 100)
  return `${rounded < 0 ? '−' : ''}${Math.abs(rounded)} %`
}

const translate = createTranslate(ENGLISH, 'en')

/** The figures as words of one language: shares by `share`, everything else as it stands; `count` stays a number. */
export function figuresAsWords(figures: Said['figures'], share: (value: number) => string): TranslateParams {
  return Object.fromEntries(
    Object.entries(figures).map(([name, value]) =>
      name.endsWith('Share') && typeof value === 'number' ? [name, share(value)] : [name, value],
    ),
  )
}

export function inEnglish({ code, figures }: Said): string {
  return translate(code, figuresAsWords(figures, percent))
}
