/** A claim for a person: what the words say, field by field, with the words quoted. */
import type { Claim } from '../../domain/claim.ts'
import { safe, table } from './lay-out.ts'

const FIELDS = [
  'year',
  'set',
  'subject',
  'cardNumber',
  'variation',
  'serial',
  'encapsulation',
  'grader',
  'grade',
  'qualifier',
  'certificate',
  'holderKind',
  'reprint',
  'autograph',
  'relic',
  'rookie',
  'multiple',
  'object',
] as const satisfies readonly (keyof Claim)[]

export function claimText(claim: Claim): string {
  return table(
    FIELDS.map((field) => {
      const quoted = claim.quotes[field]?.quote
      const words = valueText(claim[field])
      return [field, safe(quoted && quoted !== words ? `${words}   “${quoted}”` : words)]
    }),
  )
}

function valueText(value: Claim[(typeof FIELDS)[number]]): string {
  if (value === null) return 'not stated'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'object') return `${value.number ?? '?'}/${value.of}`
  return value
}
