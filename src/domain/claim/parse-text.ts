/**
 * All that one text says, as partial claim with the words behind each field. A title, one card of a list and a description go
 * through the same finders; `running` text gets the stricter ones, since everyday words abound in it.
 */
import type { Claim, HolderKind } from '../claim.ts'
import type { Grader } from '../grader-book.ts'
import { type FoundCertificate, findCertificates } from './find-certificates.ts'
import { findGrades } from './find-grades.ts'
import { findNames, isInnerForm } from './find-names.ts'
import { type FoundNumber, findNumbers } from './find-numbers.ts'
import { findReprint } from './find-reprint.ts'
import {
  type Finding,
  findEncapsulation,
  findHolder,
  findMark,
  findObject,
  findVariation,
  isElsewhere,
  isOfOthers,
  type ObjectSigns,
} from './find-state.ts'
import { findYears } from './find-years.ts'
import type { FoundGrade } from './found-grade.ts'
import { isAlone, isUnpronounceable } from './grader-evidence.ts'
import { isJoined, type Reading, type Span } from './reading.ts'

/** A value with its place; the place is `null` where no single run of words stands for it. */
export interface Said<T> {
  readonly value: T
  readonly reading: Reading
  readonly span: Span
}

export interface Sayings {
  readonly year: Said<string> | null
  readonly cardNumber: Said<string> | null
  readonly subject: Said<string> | null
  readonly set: Said<string> | null
  readonly variation: Said<string> | null
  readonly serial: Said<NonNullable<Claim['serial']>> | null
  readonly encapsulation: Said<'raw' | 'encapsulated' | 'unclear'> | null
  readonly grader: Said<string> | null
  readonly grade: Said<string> | null
  readonly qualifier: Said<string> | null
  readonly certificate: Said<string | null> | null
  readonly holderKind: Said<HolderKind> | null
  readonly reprint: Said<Claim['reprint']> | null
  readonly autograph: Said<boolean> | null
  readonly relic: Said<boolean> | null
  readonly rookie: Said<boolean> | null
  readonly lot: Said<true> | null
  readonly sealed: Said<true> | null
  readonly digital: Said<true> | null
  readonly other: Said<true> | null
  /** All card numbers that stand in the text with a sign or label. */
  readonly numbers: readonly Said<string>[]
}

export interface TextOptions {
  readonly graders: readonly Grader[]
  /** Running text: a description. */
  readonly running: boolean
}

export function parseText(reading: Reading, { graders, running }: TextOptions): Sayings {
  const say = <T>(value: T, span: Span): Said<T> => ({ value, reading, span })
  const sayFinding = <T>(finding: Finding<T> | null): Said<T> | null =>
    finding === null ? null : say(finding.value, finding)
  const sayTrue = (span: Span | null): Said<true> | null => (span === null ? null : say(true as const, span))

  const grades = findGrades(reading, graders, running).filter((found) =>
    running ? isBornOut(reading, found) : !isOfOthers(reading, found),
  )
  const given = running && areSeveral(grades) ? null : pickGrade(grades)
  const signs = findEncapsulation(reading, running)
  const years = findYears(reading, running)
  const year = pickYear(years, running)
  const autograph = findMark(reading, 'autograph')
  const relic = findMark(reading, 'relic')
  const rookie = findMark(reading, 'rookie')
  const variation = running ? null : findVariation(reading)
  const objects = findObject(reading, running)

  const taken = new Set<number>()
  const take = (span: Span | null): void => {
    if (span !== null) for (let index = span.first; index <= span.last; index += 1) taken.add(index)
  }
  for (const found of grades) take(found)
  for (const found of years) take(found)
  const certificate = pickCertificate(findCertificates(reading, given?.known ?? null))
  take(certificate)
  const { numbers, serials, ranges } = findNumbers(reading, {
    year: year === null ? null : Number(/[0-9]{4}/.exec(year.value)?.[0] ?? Number.NaN) || null,
    taken,
    modern: autograph?.value === true || relic?.value === true || variation !== null,
  })
  const isLot = objects.lot !== null || ranges.length > 0
  const number =
    pickNumber(numbers, running, isLot) ?? (running || isLot ? null : findBareNumber(reading, year, numbers, taken))
  const serial = serials[0] ?? null
  const encapsulation = judgeEncapsulation(signs, grades, given)
  const names = running
    ? { set: null, subject: null }
    : namesOf(reading, { grades, years, year, number, numbers, serials, certificate, objects })
  const textOf = (span: Span): string =>
    reading.text.original.slice(reading.tokens[span.first]?.start ?? 0, reading.tokens[span.last]?.end ?? 0)
  const listed = numbers.filter(({ quality }) => quality === 3)
  const several = !running && new Set(listed.map(({ value }) => value)).size > 1 ? (listed[0] ?? null) : null
  const lot = objects.lot ?? ranges[0] ?? several
  const isOpen = encapsulation?.value === 'raw' || (encapsulation?.value === 'unclear' && given?.grader != null)
  const grade = given !== null && !isOpen ? given : null

  return {
    year: year === null ? null : say(year.value, year),
    cardNumber: number === null ? null : say(number.value, number),
    subject: names.subject === null ? null : say(textOf(names.subject), names.subject),
    set: names.set === null ? null : say(textOf(names.set), names.set),
    variation: sayFinding(variation),
    serial: serial === null ? null : say({ number: serial.number, of: serial.of }, serial),
    encapsulation: encapsulation === null ? null : say(encapsulation.value, encapsulation),
    grader: grade?.grader && grade.graderSpan ? say(grade.grader, grade.graderSpan) : null,
    grade: grade?.grade && grade.gradeSpan ? say(grade.grade, grade.gradeSpan) : null,
    qualifier: grade?.qualifier && grade.qualifierSpan ? say(grade.qualifier, grade.qualifierSpan) : null,
    certificate: certificate === null ? null : say(certificate.value, certificate),
    holderKind: sayFinding(findHolder(reading)),
    reprint: sayFinding(findReprint(reading, running)),
    autograph: sayFinding(autograph),
    relic: sayFinding(relic),
    rookie: sayFinding(rookie),
    lot: sayTrue(lot),
    sealed: sayTrue(objects.sealed),
    digital: sayTrue(objects.digital),
    other: sayTrue(objects.other),
    numbers: numbers.filter(({ quality }) => quality === 3).map((found) => say(found.value, found)),
  }
}

