/**
 * How each fact of the catalogue is read from what is known about an offer, with the words or figures behind it.
 * Unknown is `null`. A fact is read once per inspection, and only if a rule asks for it.
 * Long because it is a table: one entry for each fact that a rule may ask for.
 */
import type { Claim } from '../claim.ts'
import type { Facts, Trace } from '../facts.ts'
import type { Book, Grader, RiskyIssue } from '../grader-book.ts'
import type { Evidence } from '../inspection.ts'
import type { PhotoFacts } from '../photo-facts.ts'
import { showMoney } from '../show-money.ts'
import type { DisguiseKind, NormalisedText } from '../text/normalise-text.ts'
import type { Translate, TranslateParams } from '../translate.ts'
import { findGrader, yearSpan } from './compare-facts.ts'
import type { Worth } from './estimate-worth.ts'
import { type FactId, factKey } from './fact-ids.ts'

export interface FactValue {
  readonly value: string | number | boolean | null
  /** What to quote where this fact raises a concern; empty where the value speaks for nothing by itself. */
  readonly evidence: readonly Evidence[]
}

/** The words of one part of the listing, read as if the other parts were not there. */
export type Part = 'title' | 'specifics' | 'description' | 'label'

export interface KnownAboutOffer {
  readonly facts: Facts
  readonly book: Book
  readonly claim: Claim
  readonly worth: Worth | null
  readonly issue: RiskyIssue | null
  readonly texts: ReadonlyMap<string, NormalisedText>
  readonly translate: Translate
  /** Of the texts, for amounts among them. */
  readonly language: string
  /** Photos whose pixels were looked at. */
  readonly examined: readonly PhotoFacts[]
  readonly photoCount: number
  /** Photos of one view count once; each that says nothing counts. */
  readonly differentPhotos: number
  /** The claim that one part alone makes; `null` where that part is empty. */
  claimOf(part: Part): Claim | null
}

const NOTHING: FactValue = { value: null, evidence: [] }

export function say(translate: Translate, key: string, params: TranslateParams = {}): Evidence {
  return { quote: translate(key, params), field: null, start: null, end: null }
}

export function createFactReader(known: KnownAboutOffer): (fact: FactId) => FactValue {
  const read = new Map<FactId, FactValue>()
  return (fact) => {
    const before = read.get(fact)
    if (before) return before
    const value = readers[fact](known)
    read.set(fact, value)
    return value
  }
}

type Reader = (known: KnownAboutOffer) => FactValue

function quoteOf(claim: Claim, field: string): readonly Evidence[] {
  const quote = claim.quotes[field]
  return quote ? [{ quote: quote.quote, field: quote.field, start: quote.start, end: quote.end }] : []
}

type ClaimField = Exclude<keyof Claim, 'quotes' | 'serial'>

function fromClaim(field: ClaimField): Reader {
  return ({ claim }) => ({ value: claim[field], evidence: quoteOf(claim, field) })
}

function fromPart(part: Exclude<Part, 'label'>, field: ClaimField): Reader {
  return ({ claimOf }) => {
    const claim = claimOf(part)
    // Only what the part says in words can contradict another; what is taken from its silence cannot.
    const evidence = claim ? quoteOf(claim, field) : []
    if (!claim || claim.multiple || evidence.length === 0) return NOTHING
    return { value: claim[field], evidence }
  }
}

/** Words read off a label by machine: quoted as such, since they stand nowhere in the listing. */
function fromLabel(field: 'year' | 'cardNumber' | 'grader' | 'grade' | 'certificate'): Reader {
  return ({ examined, claim, claimOf, translate }) => {
    const label = bestLabel(examined)
    if (!label) return NOTHING
    const direct = field === 'year' || field === 'cardNumber' ? null : label[field]
    const read = direct ?? claimOf('label')?.[field] ?? null
    const value = field === 'grader' && read !== null && looksLike(read, claim.grader) ? claim.grader : read
    return value === null ? NOTHING : { value, evidence: [say(translate, 'says_label', { words: value })] }
  }
}

/** By machine a Q is easily read as an O: the same letters but for these are no contradiction. */
function looksLike(read: string, claimed: string | null): boolean {
  const fold = (letters: string) => letters.toUpperCase().replace(/[Q0]/g, 'O')
  return claimed !== null && fold(read) === fold(claimed)
}

