/** The name of a field for a person. A field of the listing or the claim has a text; a name from elsewhere stands as it is. */
import type { Translate } from '../../domain/translate.ts'

const NAMED: ReadonlySet<string> = new Set([
  ...['title', 'price', 'estimate', 'shipping', 'premiumPercent', 'saleFormat', 'endsAt', 'seller', 'memberSince'],
  ...['condition', 'specifics', 'description', 'returns', 'payments', 'location', 'itemNumber', 'categories', 'photos'],
  ...['bids', 'reserve', 'bestOffer', 'links', 'label', 'barcode', 'pageText'],
  ...['year', 'set', 'subject', 'cardNumber', 'variation', 'serial', 'encapsulation', 'grader', 'grade', 'certificate'],
  ...['holderKind', 'reprint', 'autograph', 'relic', 'rookie', 'object', 'multiple', 'qualifier'],
])

/** `specifics.Grade` is "item specifics: Grade". */
export function labelOfField(t: Translate, field: string): string {
  const [head = field, ...rest] = field.split('.')
  const name = NAMED.has(head) ? t(`field.${head}`) : head
  return rest.length === 0 ? name : `${name}: ${rest.join('.')}`
}
