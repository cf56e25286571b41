/**
 * Title, item specifics and description together → Claim, each field with the quoted words behind it. The title says what is
 * offered, specifics fill what it leaves open, the description what both leave open; a disguise, a hedge or a reprint word counts
 * wherever it stands. Contradictions between the parts are for the rules: they read each part alone.
 */
import type { Claim, HolderKind, Quote } from '../claim.ts'
import type { Grader } from '../grader-book.ts'
import type { NormalisedText } from '../text/normalise-text.ts'
import { findLinkedCertificate } from './find-certificates.ts'
import { parseSpecifics } from './parse-specifics.ts'
import { parseText, type Said, type Sayings } from './parse-text.ts'
import { quoteOf, readText } from './reading.ts'
import { splitCards, splitTitle } from './split-cards.ts'
import type { Vocabulary } from './vocabulary.ts'

export interface ClaimWords {
  readonly title: string | null
  readonly specifics: Readonly<Record<string, string>>
  readonly description: string | null
  /** Targets of links on the page, absolute. */
  readonly links?: readonly string[]
}

export interface ClaimKnowledge {
  readonly graders: readonly Grader[]
  readonly vocabulary: Vocabulary
}

/** Longest title that is read, in UTF-16 units; marketplaces allow a few hundred. Ours. */
const LONGEST_TITLE = 10_000

export interface ClaimReading {
  /** At least one; several where the words offer several cards. */
  readonly claims: readonly Claim[]
  /** What each part says by itself, for rules that hold one against another; `null` where it is empty. */
  readonly parts: { readonly title: Claim | null; readonly specifics: Claim | null; readonly description: Claim | null }
  /** Title and description as they were read, so that nobody reads them twice. */
  readonly texts: { readonly title: NormalisedText | null; readonly description: NormalisedText | null }
}

/** At least one claim; several where the words offer several cards. Never throws on any text. */
export function parseClaims(words: ClaimWords, knowledge: ClaimKnowledge): Claim[] {
  return [...readClaims(words, knowledge).claims]
}

/** As `parseClaims`, with what each part says alone. */
export function readClaims(words: ClaimWords, knowledge: ClaimKnowledge): ClaimReading {
  const { graders, vocabulary } = knowledge
  const title =
    words.title === null || words.title.trim() === ''
      ? null
      : readText('title', words.title.slice(0, LONGEST_TITLE), vocabulary)
  const description =
    words.description === null || words.description.trim() === ''
      ? null
      : readText('description', words.description, vocabulary, { running: true })
  const inTitle = title === null ? null : parseText(title, { graders, running: false })
  const inSpecifics = parseSpecifics(words.specifics, graders, vocabulary)
  const inDescription = description === null ? null : parseText(description, { graders, running: true })
  const parts = [inTitle, inSpecifics, inDescription].filter((part) => part !== null)
  const linked = findLinkedCertificate(words.links ?? [], graders)
  const whole = joinParts(parts, linked)
  const split = splitCards(description, whole.multiple, { graders, vocabulary })
  const inTitleEach = split === null ? splitTitle(title, inTitle, { graders, vocabulary }) : null
  const ofAll = [inTitle, inSpecifics, split?.rest ?? null].filter((part) => part !== null)
  return {
    claims:
      split !== null
        ? split.cards.map((card) => joinParts([card, ...ofAll], null, true))
        : inTitleEach !== null
          ? inTitleEach.map((card) => joinParts([card, { ...inTitle, subject: null }, ...parts.slice(1)], linked, true))
          : [whole],
    parts: {
      title: inTitle === null ? null : joinParts([inTitle], null),
      specifics: Object.keys(words.specifics).length === 0 ? null : joinParts([inSpecifics], null),
      description: inDescription === null ? null : joinParts([inDescription], null),
    },
    texts: { title: title?.text ?? null, description: description?.text ?? null },
  }
}

