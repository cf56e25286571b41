/**
 * What the words say about the thing itself: raw or encapsulated, holder, autograph, relic, rookie, variation, lot, sealed
 * product, digital item. Each finding keeps its words; negation, hedge and mere mention are taken into account here.
 */
import type { HolderKind } from '../claim.ts'
import type { Match } from '../text/match-phrases.ts'
import type { ScopedMatch } from '../text/scope.ts'
import { beginsWithin, endsWithin, isJoined, type Reading, type Span } from './reading.ts'

export interface Finding<T> extends Span {
  readonly value: T
}

export interface EncapsulationSigns {
  readonly encapsulated: Span | null
  readonly raw: Span | null
}

/** @param running in running text a sentence about other cards or about sales says nothing of this one. */
export function findEncapsulation(reading: Reading, running: boolean): EncapsulationSigns {
  let encapsulated: Span | null = null
  let raw: Span | null = null
  for (const match of reading.scoped(
    'encapsulation:encapsulated',
    'encapsulation:raw',
    'encapsulation:ready',
    'encapsulation:cracked',
  )) {
    if (running ? isElsewhere(reading, match.first) : isOfOthers(reading, match)) continue
    if (match.id === 'encapsulation:encapsulated') {
      if (match.mentioned || match.question) continue
      const wished =
        reading.endingAt('encapsulation:hypothetical-before', match.first - 1) !== null &&
        isJoined(reading, match.first)
      const self =
        /^(self|seller|low|mid|high|under|over|when|if|once|being|getting|were|be|get|gets|higher|lower)$/.test(
          reading.tokens[match.first - 1]?.form ?? '',
        )
      // A far negation denies something else ("no creases, graded"); "not graded" has phrases of its own.
      if (match.negated) raw ??= isTurnedClosely(reading, match, 'negation') ? match : null
      else if (
        !wished &&
        !self &&
        !(match.hedged && isTurnedClosely(reading, match, 'hedge')) &&
        !isCracked(reading, match)
      )
        encapsulated ??= match
    } else if (match.id === 'encapsulation:raw') {
      if (
        !(match.negated && isTurnedClosely(reading, match, 'negation')) &&
        !match.mentioned &&
        isCardRaw(reading, match)
      )
        raw ??= match
    } else if (!match.negated || !isTurnedClosely(reading, match, 'negation')) raw ??= match
  }
  return { encapsulated, raw }
}

/** Tokens around a word in which a reprint word with its doubt may stand; ours. */
const HEDGE_REACH = 8

/** "possible reprint, signed": the doubt beside the reprint word is about that. */
function isHedgeOfReprint(reading: Reading, match: ScopedMatch): boolean {
  const reprints: Match[] = []
  for (let index = match.first - HEDGE_REACH; index <= match.last + HEDGE_REACH; index += 1) {
    const reprint = reading.startingAt('reprint:stated', index)
    if (reprint !== null) reprints.push(reprint)
  }
  return match.cues.some(
    (cue) =>
      cue.role.startsWith('hedge') &&
      reprints.some((reprint) => Math.abs(reprint.start - cue.end) <= 3 || Math.abs(cue.start - reprint.end) <= 1),
  )
}

/** Whether the sentence speaks of other cards, of sales or of a shop. */
export function isElsewhere(reading: Reading, index: number): boolean {
  return reading.hasInSentence('encapsulation:elsewhere', index) || reading.hasInSentence('encapsulation:others', index)
}

/** Tokens before and behind a grade in a title within which words of other cards speak of it; ours. */
const OTHERS_BEFORE = 6
const OTHERS_AFTER = 3

/** "comparable ones in KVX 8 cost 400" at the end of a title, which is one sentence: only the words around count. */
export function isOfOthers(reading: Reading, span: Span): boolean {
  return (
    endsWithin(reading, 'encapsulation:others', span.first, OTHERS_BEFORE) ||
    beginsWithin(reading, 'encapsulation:others', span.last, OTHERS_AFTER)
  )
}

/** "cracked out of a … slab": the slab that it was in. */
function isCracked(reading: Reading, match: Span): boolean {
  return endsWithin(reading, 'encapsulation:cracked', match.first, CRACKED_REACH)
}
/** Tokens between "cracked out" and the slab; ours, a grader and a grade fit. */
const CRACKED_REACH = 8