// Below this the words of a label are a guess; ours, uncalibrated, like the confidence itself.
const LEGIBLE = 0.5

export function bestLabel(examined: readonly PhotoFacts[]): PhotoFacts['label'] {
  let best: PhotoFacts['label'] = null
  for (const { label } of examined) {
    if (label && label.confidence >= LEGIBLE && label.confidence > (best?.confidence ?? 0)) best = label
  }
  return best
}

function stated(
  value: FactValue['value'],
  known: KnownAboutOffer,
  key: string,
  params: TranslateParams = {},
): FactValue {
  return value === null ? NOTHING : { value, evidence: [say(known.translate, key, params)] }
}

function fromListing<T extends string | number | boolean | null>(
  pick: (known: KnownAboutOffer) => T,
  key?: string,
): Reader {
  return (known) => {
    const value = pick(known)
    if (value === null || key === undefined) return { value, evidence: [] }
    return stated(value, known, key, { value: String(value), count: typeof value === 'number' ? value : 0 })
  }
}

function claimedGrader({ claim, book }: KnownAboutOffer): Grader | null {
  return claim.grader === null ? null : findGrader(claim.grader, book.graders)
}

function fromTraces(key: string, fits: (trace: Trace, known: KnownAboutOffer) => boolean): Reader {
  return (known) => {
    const found = known.facts.traces.filter((trace) => fits(trace, known))
    const evidence = found.map((trace) =>
      say(known.translate, key, {
        title: trace.title,
        seller: trace.seller ?? known.translate('seller_not_named'),
        date: trace.at.slice(0, 10),
        detail: trace.detail ?? '',
      }),
    )
    return { value: found.length, evidence }
  }
}

/** `null` when one of the two names is unknown: then nobody can say whether the sellers are two. */
function otherSeller(trace: Trace, { facts }: KnownAboutOffer): boolean | null {
  const here = facts.listing.seller?.name ?? null
  if (here === null || trace.seller === null) return null
  return here.trim().toLowerCase() !== trace.seller.trim().toLowerCase()
}

/** The valuation's own word for a sale of a seller whom the buyer does not count. */
const SELLER_EXCLUDED = 'why.seller-not-counted'

const BAD_ENDS = new Set(['altered', 'counterfeit', 'not-as-described', 'never-arrived'])

function disguised(...kinds: DisguiseKind[]): Reader {
  return ({ texts }) => {
    const evidence: Evidence[] = []
    for (const [field, text] of texts) {
      for (const found of text.disguises) {
        if (!kinds.includes(found.kind)) continue
        evidence.push({ quote: text.original.slice(found.start, found.end), field, start: found.start, end: found.end })
      }
    }
    return { value: evidence.length, evidence: evidence.slice(0, 3) }
  }
}

/** Days between two ISO dates; `null` where either cannot be read. */
function daysBetween(from: string | null | undefined, to: string | undefined): number | null {
  if (!from || !to || !/^\d{4}-\d{2}/.test(from)) return null
  const days = (Date.parse(to) - Date.parse(from)) / 86_400_000
  return Number.isFinite(days) ? days : null
}

function count(pick: (known: KnownAboutOffer) => number): Reader {
  return (known) => ({ value: pick(known), evidence: [] })
}

// Card stock, print and grading all changed in the years around 1980; the trade calls what is older vintage.
// Common practice, no source.
const VINTAGE_UNTIL = 1980

