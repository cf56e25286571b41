/**
 * Certificate numbers: by a label word, by the number format of the buyer's grader book, by a link to a record page. A number that
 * is partly covered is said to be hidden and is no number.
 */
import type { Grader } from '../grader-book.ts'
import { between, isJoined, type Reading, type Span } from './reading.ts'

export interface FoundCertificate extends Span {
  /** `null` where the number is partly covered. */
  readonly value: string | null
}

/** Fewest digits of a certificate number behind a label; shorter ones are counts and lots. Ours. */
const FEWEST_DIGITS = 5
/** Digits that must be readable in a covered number to be called one. Ours. */
const FEWEST_READABLE = 2
const COVER = /[xX*•●█▇■#_?·…]{2,}|\.{3}/

/** Words that may stand between the label and the number. */
const FILLER = /^(is|no|nr|num|number|n|ist|lautet|est|es|e|id|nummer|numero|the|of|der|del|du|see|on|label)$/

export function findCertificates(reading: Reading, known: Grader | null): FoundCertificate[] {
  const found: FoundCertificate[] = []
  for (const label of reading.pick('label:certificate', 'label:certificate-no')) {
    if (label.id === 'label:certificate-no') continue
    let index = label.last + 1
    for (
      let fillers = 0;
      fillers < 2 && FILLER.test(reading.tokens[index]?.form ?? '') && isNear(reading, index);
      fillers += 1
    )
      index += 1
    if (reading.tokens[index] === undefined || !isNear(reading, index)) continue
    const certificate = readCertificate(reading, index)
    if (certificate !== null) found.push(certificate)
  }
  if (found.length > 0) return found
  const digits = known?.certificateDigits ?? []
  if (digits.length === 0) return found
  const byFormat: FoundCertificate[] = []
  reading.tokens.forEach((token, index) => {
    if (!/^[0-9]+$/.test(token.form) || !digits.includes(token.form.length)) return
    if (reading.endingAt('label:other-number', index - 1) !== null && isNear(reading, index)) return
    if (/[-/.,+]$/.test(token.separator) || /^[-/.,]\d/.test(reading.text.original.slice(token.end, token.end + 2)))
      return
    if (/^\s?[€$£]/.test(reading.text.original.slice(token.end, token.end + 2)) || /[€$£]\s?$/.test(token.separator))
      return
    byFormat.push({ first: index, last: index, value: token.form })
  })
  const distinct = new Set(byFormat.map(({ value }) => value))
  return distinct.size === 1 ? byFormat.slice(0, 1) : found
}

function isNear(reading: Reading, index: number): boolean {
  return isJoined(reading, index) || /^[:#.=(°º"“*•xX_\-–—?…█]+$/.test(between(reading, index).replace(/\s/g, ''))
}

function readCertificate(reading: Reading, index: number): FoundCertificate | null {
  const { original } = reading.text
  const token = reading.tokens[index]
  if (token === undefined) return null
  // A cover may stand before the first readable digit.
  let start = token.start
  while (start > 0 && /[xX*•●█▇■_?]/.test(original.charAt(start - 1))) start -= 1
  const run = /^[0-9A-Za-z*•●█▇■_?…·-]+(?:\.{3})?/.exec(original.slice(start, start + 40))?.[0] ?? ''
  const digits = run.replace(/[^0-9]/g, '').length
  const last = lastTokenWithin(reading, index, start + run.length)
  if (COVER.test(run)) return digits >= FEWEST_READABLE ? { first: index, last, value: null } : null
  const plain = run.replace(/[-?_·]+$/, '')
  if (/^[A-Z]{0,3}-?[0-9][0-9-]*[A-Z]?$/i.test(plain) && digits >= FEWEST_DIGITS)
    return { first: index, last, value: plain }
  // Groups of digits: "1234 5678".
  const groups = /^[0-9]{2,4}(?: [0-9]{2,4}){1,4}(?![0-9A-Za-z])/.exec(original.slice(start, start + 30))?.[0]
  if (groups !== undefined) {
    const joined = groups.replaceAll(' ', '')
    if (joined.length >= FEWEST_DIGITS + 1)
      return { first: index, last: lastTokenWithin(reading, index, start + groups.length), value: joined }
  }
  return null
}

function lastTokenWithin(reading: Reading, index: number, end: number): number {
  let last = index
  while ((reading.tokens[last + 1]?.end ?? Number.POSITIVE_INFINITY) <= end) last += 1
  return last
}

/** A certificate number in a link's target: by the grader's own look-up address, else behind a path word such as `certificate`. */
export function findLinkedCertificate(
  links: readonly string[],
  graders: readonly Grader[],
): { value: string; link: string } | null {
  for (const link of links) {
    for (const grader of graders) {
      const [before, after] = grader.lookUp?.split('{certificate}') ?? []
      if (before === undefined || after === undefined || !link.startsWith(before)) continue
      const value = /^[0-9A-Za-z-]{4,20}/.exec(link.slice(before.length))?.[0]
      if (value !== undefined && /[0-9]/.test(value) && link.slice(before.length + value.length).startsWith(after))
        return { value, link }
    }
    const path =
      /[/?&=](?:cert|certs|certificate|certificates|certification|zertifikat|certificat|certificado|certificato|verify)[a-z-]*[/=]([0-9]{5,14})(?![0-9])/i.exec(
        link,
      )
    if (path?.[1] !== undefined) return { value: path[1], link }
  }
  return null
}