/** Words that may stand between a "not" or "possibly" and what it is about. */
const LIGHT =
  /^(a|an|the|un|une|una|uno|ein|eine|einen|einer|true|real|his|her|its|su|sa|son|est|es|e|ist|any|be|been|hand|of|d|de|en|yet|kind|actual|original|personally)$/

/** Whether the cue that turns a phrase stands right before it, light words apart, or answers it. */
function isTurnedClosely(reading: Reading, match: ScopedMatch, turn: 'negation' | 'hedge'): boolean {
  return match.cues.some((cue) => {
    if (turn === 'negation' && cue.role === 'answer-no') return true
    if (!cue.role.startsWith(turn)) return false
    if (cue.role.endsWith('-after')) return true
    let index = match.first - 1
    while (
      index >= 0 &&
      (reading.tokens[index]?.start ?? 0) >= cue.end &&
      LIGHT.test(reading.tokens[index]?.form ?? '')
    )
      index -= 1
    return (reading.tokens[index]?.start ?? 0) < cue.end
  })
}

/** "no grade creases", "without grading fees": the words go on to something else. Ours. */
function isCardRaw(reading: Reading, match: ScopedMatch): boolean {
  const next = reading.tokens[match.last + 1]?.form ?? ''
  return !(
    isJoined(reading, match.last + 1) &&
    /^(edge|edges|power|material|materials|scan|scans|photo|photos|image|images|file|files|deal|food|silk|wood|fees|fee)$/.test(
      next,
    )
  )
}

const HOLDER_LISTS = ['holder:screw-down', 'holder:one-touch', 'holder:toploader', 'holder:semi-rigid', 'holder:sleeve']
/** The outermost holder is what the card is looked at through. */
const OUTERMOST: readonly HolderKind[] = ['screw-down', 'one-touch', 'toploader', 'semi-rigid', 'sleeve']

export function findHolder(reading: Reading): Finding<HolderKind> | null {
  let best: Finding<HolderKind> | null = null
  for (const match of reading.scoped(...HOLDER_LISTS)) {
    if (match.negated || match.mentioned) continue
    if (
      endsWithin(reading, 'holder:shipping', match.first, SHIPPING_REACH) ||
      beginsWithin(reading, 'holder:shipping', match.last, SHIPPING_REACH)
    )
      continue
    const value = match.id.slice('holder:'.length) as HolderKind
    if (best === null || OUTERMOST.indexOf(value) < OUTERMOST.indexOf(best.value))
      best = { value, first: match.first, last: match.last }
  }
  return best
}

/** Tokens of one clause between a holder and a word of shipping; ours, above any sentence that was meant to be read. */
const SHIPPING_REACH = 25

export type Mark = 'autograph' | 'relic' | 'rookie'

export function findMark(reading: Reading, mark: Mark): Finding<boolean> | null {
  let stated: Finding<boolean> | null = null
  let denied: Finding<boolean> | null = null
  for (const match of reading.scoped(`mark:${mark}`, `mark:${mark}-no`, `mark:${mark}-mute`)) {
    const span = { first: match.first, last: match.last }
    if (match.id.endsWith('-no')) denied ??= { ...span, value: false }
    if (match.id.endsWith('-mute') || match.id.endsWith('-no') || match.mentioned || match.question) continue
    if (match.hedged && isTurnedClosely(reading, match, 'hedge') && !isHedgeOfReprint(reading, match)) continue
    if (match.negated) {
      if (isTurnedClosely(reading, match, 'negation')) denied ??= { ...span, value: false }
      else stated ??= { ...span, value: true }
    } else if (isMark(reading, match)) stated ??= { ...span, value: true }
  }
  return denied ?? stated
}

/** "auto" is a car in four of five languages, "patch" and "signature" are everyday words: they count in company only. */
function isMark(reading: Reading, match: ScopedMatch): boolean {
  const { phrase } = match
  if (match.first !== match.last) return true
  const raw = reading.raw(match.first)
  if (phrase === 'rc' || phrase === 'gu' || phrase === 'xrc') return raw === raw.toUpperCase()
  if (phrase !== 'auto' && phrase !== 'autos' && phrase !== 'patch' && phrase !== 'patches' && phrase !== 'signature')
    return true
  const company = hasCompany(reading, match)
  if (phrase === 'auto' || phrase === 'autos')
    return company || raw === 'AUTO' || (reading.field === 'title' && raw === 'Auto')
  return company
}