function joinParts(
  parts: readonly Partial<Sayings>[],
  linked: { value: string; link: string } | null,
  several = false,
): Claim {
  const quotes: Record<string, Quote> = {}
  const first = <K extends keyof Sayings>(key: K): NonNullable<Sayings[K]> | null => {
    for (const part of parts) {
      const said = part[key]
      if (said !== null && said !== undefined) return said as NonNullable<Sayings[K]>
    }
    return null
  }
  const take = <T>(field: string, said: Said<T> | null): T | null => {
    if (said === null) return null
    quotes[field] = quoteOf(said.reading, said.span)
    return said.value
  }
  const encapsulation = first('encapsulation')
  const isRaw = encapsulation?.value === 'raw'
  const grader = isRaw ? null : first('grader')
  const grade = isRaw ? null : pickOwn(parts, 'grade', grader)
  const certificate = first('certificate')
  const reprint = worstReprint(parts)
  const lot = first('lot')
  const sealed = first('sealed')
  const digital = first('digital')
  const other = first('other')
  const holder = first('holderKind')
  const graded = grader !== null && encapsulation === null ? grader : null
  const kind: HolderKind | null =
    take('holderKind', holder) ?? (encapsulation?.value === 'encapsulated' || graded !== null ? 'sealed' : null)
  const state = take('encapsulation', encapsulation ?? graded)
  if (kind === 'sealed' && quotes.encapsulation !== undefined) quotes.holderKind = quotes.encapsulation
  let certified = take('certificate', certificate)
  if (certificate === null && linked !== null && !isRaw) {
    certified = linked.value
    const start = linked.link.lastIndexOf(linked.value)
    quotes.certificate = { quote: linked.value, field: 'links', start, end: start + linked.value.length }
  }
  const multiple = several || lot !== null
  if (lot !== null) take('multiple', lot)
  return {
    year: take('year', first('year')),
    cardNumber: take('cardNumber', first('cardNumber')),
    subject: take('subject', preferSpecifics(parts, 'subject')),
    set: take('set', preferSpecifics(parts, 'set')),
    variation: take('variation', first('variation')),
    serial: take('serial', first('serial')),
    encapsulation:
      // A box or pack is neither raw nor encapsulated, whatever is said of the cards inside.
      sealed !== null && grader === null
        ? 'unclear'
        : encapsulationOf(state, graded !== null, holder?.value ?? null, quotes),
    grader: take('grader', grader),
    grade: take('grade', grade),
    qualifier: take('qualifier', isRaw ? null : pickOwn(parts, 'qualifier', grader)),
    certificate: certified,
    certificateHidden: certificate !== null && certificate.value === null,
    holderKind: kind,
    reprint: take('reprint', reprint) ?? 'no',
    multiple,
    autograph: take('autograph', first('autograph')),
    relic: take('relic', first('relic')),
    rookie: take('rookie', first('rookie')),
    object: take('object', digital)
      ? 'digital'
      : take('object', sealed)
        ? 'sealed-product'
        : take('object', other)
          ? 'other'
          : take('object', lot) || several
            ? 'lot'
            : 'card',
    quotes,
  }
}

/** Said of the holder where nothing is said of grading: what can be opened by hand seals nothing. */
function encapsulationOf(
  state: Claim['encapsulation'] | string | null,
  graded: boolean,
  holder: HolderKind | null,
  quotes: Record<string, Quote>,
): Claim['encapsulation'] {
  if (graded) return 'encapsulated'
  if (state === 'raw' || state === 'encapsulated' || state === 'unclear') return state
  if (holder !== null && holder !== 'sealed') {
    if (quotes.holderKind !== undefined) quotes.encapsulation = quotes.holderKind
    return 'raw'
  }
  return 'unclear'
}

/** The grade by the text that names the grader, else the first grade said anywhere. */
function pickOwn<K extends 'grade' | 'qualifier'>(
  parts: readonly Partial<Sayings>[],
  key: K,
  grader: Said<string> | null,
): Said<string> | null {
  const own = parts.find((part) => part.grader === grader && grader !== null)
  const value = own?.[key]
  if (value !== null && value !== undefined) return value
  for (const part of parts) {
    const said = part[key]
    if (said !== null && said !== undefined) return said
  }
  return null
}

/** Specifics name the subject and the set outright; a title has to be cut. */
function preferSpecifics(parts: readonly Partial<Sayings>[], key: 'subject' | 'set'): Said<string> | null {
  let best: Said<string> | null = null
  for (const part of parts) {
    const said = part[key]
    if (said === null || said === undefined) continue
    if (said.reading.field.startsWith('specifics.')) return said
    best ??= said
  }
  return best
}

const WORST: readonly Claim['reprint'][] = ['no', 'ambiguous', 'hedged', 'stated']

function worstReprint(parts: readonly Partial<Sayings>[]): Said<Claim['reprint']> | null {
  let worst: Said<Claim['reprint']> | null = null
  for (const { reprint } of parts)
    if (
      reprint !== null &&
      reprint !== undefined &&
      (worst === null || WORST.indexOf(reprint.value) > WORST.indexOf(worst.value))
    )
      worst = reprint
  return worst
}