const readers: Readonly<Record<FactId, Reader>> = {
  'claim.year': fromClaim('year'),
  'claim.card-number': fromClaim('cardNumber'),
  'claim.subject': fromClaim('subject'),
  'claim.encapsulation': fromClaim('encapsulation'),
  'claim.grader': fromClaim('grader'),
  'claim.grade': fromClaim('grade'),
  'claim.grade-number': ({ claim }) => {
    const number = claim.grade === null ? Number.NaN : Number(claim.grade)
    return Number.isNaN(number) ? NOTHING : { value: number, evidence: quoteOf(claim, 'grade') }
  },
  'claim.half-grade': ({ claim }) =>
    claim.grade === null || Number.isNaN(Number(claim.grade))
      ? NOTHING
      : { value: !Number.isInteger(Number(claim.grade)), evidence: quoteOf(claim, 'grade') },
  'claim.qualifier': fromClaim('qualifier'),
  'claim.certificate': fromClaim('certificate'),
  'claim.certificate-hidden': ({ claim }) => ({
    value: claim.certificateHidden,
    evidence: claim.quotes.certificateHidden ? quoteOf(claim, 'certificateHidden') : quoteOf(claim, 'certificate'),
  }),
  'claim.holder-kind': fromClaim('holderKind'),
  'claim.reprint': fromClaim('reprint'),
  'claim.multiple': fromClaim('multiple'),
  'claim.autograph': fromClaim('autograph'),
  'claim.relic': fromClaim('relic'),
  'claim.rookie': fromClaim('rookie'),
  'claim.object': fromClaim('object'),
  'claim.period': ({ claim }) => {
    const span = claim.year === null ? null : yearSpan(claim.year)
    if (span === null) return NOTHING
    return { value: span[0] < VINTAGE_UNTIL ? 'vintage' : 'later', evidence: quoteOf(claim, 'year') }
  },

  'grader.status': (known) => {
    const { claim } = known
    if (claim.grader === null) return NOTHING
    const grader = claimedGrader(known)
    const value =
      grader === null ? 'unknown' : !grader.accepted ? 'not-accepted' : grader.conditions ? 'conditional' : 'accepted'
    return { value, evidence: quoteOf(claim, 'grader') }
  },
  'grader.certificate-fits': (known) => {
    const digits = claimedGrader(known)?.certificateDigits ?? []
    const { certificate } = known.claim
    if (digits.length === 0 || certificate === null || known.claim.certificateHidden) return NOTHING
    const fits = /^\d+$/.test(certificate) && digits.includes(certificate.length)
    return { value: fits, evidence: quoteOf(known.claim, 'certificate') }
  },
  'grader.half-grades': (known) => ({ value: claimedGrader(known)?.halfGrades ?? null, evidence: [] }),
  'grader.qualifier-known': (known) => {
    const qualifiers = claimedGrader(known)?.qualifiers
    const { qualifier } = known.claim
    if (!qualifiers || qualifier === null) return NOTHING
    const known_ = Object.keys(qualifiers).some((letters) => letters.toLowerCase() === qualifier.toLowerCase())
    return { value: known_, evidence: quoteOf(known.claim, 'qualifier') }
  },

  'title.year': fromPart('title', 'year'),
  'title.card-number': fromPart('title', 'cardNumber'),
  'title.grader': fromPart('title', 'grader'),
  'title.grade': fromPart('title', 'grade'),
  'title.certificate': fromPart('title', 'certificate'),
  'title.encapsulation': fromPart('title', 'encapsulation'),
  'title.reprint': ({ claimOf }) => ({ value: claimOf('title')?.reprint ?? null, evidence: [] }),
  'specifics.year': fromPart('specifics', 'year'),
  'specifics.card-number': fromPart('specifics', 'cardNumber'),
  'specifics.grader': fromPart('specifics', 'grader'),
  'specifics.grade': fromPart('specifics', 'grade'),
  'specifics.certificate': fromPart('specifics', 'certificate'),
  'specifics.encapsulation': fromPart('specifics', 'encapsulation'),
  'description.year': fromPart('description', 'year'),
  'description.card-number': fromPart('description', 'cardNumber'),
  'description.grader': fromPart('description', 'grader'),
  'description.grade': fromPart('description', 'grade'),
  'description.certificate': fromPart('description', 'certificate'),
  'description.encapsulation': fromPart('description', 'encapsulation'),
  'description.reprint': fromPart('description', 'reprint'),
  'label.year': fromLabel('year'),
  'label.card-number': fromLabel('cardNumber'),
  'label.grader': fromLabel('grader'),
  'label.grade': fromLabel('grade'),
  'label.certificate': fromLabel('certificate'),
  'barcode.certificate': (known) => {
    // Only digits alone are a number; an address in a QR code is not taken apart.
    const digits = known.examined
      .flatMap((photo) => photo.barcodes.map((code) => code.text))
      .find((text) => /^\d{5,14}$/.test(text))
    return digits === undefined ? NOTHING : stated(digits, known, 'says_barcode', { words: digits })
  },

  'listing.sale-format': fromListing(({ facts }) => facts.listing.saleFormat),
  'listing.price-kind': fromListing(({ facts }) => facts.listing.priceKind),
  'listing.returns': (known) => {
    const value = known.facts.listing.returns
    return value === null
      ? NOTHING
      : stated(value, known, value === 'refused' ? 'says_returns_refused' : 'says_returns_accepted')
  },
  'listing.returns-days': fromListing(({ facts }) => facts.listing.returnsDays, 'says_returns_days'),
  'listing.sold': fromListing(({ facts }) => facts.listing.sold),
  'listing.description-length': fromListing(({ facts }) => facts.listing.description?.trim().length ?? 0),
  'seller.feedback-count': fromListing(
    ({ facts }) => facts.listing.seller?.feedbackCount ?? null,
    'says_feedback_count',
  ),
  'seller.feedback-percent': fromListing(
    ({ facts }) => facts.listing.seller?.feedbackPercent ?? null,
    'says_feedback_percent',
  ),
  'seller.member-days': (known) => {
    const since = known.facts.listing.seller?.memberSince
    const days = daysBetween(since, known.facts.now)
    return days === null ? NOTHING : stated(days, known, 'says_member_since', { date: since ?? '' })
  },

  'worth.basis': ({ worth }) => ({ value: worth?.basis ?? null, evidence: [] }),
  'worth.to-limit': (known) => {
    const { worth, book, issue } = known
    if (worth === null || worth.toLimit === null) return NOTHING
    return stated(worth.toLimit, known, `says_worth_${worth.basis.replace(/-/g, '_')}`, {
      worth: showMoney(worth.money, known.language),
      limit: showMoney(book.limits.highValue, known.language),
      count: worth.sales,
      issue: issue?.name ?? '',
    })
  },
  'worth.risky-issue': (known) => {
    const { issue } = known
    return issue === null ? NOTHING : stated(issue.id, known, 'says_risky_issue', { issue: issue.name })
  },
  'worth.copies-known': (known) => {
    const { issue } = known
    if (issue === null) return NOTHING
    return stated(issue.copies.length > 0, known, 'says_copies', { issue: issue.name, copies: issue.copies.join('; ') })
  },
  'price.to-worth': (known) => {
    const { worth, facts } = known
    if (!worth || worth.priceToWorth === null || facts.listing.price === null) return NOTHING
    return stated(worth.priceToWorth, known, 'says_price_to_worth', {
      price: showMoney(facts.listing.price, known.language),
      worth: showMoney(worth.money, known.language),
      percent: Math.round(worth.priceToWorth * 100),
    })
  },
  'valuation.ask-to-centre': (known) => {
    const { valuation } = known.facts
    if (!valuation?.ask || valuation.centre === null || valuation.level === null || valuation.level === 'similar')
      return NOTHING
    return stated(valuation.ask.ratioToCentre, known, 'says_ask_to_centre', {
      ask: showMoney({ amount: valuation.ask.amount, currency: valuation.currency }, known.language),
      centre: showMoney({ amount: valuation.centre, currency: valuation.currency }, known.language),
      percent: Math.round(valuation.ask.ratioToCentre * 100),
      count: valuation.n,
    })
  },

  'valuation.thin': (known) => {
    const { valuation } = known.facts
    // Of merely similar cards there may be many sales; of this card there is none.
    if (!valuation || valuation.level === null || valuation.level === 'similar') return NOTHING
    return stated(valuation.thin, known, 'says_thin', { count: valuation.n })
  },
  'valuation.only-excluded-sellers': (known) => {
    const { valuation } = known.facts
    if (!valuation) return NOTHING
    const { n, excluded } = valuation
    const only = n === 0 && excluded.length > 0 && excluded.every(({ reason }) => reason?.code === SELLER_EXCLUDED)
    return stated(only, known, 'says_excluded_sellers', { count: excluded.length })
  },
  'valuation.yearly-loss': (known) => {
    const { valuation } = known.facts
    if (!valuation?.trend) return NOTHING
    const { perYear, high } = valuation.trend
    const percent = (share: number) => Math.round(share * -100)
    return stated(-high, known, 'says_yearly_loss', { percent: percent(perYear), least: percent(high) })
  },

  'photos.count': fromListing(({ photoCount }) => photoCount, 'says_photos'),
  'photos.different': fromListing(({ differentPhotos }) => differentPhotos, 'says_different'),
  'photos.examined': count(({ examined }) => examined.length),
  'photos.largest-edge': (known) => {
    const edges = known.examined
      .map((photo) => Math.max(photo.width ?? 0, photo.height ?? 0))
      .filter((edge) => edge > 0)
    if (edges.length === 0 || edges.length < known.photoCount) return NOTHING
    return stated(Math.max(...edges), known, 'says_largest_edge', { value: Math.max(...edges) })
  },
  'photos.blurred-share': (known) => {
    const { examined, photoCount } = known
    if (examined.length === 0 || examined.length < photoCount) return NOTHING
    const blurred = examined.filter((photo) => photo.problems.some(({ problem }) => problem === 'blurred')).length
    return stated(blurred / examined.length, known, 'says_blurred', { value: blurred, of: examined.length })
  },
  'photos.holder-kind': (known) => {
    const kind = known.examined.find((photo) => photo.holderKind !== null)?.holderKind ?? null
    return kind === null
      ? NOTHING
      : stated(kind, known, 'says_holder_kind', { value: known.translate(`holder_${kind.replace(/-/g, '_')}`) })
  },
  'photos.repeated': (known) => {
    const hashes = known.examined.map((photo) => photo.sha256).filter((hash) => hash !== null)
    const repeated = hashes.length - new Set(hashes).size
    return {
      value: repeated,
      evidence: repeated > 0 ? [say(known.translate, 'says_repeated', { count: repeated })] : [],
    }
  },
  'photos.label-legible': (known) => {
    const onHolder = known.examined.filter((photo) => photo.view === 'label' || photo.view === 'holder-front')
    if (onHolder.length === 0) return NOTHING
    const legible = bestLabel(onHolder) !== null
    return {
      value: legible,
      evidence: legible ? [] : [say(known.translate, 'says_label_not_legible', { count: onHolder.length })],
    }
  },
  'photos.file-problem': (known) => {
    const broken = known.facts.photos.filter((photo) =>
      photo.problems.some(({ problem }) => problem === 'damaged' || problem === 'not-an-image'),
    )
    return {
      value: broken.length > 0,
      evidence: broken.map((photo) => say(known.translate, 'says_file_problem', { photo: photo.file })),
    }
  },

  'traces.photo-other-seller': fromTraces(
    'says_trace_photo',
    (t, k) => t.kind === 'same-photo' && otherSeller(t, k) === true,
  ),
  'traces.photo-same-seller': fromTraces(
    'says_trace_photo',
    (t, k) => t.kind === 'same-photo' && otherSeller(t, k) === false,
  ),
  'traces.certificate-other-seller': fromTraces(
    'says_trace_certificate',
    (t, k) => t.kind === 'same-certificate' && otherSeller(t, k) === true,
  ),
  'traces.certificate-same-seller': fromTraces(
    'says_trace_certificate',
    (t, k) => t.kind === 'same-certificate' && otherSeller(t, k) === false,
  ),
  'traces.text-other-seller': fromTraces(
    'says_trace_text',
    (t, k) => t.kind === 'same-text' && otherSeller(t, k) === true,
  ),
  'traces.seller-ended-badly': fromTraces(
    'says_trace_seller',
    (t) => t.kind === 'same-seller' && t.outcome !== null && BAD_ENDS.has(t.outcome),
  ),
  'traces.seller-ended-well': fromTraces(
    'says_trace_seller',
    (t) => t.kind === 'same-seller' && t.outcome === 'genuine',
  ),

  'text.invisible': disguised('invisible'),
  'text.direction-override': disguised('bidi'),
  'text.look-alike-letters': disguised('mixed-script'),
  'text.styled-letters': disguised('styled-letters'),
  'text.spaced-letters': disguised('spaced-letters'),
}

/** What to say where a fact is unknown and a rule asks for just that. */
export function sayUnknown(translate: Translate, fact: FactId): Evidence {
  return say(translate, 'says_not_stated', { fact: translate(`fact_${factKey(fact)}`) })
}