/** Whether other words of a modern card stand anywhere in the text. */
function hasCompany(reading: Reading, match: ScopedMatch): boolean {
  const other = (list: string): boolean => {
    const found = reading.pick(list)
    return found.length > 1 || (found[0] !== undefined && found[0].first !== match.first)
  }
  let modern = modernTexts.get(reading)
  if (modern === undefined) {
    const { original } = reading.text
    modern = /\/\s?\d/.test(original) || /\b[A-Z]{2,5}[ /](?:10|[1-9])\b/.test(original)
    modernTexts.set(reading, modern)
  }
  return (
    modern ||
    reading.pick('mark:rookie').length > 0 ||
    other('mark:relic') ||
    other('mark:autograph') ||
    reading.pick('variation:variation').length > 0 ||
    reading.pick('label:serial', 'label:serial-of').length > 0
  )
}
/** A fraction or letters before a grade stand in the text; looked for once a text. */
const modernTexts = new WeakMap<Reading, boolean>()

export function findVariation(reading: Reading): Finding<string> | null {
  const parts: ScopedMatch[] = []
  for (const match of reading.scoped('variation:variation', 'variation:variation-no')) {
    if (match.id.endsWith('-no') || match.negated || match.mentioned || match.hedged || match.question) continue
    const raw = reading.raw(match.first)
    if (/^(sp|ssp)$/.test(match.phrase) && raw !== raw.toUpperCase()) continue
    parts.push(match)
  }
  const first = parts[0]
  if (first === undefined) return null
  let last = first
  // "Gold Foil Parallel": words that touch are one variation.
  for (const part of parts.slice(1)) {
    if (part.first !== last.last + 1 || !isJoined(reading, part.first)) break
    last = part
  }
  const start = reading.tokens[first.first]?.start ?? 0
  const end = reading.tokens[last.last]?.end ?? start
  return { value: reading.text.original.slice(start, end), first: first.first, last: last.last }
}

export interface ObjectSigns {
  readonly lot: Span | null
  readonly sealed: Span | null
  readonly digital: Span | null
  /** A wrapper, an empty box or album. */
  readonly other: Span | null
}

/** @param strict in running text "lot", "choice" and "collection" are everyday words: only a counted lot counts there. */
export function findObject(reading: Reading, strict: boolean): ObjectSigns {
  let lot: Span | null = null
  for (const match of reading.scoped('object:lot', 'object:lot-no')) {
    const counted =
      /^a lot of$/.test(match.phrase) &&
      reading.startingAt('label:count-noun', match.last + 2) !== null &&
      isCounted(reading, match)
    if ((match.id === 'object:lot-no' && !counted) || match.negated || match.mentioned) continue
    if (isLotNumber(reading, match) || isSetOfCard(reading, match)) continue
    if (strict && !isCounted(reading, match) && !STRICT_LOT.test(match.phrase)) continue
    lot ??= match
  }
  lot ??= findCount(reading, strict)
  const find = (name: 'sealed-product' | 'digital'): Span | null =>
    reading
      .scoped(`object:${name}`, `object:${name}-no`)
      .find((match) => !match.id.endsWith('-no') && !match.negated && !match.mentioned && !match.question) ?? null
  const sealedAnywhere = find('sealed-product')
  // What running text is about, it says first; later a box may be where the card came from.
  const sealed =
    strict &&
    sealedAnywhere !== null &&
    (reading.tokens[sealedAnywhere.first]?.sentence !== 0 || isElsewhere(reading, sealedAnywhere.first))
      ? null
      : sealedAnywhere
  const digital = find('digital')
  const other = strict
    ? null
    : (reading.scoped('object:other').find((match) => !match.negated && !match.mentioned && !match.question) ?? null)
  return {
    lot,
    sealed,
    other,
    digital:
      digital !== null &&
      strict &&
      !/(card|karte|carte|carta|cromo|figurina|nft)/.test(
        reading.text.original
          .slice(reading.tokens[digital.first]?.start, reading.tokens[digital.last]?.end)
          .toLowerCase(),
      )
        ? null
        : digital,
  }
}

const STRICT_LOT =
  /^(pick your cards?|you pick|u pick|you choose|choose your card|konvolut|karten zur auswahl|cartes au choix|cartas a elegir|cromos a elegir|figurine a scelta|carte a scelta)$/

