/**
 * Whether the words say that the card is a reprint, leave it open, or only talk of one: rhetoric, other printings, reprinted texts, and
 * RP, which is a rookie patch beside the words of one.
 */
import type { Claim } from '../claim.ts'
import { GAP } from '../text/normalise-text.ts'
import type { ScopedMatch } from '../text/scope.ts'
import type { Finding } from './find-state.ts'
import { isJoined, type Reading, type Span } from './reading.ts'

/**
 * From the worst down; `null` where the text says nothing of it.
 * @param running in running text several reprints ("the reprints have a white back") are others', unless "these are" they.
 */
export function findReprint(reading: Reading, running = false): Finding<Claim['reprint']> | null {
  let worst: Finding<Claim['reprint']> | null = null
  const order = ['no', 'ambiguous', 'hedged', 'stated']
  for (const match of reading.scoped(
    'reprint:stated',
    'reprint:plural',
    'reprint:weak',
    'reprint:ambiguous',
    'reprint:patch',
    'reprint:none',
  )) {
    const value = judgeReprint(reading, match, running)
    if (value === null) continue
    if (worst === null || order.indexOf(value) > order.indexOf(worst.value))
      worst = { value, first: match.first, last: match.last }
  }
  return worst
}

function judgeReprint(reading: Reading, match: ScopedMatch, running: boolean): Claim['reprint'] | null {
  if (match.id === 'reprint:none' || match.id === 'reprint:patch') return null
  if (match.mentioned) return null
  if (match.negated) return 'no'
  if (match.id === 'reprint:ambiguous') {
    if (isRookiePatch(reading, match)) return 'no'
    const raw = reading.raw(match.first)
    return reading.field === 'title' || raw === raw.toUpperCase() ? 'ambiguous' : null
  }
  if (isOfAnother(reading, match)) return null
  if (match.hedged || match.question) return match.id === 'reprint:plural' ? null : 'hedged'
  if (isConditional(reading, match)) return null
  if (match.id === 'reprint:plural')
    return isNameOfSet(reading, match) || (running && THESE_ARE.test(reading.tokens[match.first - 1]?.form ?? ''))
      ? 'stated'
      : null
  // A bare "copy" is a receipt's, a book's, a seller's; only what denies or doubts it speaks of the card.
  return match.id === 'reprint:weak' ? null : 'stated'
}

/** Tokens between an "if" and what it puts in question; ours. */
const CONDITION_REACH = 6

/** "if you think it is a reprint, please do not bid" */
function isConditional(reading: Reading, match: Span): boolean {
  for (let at = match.first - 1; at >= 0 && match.first - at <= CONDITION_REACH; at -= 1) {
    if ((reading.tokens[at + 1]?.gapBefore ?? GAP.sentence) >= GAP.clause) return false
    // "si tratta", "se trata": the word for "if" in one language is a pronoun in another.
    if (
      reading.endingAt('reprint:conditional', at) !== null &&
      reading.startingAt('reprint:conditional-no', at) === null
    )
      return true
  }
  return false
}

const THESE_ARE = /^(are|these|all|as|only|modern|sind|sont|son|sono|diese|ces|estas|queste)$/

/** "1989 Pellwick Reprints": written as a name behind another name or a year. */
function isNameOfSet(reading: Reading, match: Span): boolean {
  const before = match.first - 1
  if (before < 0 || reading.inCapitals || !isJoined(reading, match.first)) return false
  const raw = reading.raw(before)
  return /^\p{Lu}/u.test(reading.raw(match.first)) && (/^\p{Lu}\p{L}+$/u.test(raw) || /^(?:19|20)[0-9]{2}$/.test(raw))
}

/** Words of a sentence that tells that a reprint was made; shorter ones are labels. Ours. */
const TELLING = 4
/** Tokens behind "this is the original" within which a reprint word turns it ("the original 1989 reprint"). Ours. */
const TURNED_BY = 4

