/**
 * From an inspection, the fields that are stated, each with its words and its origin, and the names of those that are
 * not. Pure: it decides what a person is told, never what is true.
 */
import type { Claim, Quote } from '../../domain/claim.ts'
import type { Inspection } from '../../domain/inspection.ts'
import type { Listing, Provenance } from '../../domain/listing.ts'
import type { Wording } from '../wording.ts'

export interface Origin {
  readonly provenance: Provenance | null
  /** The words behind a field of the claim. */
  readonly quote: Quote | null
}

export interface OfferedField {
  readonly key: string
  readonly value: string
  /** Words of the page rather than ours. */
  readonly verbatim: boolean
  readonly origin: Origin
  /** Short enough to stand beside another. */
  readonly brief: boolean
}

export interface OfferedFields {
  readonly claim: readonly OfferedField[]
  readonly sale: readonly OfferedField[]
  /** Keys of what the page does not state. */
  readonly notStated: readonly string[]
}

export function originOf(listing: Listing, field: string): Origin {
  return { provenance: listing.provenance[field] ?? null, quote: null }
}

function claimOrigin(listing: Listing, claim: Claim, field: string): Origin {
  const quote = claim.quotes[field] ?? null
  return { provenance: quote === null ? null : (listing.provenance[quote.field] ?? null), quote }
}

/** A field is `null` where it does not apply, `''` where it applies and is not stated. */
type Stated = readonly [key: string, value: string | null, verbatim: boolean]

function claimValues(claim: Claim, { t }: Wording): readonly Stated[] {
  const encapsulated = claim.encapsulation !== 'raw'
  return [
    ['subject', claim.subject ?? '', true],
    ['set', claim.set ?? '', true],
    ['year', claim.year ?? '', true],
    ['cardNumber', claim.cardNumber ?? '', true],
    ['variation', claim.variation, true],
    ['serial', claim.serial && `${claim.serial.number ?? '?'} / ${claim.serial.of}`, false],
    ['object', claim.object === 'card' ? null : t(`object.${claim.object}`), false],
    ['encapsulation', t(`encapsulation.${claim.encapsulation}`), false],
    ['holderKind', claim.holderKind && t(`holderKind.${claim.holderKind}`), false],
    ['grader', claim.grader ?? (encapsulated ? '' : null), true],
    ['grade', gradeWords(claim, t) ?? (encapsulated ? '' : null), false],
    ['certificate', claim.certificate ?? (encapsulated ? '' : null), true],
    ['reprint', claim.reprint === 'no' ? null : t(`reprint.${claim.reprint}`), false],
    ['autograph', claim.autograph ? t('value.yes') : null, false],
    ['relic', claim.relic ? t('value.yes') : null, false],
    ['rookie', claim.rookie ? t('value.yes') : null, false],
  ]
}

function gradeWords(claim: Claim, t: Wording['t']): string | null {
  if (claim.grade === null) return null
  const grade = claim.grade === 'authentic' || claim.grade === 'altered' ? t(`grade.${claim.grade}`) : claim.grade
  return claim.qualifier === null ? grade : `${grade} (${claim.qualifier})`
}

function saleValues(listing: Listing, { t, number }: Wording): readonly Stated[] {
  const { seller } = listing
  const feedback =
    seller === null
      ? ''
      : [
          seller.feedbackCount !== null ? t('seller.feedback', { number: number(seller.feedbackCount) }) : '',
          seller.feedbackPercent !== null ? `${number(seller.feedbackPercent)} %` : '',
        ]
          .filter(Boolean)
          .join(', ')
  const days = listing.returnsDays
  return [
    ['seller', seller === null ? '' : feedback === '' ? seller.name : `${seller.name} (${feedback})`, true],
    ['memberSince', seller?.memberSince ?? null, true],
    ['condition', listing.condition ?? '', true],
    [
      'returns',
      listing.returns === null
        ? ''
        : days === null
          ? t(`returns.${listing.returns}`)
          : `${t(`returns.${listing.returns}`)} (${t('returns.days', { count: days })})`,
      false,
    ],
    ['payments', listing.payments.length > 0 ? listing.payments.join(', ') : null, true],
    ['location', listing.location, true],
    ['itemNumber', listing.itemNumber, true],
  ]
}

/** Longest value, in characters, that fits half of a panel 400 px wide beside its name without wrapping. */
const BRIEF_LENGTH = 12
const MAY_BE_BRIEF: ReadonlySet<string> = new Set([
  ...['year', 'cardNumber', 'serial', 'encapsulation', 'holderKind', 'grader', 'grade', 'reprint'],
  ...['autograph', 'relic', 'rookie', 'condition', 'returns'],
])

function isBrief(key: string, value: string): boolean {
  return value.length <= BRIEF_LENGTH && MAY_BE_BRIEF.has(key)
}

export function deriveOfferedFields(inspection: Inspection, wording: Wording): OfferedFields {
  const { listing, claim } = inspection
  const claimed = claimValues(claim, wording)
  const sold = saleValues(listing, wording)
  const stated = (values: readonly Stated[], origin: (key: string) => Origin) =>
    values.flatMap(([key, value, verbatim]) =>
      value ? [{ key, value, verbatim, origin: origin(key), brief: isBrief(key, value) }] : [],
    )
  const open = [...claimed, ...sold].flatMap(([key, value]) => (value === '' ? [key] : []))
  if (listing.price !== null && listing.shipping === null) open.push('shipping')
  if (listing.saleFormat === 'auction' && listing.endsAt === null) open.push('endsAt')
  return {
    claim: stated(claimed, (key) => claimOrigin(listing, claim, key)),
    sale: stated(sold, (key) => originOf(listing, key)),
    notStated: open,
  }
}

export type Sureness = 'sure' | 'likely' | 'unsure'

/** The reader's confidence is uncalibrated, so it is said in three words and never as a number. Limits are ours. */
export function surenessOf(confidence: number): Sureness {
  if (confidence >= 0.85) return 'sure'
  return confidence >= 0.55 ? 'likely' : 'unsure'
}