/** `Lot 45:`, `Los 12`, `Lot #7`: an auction's number. */
function isLotNumber(reading: Reading, match: ScopedMatch): boolean {
  if (!/^(lot|lots|lote|lotto|los)$/.test(match.phrase)) return false
  const next = reading.tokens[match.last + 1]
  if (next === undefined || !/^[0-9]+[a-z]?$/.test(next.form)) return false
  if (/\(/.test(next.separator)) return false
  if (/#/.test(next.separator)) return true
  return reading.startingAt('label:count-noun', match.last + 2) === null && match.first === 0
}

/** "#14, set of 48": the size of the set that the numbered card is from. */
function isSetOfCard(reading: Reading, match: ScopedMatch): boolean {
  return match.phrase === 'set of' && isCounted(reading, match) && /#\s?[0-9]/.test(reading.text.original)
}

function isCounted(reading: Reading, match: ScopedMatch): boolean {
  return /^[0-9]{1,4}$/.test(reading.tokens[match.last + 1]?.form ?? '')
}

/** "you will receive all 25 cards": in running text a count of cards behind words of offering. */
function findOffered(reading: Reading): Span | null {
  for (const offer of reading.pick('object:offer')) {
    if (reading.hasInSentence('encapsulation:elsewhere', offer.first)) continue
    const at = offer.last + 1
    const isNumber = /^(?:[2-9]|[1-9][0-9]{1,3})$/.test(reading.tokens[at]?.form ?? '')
    if (!isJoined(reading, at) || (!isNumber && reading.startingAt('object:count-word', at) === null)) continue
    for (let noun = at + 1; noun <= at + 3 && isJoined(reading, noun); noun += 1) {
      const { form } = reading.tokens[noun] ?? { form: '' }
      if (CARD_NOUN.test(form) && form !== 'card') return { first: at, last: noun }
    }
  }
  return null
}

const CARD_NOUN =
  /^(cards?|karten|cartes|cromos|cartas|carte|figurine|figurines|sammelbilder|sammelkarten|bilder|vignettes|images|tarjetas|stuck|stk|pcs|pieces|stuecke)$/

/** "12 cards", "2x", "x3": more than one. */
function findCount(reading: Reading, strict: boolean): Span | null {
  if (strict) return findOffered(reading)
  // "(5) 1958 Tidal League cards", "12 x …": a count that opens the title.
  const [count, after] = reading.tokens
  if (count !== undefined && after !== undefined && /^(?:[2-9]|[1-9][0-9])$/.test(count.form)) {
    const isTimes = after.form === 'x' && /^\p{L}/u.test(reading.tokens[2]?.form ?? '')
    const isBracketed = /\($/.test(count.separator) && /^\)/.test(after.separator)
    if (isTimes || (isBracketed && reading.tokens.some(({ form }) => CARD_NOUN.test(form) && form !== 'card')))
      return { first: 0, last: 0 }
  }
  for (let index = 0; index < reading.tokens.length; index += 1) {
    const token = reading.tokens[index]
    if (token === undefined) continue
    if (/^(?:[2-9]|[1-9][0-9]{1,2})x$/.test(token.form) || /^x(?:[2-9]|[1-9][0-9])$/.test(token.form))
      return { first: index, last: index }
    if (!/^(?:[2-9]|[1-9][0-9]{1,3})$/.test(token.form) || /^(1[89]|20)[0-9]{2}$/.test(token.form)) continue
    if (!isJoined(reading, index + 1)) continue
    let noun = index + 1
    for (
      let skipped = 0;
      skipped < 3 && !CARD_NOUN.test(reading.tokens[noun]?.form ?? '') && isJoined(reading, noun + 1);
      skipped += 1
    )
      noun += 1
    const form = reading.tokens[noun]?.form ?? ''
    if (!CARD_NOUN.test(form) || form === 'card' || (form === 'carte' && reading.tokens[index]?.form === '1')) continue
    if (/[#/]/.test(token.separator) || reading.endingAt('label:card-number', index - 1) !== null) continue
    // "set of 48 cards" of which one is offered: behind "from", "of", "aus", "de la serie de".
    if (/^(of|from|aus|von|over|only|the|other)$/.test(reading.tokens[index - 1]?.form ?? '')) continue
    if (
      noun > index + 1 &&
      !reading.tokens
        .slice(index + 1, noun)
        .every((word) =>
          /^(different|diff|assorted|vintage|old|original|rare|skerryball|gum|tobacco|trading|sports?|verschiedene|alte|original|anciennes|differentes|different|diferentes|diverse|vecchie|antiguos|varios)$/.test(
            word.form,
          ),
        )
    )
      continue
    return { first: index, last: noun }
  }
  return null
}
