/**
 * The facts that a rule may speak of, by id. A closed list: a pack that names another is refused.
 * What each one means stands in `_locales/<language>/rules.json` under `fact_<id>`; how it is read, in `read-fact.ts`.
 */
export type FactKind = 'text' | 'flag' | 'number' | 'year' | 'card-number' | 'grader' | 'grade' | 'certificate'

export const FACTS = {
  'claim.year': 'year',
  'claim.card-number': 'card-number',
  'claim.subject': 'text',
  'claim.encapsulation': 'text',
  'claim.grader': 'grader',
  'claim.grade': 'grade',
  'claim.grade-number': 'number',
  'claim.half-grade': 'flag',
  'claim.qualifier': 'text',
  'claim.certificate': 'certificate',
  'claim.certificate-hidden': 'flag',
  'claim.holder-kind': 'text',
  'claim.reprint': 'text',
  'claim.multiple': 'flag',
  'claim.autograph': 'flag',
  'claim.relic': 'flag',
  'claim.rookie': 'flag',
  'claim.object': 'text',
  'claim.period': 'text',

  'grader.status': 'text',
  'grader.certificate-fits': 'flag',
  'grader.half-grades': 'flag',
  'grader.qualifier-known': 'flag',

  'title.year': 'year',
  'title.card-number': 'card-number',
  'title.grader': 'grader',
  'title.grade': 'grade',
  'title.certificate': 'certificate',
  'title.encapsulation': 'text',
  'title.reprint': 'text',
  'specifics.year': 'year',
  'specifics.card-number': 'card-number',
  'specifics.grader': 'grader',
  'specifics.grade': 'grade',
  'specifics.certificate': 'certificate',
  'specifics.encapsulation': 'text',
  'description.year': 'year',
  'description.card-number': 'card-number',
  'description.grader': 'grader',
  'description.grade': 'grade',
  'description.certificate': 'certificate',
  'description.encapsulation': 'text',
  'description.reprint': 'text',
  'label.year': 'year',
  'label.card-number': 'card-number',
  'label.grader': 'grader',
  'label.grade': 'grade',
  'label.certificate': 'certificate',
  'barcode.certificate': 'certificate',

  'listing.sale-format': 'text',
  'listing.price-kind': 'text',
  'listing.returns': 'text',
  'listing.returns-days': 'number',
  'listing.sold': 'flag',
  'listing.description-length': 'number',
  'seller.feedback-count': 'number',
  'seller.feedback-percent': 'number',
  'seller.member-days': 'number',

  'worth.basis': 'text',
  'worth.to-limit': 'number',
  'worth.risky-issue': 'text',
  'worth.copies-known': 'flag',
  'price.to-worth': 'number',
  'valuation.ask-to-centre': 'number',
  'valuation.thin': 'flag',
  'valuation.only-excluded-sellers': 'flag',
  'valuation.yearly-loss': 'number',

  'photos.count': 'number',
  'photos.different': 'number',
  'photos.examined': 'number',
  'photos.largest-edge': 'number',
  'photos.blurred-share': 'number',
  'photos.holder-kind': 'text',
  'photos.repeated': 'number',
  'photos.label-legible': 'flag',
  'photos.file-problem': 'flag',

  'traces.photo-other-seller': 'number',
  'traces.photo-same-seller': 'number',
  'traces.certificate-other-seller': 'number',
  'traces.certificate-same-seller': 'number',
  'traces.text-other-seller': 'number',
  'traces.seller-ended-badly': 'number',
  'traces.seller-ended-well': 'number',

  'text.invisible': 'number',
  'text.direction-override': 'number',
  'text.look-alike-letters': 'number',
  'text.styled-letters': 'number',
  'text.spaced-letters': 'number',
} as const satisfies Record<string, FactKind>

export type FactId = keyof typeof FACTS
export const FACT_IDS = Object.keys(FACTS) as [FactId, ...FactId[]]

/** The key of a fact's meaning in the text catalogue: `worth.to-limit` → `worth_to_limit`. */
export function factKey(fact: FactId): string {
  return fact.replace(/[.-]/g, '_')
}