/** A sentence, or its neighbour, says that this one is the original: the reprint is another. */
function isOfAnother(reading: Reading, match: Span): boolean {
  let sentences = originalSentences.get(reading)
  if (sentences === undefined) {
    sentences = new Set()
    for (const original of reading.pick('reprint:original'))
      if (isOriginal(reading, original)) sentences.add(reading.tokens[original.first]?.sentence ?? 0)
    originalSentences.set(reading, sentences)
  }
  if (sentences.size === 0) return false
  const sentence = reading.tokens[match.first]?.sentence ?? 0
  if (sentences.has(sentence)) return true
  if (!sentences.has(sentence - 1) && !sentences.has(sentence + 1)) return false
  return isTelling(reading, match) && !isAsserted(reading, match)
}
/** Sentences that say so; looked for once a text, however many reprints it names. */
const originalSentences = new WeakMap<Reading, Set<number>>()

function isOriginal(reading: Reading, original: Span): boolean {
  for (let index = original.last + 1; index <= original.last + TURNED_BY && isJoined(reading, index); index += 1)
    if (
      reading.startingAt('reprint:stated', index) !== null ||
      reading.startingAt('reprint:weak', index) !== null ||
      (index === original.last + 1 && ORIGINAL_OTHER.test(reading.tokens[index]?.form ?? ''))
    )
      return false
  return true
}
/** "this is the original box": something else is the original. */
const ORIGINAL_OTHER =
  /^(size|box|packaging|package|photo|picture|scan|owner|case|holder|wrapper|price|listing|foto|bild|verpackung|preis|grosse|taille|prix|emballage|precio|tamano|prezzo|scatola)$/

function isTelling(reading: Reading, match: Span): boolean {
  const sentence = reading.tokens[match.first]?.sentence ?? 0
  const from = reading.tokens[match.first - TELLING]?.sentence === sentence
  const to = reading.tokens[match.last + TELLING]?.sentence === sentence
  const around =
    reading.tokens[match.first - 2]?.sentence === sentence && reading.tokens[match.last + 2]?.sentence === sentence
  return from || to || around
}

/** "this is a reprint", "it is a modern reprint": said of this card. */
function isAsserted(reading: Reading, match: Span): boolean {
  for (let index = match.first - 1; index >= match.first - 3 && isJoined(reading, index + 1); index -= 1)
    if (
      /^(is|s|it|this|ist|est|es|e|are|sind|sont|son|sono|tratta|trata|agit)$/.test(
        reading.tokens[index]?.form ?? '',
      ) &&
      reading.tokens[index - 1]?.form !== 'there'
    )
      return true
  return false
}

/** Print runs that are called small; common practice, no source. */
const SMALL_RUN = 199
/** Serial numbers and rookie patches came up in the nineties [from memory]. */
const FIRST_PATCH_YEAR = 1990

/** RP beside a patch word, a small print run or as a card number of a modern card is a rookie patch, no reprint. */
function isRookiePatch(reading: Reading, match: Span): boolean {
  let signs = patchSigns.get(reading)
  if (signs === undefined) {
    signs = readPatchSigns(reading)
    patchSigns.set(reading, signs)
  }
  if (signs.patch) return true
  // `#RP-TB`: the letters of a card number.
  const next = reading.tokens[match.last + 1]
  const isCode = next?.separator === '-' && /^[a-z0-9]{1,4}$/.test(next.form)
  const isSigned = reading.tokens[match.first]?.separator.endsWith('#') === true
  return isCode && !signs.old && (signs.modern || isSigned)
}
/** Looked for once a text, however often RP stands in it. */
const patchSigns = new WeakMap<Reading, { patch: boolean; modern: boolean; old: boolean }>()

function readPatchSigns(reading: Reading): { patch: boolean; modern: boolean; old: boolean } {
  let modern = false
  let vintage = false
  for (const { form } of reading.tokens) {
    if (form.length !== 4 || !/^(?:18|19|20)[0-9]{2}$/.test(form)) continue
    if (Number(form) >= FIRST_PATCH_YEAR) modern = true
    else vintage = true
  }
  const old = vintage && !modern
  const patch =
    reading.pick('reprint:patch').length > 0 ||
    (!old && reading.pick('reprint:patch-sign').length > 0) ||
    (modern && (reading.pick('reprint:auto-sign').length > 0 || hasSmallRun(reading.text.original)))
  return { patch, modern, old }
}

function hasSmallRun(text: string): boolean {
  for (const run of text.matchAll(/(?<![0-9/])(?:([0-9]{1,3})\s?)?\/\s?([0-9]{1,3})(?![0-9/])/g))
    if (Number(run[2]) <= SMALL_RUN && Number(run[1] ?? 0) <= Number(run[2])) return true
  return false
}