/** In running text a grader by form alone needs a word of grading in its sentence. */
function isBornOut(reading: Reading, found: FoundGrade): boolean {
  if (isElsewhere(reading, found.first)) return false
  if (found.grader === null)
    return reading.endingAt('encapsulation:encapsulated', found.first) !== null || found.last - found.first >= 1
  if (found.known !== null || found.evident || found.hypothetical) return true
  if (isUnpronounceable(found.grader) && isAlone(reading, found)) return true
  return (
    isUnpronounceable(found.grader) &&
    ['encapsulation:encapsulated', 'label:grade-label', 'label:certificate'].some((list) =>
      reading.hasInSentence(list, found.first),
    )
  )
}

/** Running text that names several grades compares or advertises. */
function areSeveral(grades: readonly FoundGrade[]): boolean {
  const pairs = grades.filter((found) => !found.hypothetical && found.grader !== null && found.grade !== null)
  return new Set(pairs.map(({ grader, grade }) => `${grader} ${grade}`)).size > 1
}

/** Of the grades that were really given: one by a grader of the book, else one with a grader, else one without. */
function pickGrade(grades: readonly FoundGrade[]): FoundGrade | null {
  const given = grades.filter((found) => !found.hypothetical)
  const complete = (found: FoundGrade): number =>
    (found.known !== null ? 4 : 0) + (found.grader !== null ? 2 : 0) + (found.grade !== null ? 1 : 0)
  const best = [...given].sort((a, b) => complete(b) - complete(a) || a.first - b.first)[0]
  if (best === undefined) return null
  if (best.grade !== null) return best
  // "ABC graded … Grade: 9": the grader in one place, the grade in another.
  const nameless = given.filter((found) => found.grader === null && found.grade !== null)
  const grade = nameless.length === 1 ? nameless[0] : undefined
  return grade === undefined
    ? best
    : {
        ...best,
        grade: grade.grade,
        gradeSpan: grade.gradeSpan,
        qualifier: grade.qualifier,
        qualifierSpan: grade.qualifierSpan,
      }
}

function judgeEncapsulation(
  signs: { encapsulated: Span | null; raw: Span | null },
  grades: readonly FoundGrade[],
  given: FoundGrade | null,
): Finding<'raw' | 'encapsulated' | 'unclear'> | null {
  const wished = grades.find((found) => found.hypothetical) ?? null
  const sealed = (given?.grader != null ? given : null) ?? signs.encapsulated
  if (sealed !== null && signs.raw === null) return { value: 'encapsulated', first: sealed.first, last: sealed.last }
  if (sealed !== null && signs.raw !== null) return { value: 'unclear', first: signs.raw.first, last: signs.raw.last }
  const raw = signs.raw ?? wished
  return raw === null ? null : { value: 'raw', first: raw.first, last: raw.last }
}

function pickYear(years: ReturnType<typeof findYears>, running: boolean): ReturnType<typeof findYears>[number] | null {
  const own = years.filter((found) => !found.ofReprint)
  const candidates = own.length > 0 ? own : years
  const first = candidates[0]
  if (first === undefined) return null
  const distinct = new Set(candidates.map(({ value }) => value))
  if (distinct.size === 1) return first
  // A span and its own first year are one; else the year that opens a title is the card's, and running text leaves it open.
  if (candidates.every(({ value }) => value.slice(0, 4) === first.value.slice(0, 4)))
    return candidates.find(({ value }) => value.length > 4) ?? first
  return !running && first.first <= 1 ? first : null
}

/** Of a lot only a number by its sign or label: a fraction counts its cards. */
function pickNumber(numbers: readonly FoundNumber[], running: boolean, isLot: boolean): FoundNumber | null {
  for (const quality of running || isLot ? [3] : [3, 2, 1]) {
    const candidates = numbers.filter((found) => found.quality === quality)
    const distinct = new Set(candidates.map(({ value }) => value))
    if (distinct.size === 1) return candidates[0] ?? null
    if (distinct.size > 1) return null
  }
  return null
}

/**
 * YEAR SET 14 SUBJECT: a bare number between capitalised words behind the year, the only one of its kind. Longest way from the year:
 * six words of a set (ours).
 */
function findBareNumber(
  reading: Reading,
  year: Span | null,
  numbers: readonly FoundNumber[],
  taken: ReadonlySet<number>,
): FoundNumber | null {
  if (year === null || numbers.length > 0 || year.first > 1) return null
  const explained = namesTaken(reading)
  const isName = (index: number): boolean =>
    !taken.has(index) &&
    !explained.has(index) &&
    /^\p{Lu}[\p{L}'’.-]+$/u.test(reading.raw(index)) &&
    isJoined(reading, index)
  const found: FoundNumber[] = []
  for (let index = year.last + 2; index <= year.last + 7; index += 1) {
    const token = reading.tokens[index]
    if (token === undefined) break
    if (!/^[1-9][0-9]{0,2}$/.test(token.form) || taken.has(index) || token.separator !== ' ') continue
    const before = index - 1
    const isSetBefore =
      isName(before) ||
      reading.endingAt('set:series-end', before) !== null ||
      reading.endingAt('set:maker-end', before) !== null
    if (!isSetBefore || !isName(index + 1) || !isName(index + 2)) continue
    if (
      reading.startingAt('label:count-noun', index + 1) !== null ||
      (reading.endingAt('label:other-number', before) !== null && reading.endingAt('set:series-end', before) === null)
    )
      continue
    found.push({ first: index, last: index, value: token.form, quality: 1 })
  }
  return found.length === 1 ? (found[0] ?? null) : null
}

function pickCertificate(found: readonly FoundCertificate[]): FoundCertificate | null {
  const values = new Set(found.filter(({ value }) => value !== null).map(({ value }) => value))
  if (values.size > 1) return null
  return found.find(({ value }) => value !== null) ?? found[0] ?? null
}

interface Explained {
  readonly grades: readonly FoundGrade[]
  readonly years: readonly Span[]
  readonly year: Span | null
  readonly number: FoundNumber | null
  readonly numbers: readonly Span[]
  readonly serials: readonly Span[]
  readonly certificate: Span | null
  readonly objects: ObjectSigns
}

/** Vocabulary that is no part of a name. */
const NO_NAMES = [
  ['mark:autograph', 'mark:autograph-no', 'mark:relic', 'mark:relic-no', 'mark:rookie', 'mark:rookie-no'],
  ['reprint:stated', 'reprint:ambiguous', 'reprint:patch', 'reprint:none'],
  ['object:lot', 'object:lot-no', 'object:sealed-product', 'object:digital'],
  ['variation:variation'],
  [
    'encapsulation:encapsulated',
    'encapsulation:raw',
    'encapsulation:ready',
    'encapsulation:cracked',
    'encapsulation:hypothetical-before',
    'encapsulation:hypothetical-after',
  ],
  [
    'holder:screw-down',
    'holder:one-touch',
    'holder:toploader',
    'holder:semi-rigid',
    'holder:sleeve',
    'holder:shipping',
  ],
  [
    'label:certificate',
    'label:serial',
    'label:serial-of',
    'label:condition',
    'label:centering',
    'label:grade-label',
    'label:other-number',
  ],
  ['set:noise'],
  ['grade'],
]

function namesOf(reading: Reading, explained: Explained): { set: Span | null; subject: Span | null } {
  const taken = namesTaken(reading)
  const take = (span: Span | null): void => {
    if (span !== null) for (let index = span.first; index <= span.last; index += 1) taken.add(index)
  }
  for (const span of [...explained.grades, ...explained.years, ...explained.numbers, ...explained.serials]) take(span)
  take(explained.certificate)
  const labelled = explained.number === null ? null : withLabel(reading, explained.number)
  take(labelled)
  return findNames(reading, { taken, year: explained.year, number: labelled })
}

/** Tokens that the vocabulary explains and that are no part of a name. */
function namesTaken(reading: Reading): Set<number> {
  const taken = new Set<number>()
  const take = (span: Span): void => {
    for (let index = span.first; index <= span.last; index += 1) taken.add(index)
  }
  for (const lists of NO_NAMES)
    for (const match of reading.pick(...lists)) {
      // Small inner words ("the", "of", "like a") belong to names too.
      if (match.id.startsWith('label:') && reading.startingAt('set:series-end', match.first) !== null) continue
      if (match.first === match.last && isInnerForm(reading.tokens[match.first]?.form ?? '')) continue
      if (match.id.startsWith('set:noise') && reading.startingAt('set:series-end', match.first) !== null) continue
      take(match)
    }
  return taken
}

function withLabel(reading: Reading, number: Span): Span {
  const label =
    reading.endingAt('label:card-number', number.first - 1) ?? reading.endingAt('label:card-noun', number.first - 1)
  return label === null ? number : { first: label.first, last: number.last }
}
