/**
 * Item specifics: each name says which field its value fills, and the value is read as that field and nothing else. A value that
 * does not read as its field stays unread; one that says "does not apply" is none.
 */
import type { Claim } from '../claim.ts'
import type { Grader } from '../grader-book.ts'
import { foldText } from '../text/normalise-text.ts'
import { findReprint } from './find-reprint.ts'
import { findHolder, findObject } from './find-state.ts'
import { parseText, type Said, type Sayings } from './parse-text.ts'
import { type Reading, readText } from './reading.ts'
import { foldKey, type KeyField, type Vocabulary } from './vocabulary.ts'

type Writable = { -readonly [K in keyof Sayings]?: Sayings[K] }

const NO_ANSWER =
  /^(?:n ?a|none|no|nein|non|not applicable|does not apply|unknown|unbekannt|inconnu|desconocido|sconosciuto|na|keine|keine angabe|nicht zutreffend|see (?:photo|photos|description|pictures?)|siehe (?:bild|fotos?|beschreibung)|other|sonstige|autre|otro|altro|unspecified|no aplica|non applicabile|sans objet|aucun|ninguno|nessuno)?$/
const YES = /^(?:yes|ja|oui|si|true|y|j|wahr)$/
const NO = /^(?:no|nein|non|not|false|n|nicht|none|keine|kein|aucun|ninguno|nessuno)$/

export function parseSpecifics(
  specifics: Readonly<Record<string, string>>,
  graders: readonly Grader[],
  vocabulary: Vocabulary,
): Partial<Sayings> {
  const said: Writable = {}
  for (const [name, value] of Object.entries(specifics)) {
    // "Bewertet (Grading)": without what stands in brackets.
    const fields = vocabulary.keys.get(foldKey(name)) ?? vocabulary.keys.get(foldKey(name.replace(/[([].*$/, '')))
    if (fields === undefined || value.trim() === '') continue
    const reading = readText(`specifics.${name}`, value, vocabulary)
    if (reading.tokens.length === 0) continue
    const folded = foldKey(value)
    for (const field of fields) readField(field, reading, folded, graders, said)
  }
  return said
}

/** Fields whose first statement stands; a second specific of the same field adds only what is missing. */
function put<K extends keyof Sayings>(said: Writable, key: K, value: Sayings[K]): void {
  if (value !== null && (said[key] === undefined || said[key] === null)) said[key] = value
}

function readField(
  field: KeyField,
  reading: Reading,
  folded: string,
  graders: readonly Grader[],
  said: Writable,
): void {
  const whole = { first: 0, last: reading.tokens.length - 1 }
  const say = <T>(value: T): Said<T> => ({ value, reading, span: whole })
  const plain = reading.text.original.trim()
  const empty = NO_ANSWER.test(folded)
  const parsed = (): Sayings => parseText(reading, { graders, running: false })
  switch (field) {
    case 'year': {
      put(said, 'year', parsed().year)
      return
    }
    case 'card-number': {
      if (empty) return
      const written =
        /^(?:#|no\.?|nr\.?|n[°º.]?|num\.?|№)?\s*((?:[A-Za-z]{1,5}-?)?[0-9]{1,4}[A-Za-z]?|[A-Z]{1,4}-[A-Z]{1,4}[0-9]{0,4})(?:\s?(?:\/|of|von|sur|de|di)\s?[0-9]{1,4})?$/i.exec(
          plain,
        )?.[1]
      if (written !== undefined) put(said, 'cardNumber', say(written))
      return
    }
    case 'subject': {
      if (!empty && plain.length <= 80 && /\p{L}/u.test(plain)) put(said, 'subject', say(plain))
      return
    }
    case 'set': {
      if (!empty && plain.length <= 120 && !/^[0-9\s-]+$/.test(plain)) put(said, 'set', say(plain))
      return
    }
    case 'variation': {
      if (!empty && !/^(?:base|base set|basis|standard|normal|regular)$/.test(folded) && plain.length <= 80)
        put(said, 'variation', say(plain))
      return
    }
    case 'grader': {
      readGrader(reading, plain, empty, graders, said)
      return
    }
    case 'grade': {
      readGrade(reading, plain, folded, empty, graders, said)
      return
    }
    case 'graded': {
      readGraded(reading, folded, said)
      return
    }
    case 'certificate': {
      readCertificate(reading, plain, empty, said)
      return
    }
    case 'reprint': {
      readReprint(reading, folded, said)
      return
    }
    case 'autograph':
    case 'relic':
    case 'rookie': {
      readMark(field, reading, folded, said)
      return
    }
    case 'count': {
      const count = /^([0-9]{1,5})\b/.exec(plain)?.[1]
      if (count !== undefined && Number(count) > 1) put(said, 'lot', say(true as const))
      return
    }
    case 'serial': {
      const fraction = /^#?\s*(?:([0-9]{1,4})\s?)?\/\s?([0-9]{1,4})$/.exec(plain)
      if (fraction?.[2] !== undefined)
        put(
          said,
          'serial',
          say({ number: fraction[1] === undefined ? null : Number(fraction[1]), of: Number(fraction[2]) }),
        )
      else if (/^[1-9][0-9]{0,3}$/.test(plain)) put(said, 'serial', say({ number: null, of: Number(plain) }))
      return
    }
    case 'holder': {
      const holder = findHolder(reading)
      if (holder !== null) put(said, 'holderKind', { value: holder.value, reading, span: holder })
      return
    }
    case 'object': {
      const objects = findObject(reading, false)
      if (objects.lot !== null) put(said, 'lot', { value: true, reading, span: objects.lot })
      if (objects.sealed !== null) put(said, 'sealed', { value: true, reading, span: objects.sealed })
      if (objects.digital !== null) put(said, 'digital', { value: true, reading, span: objects.digital })
      return
    }
    case 'maker':
      return
  }
}

function readGrader(reading: Reading, plain: string, empty: boolean, graders: readonly Grader[], said: Writable): void {
  const whole = { first: 0, last: reading.tokens.length - 1 }
  const folded = foldText(plain)
  if (
    empty ||
    /^(?:ungraded|raw|ungegradet|not graded|nicht gegradet|sin gradear|non gradee|non gradata)$/.test(folded)
  ) {
    if (!empty) put(said, 'encapsulation', { value: 'raw', reading, span: whole })
    return
  }
  const known = graders.find((grader) =>
    [grader.name, ...grader.abbreviations].some((name) => foldText(name) === folded),
  )
  const bracketed = /\(([A-Z]{2,5})\)$/.exec(plain)?.[1] ?? /^([A-Z]{2,5})\s?[(–-]/.exec(plain)?.[1]
  const byName = graders.find(
    (grader) => folded.includes(foldText(grader.name)) || grader.abbreviations.some((name) => name === bracketed),
  )
  const grader = known ?? byName
  const abbreviation =
    grader?.abbreviations[0]?.toUpperCase() ?? bracketed ?? (/^[A-Z]{2,5}$/.test(plain) ? plain : null)
  const inner = parseText(reading, { graders, running: false })
  const value = abbreviation ?? inner.grader?.value ?? null
  if (value !== null && !reading.vocabulary.abbreviations.has(value)) {
    put(said, 'grader', { value, reading, span: inner.grader?.span ?? whole })
    put(said, 'encapsulation', { value: 'encapsulated', reading, span: whole })
    put(said, 'grade', inner.grade)
  } else if (
    plain.length <= 60 &&
    /\p{L}/u.test(plain) &&
    abbreviation === null &&
    !/^(?:self|seller|me|owner|privat|private)/.test(folded)
  ) {
    // A name that is no abbreviation and not in the book: as written.
    put(said, 'grader', { value: plain, reading, span: whole })
    put(said, 'encapsulation', { value: 'encapsulated', reading, span: whole })
  }
}

function readGrade(
  reading: Reading,
  plain: string,
  folded: string,
  empty: boolean,
  graders: readonly Grader[],
  said: Writable,
): void {
  const whole = { first: 0, last: reading.tokens.length - 1 }
  if (
    /^(?:ungraded|raw|not graded|ungegradet|nicht gegradet|sin gradear|non gradee|non gradata|no grade)$/.test(folded)
  ) {
    put(said, 'encapsulation', { value: 'raw', reading, span: whole })
    return
  }
  if (empty) return
  const inner = parseText(reading, { graders, running: false })
  if (inner.grader !== null) {
    put(said, 'grader', inner.grader)
    put(said, 'encapsulation', { value: 'encapsulated', reading, span: whole })
  }
  if (inner.grade !== null) put(said, 'grade', inner.grade)
  if (inner.qualifier !== null) put(said, 'qualifier', inner.qualifier)
  if (inner.grade !== null || inner.encapsulation?.value === 'raw') return
  const number = /(?:^|[\s(])(10|[1-9])(?:[.,]([05]))?(?:\s|$|\)|\()/.exec(plain)
  if (number !== null && !/[/%]/.test(plain) && !/\d{3}/.test(plain)) {
    const value = number[2] === '5' ? `${number[1]}.5` : (number[1] ?? '')
    put(said, 'grade', { value, reading, span: whole })
    const bracket = /\(([A-Z]{1,3})\)\s*$/.exec(plain)?.[1]
    if (bracket !== undefined) put(said, 'qualifier', { value: bracket, reading, span: whole })
  } else if (reading.pick('label:altered').length > 0) put(said, 'grade', { value: 'altered', reading, span: whole })
  else if (reading.pick('label:authentic').length > 0) put(said, 'grade', { value: 'authentic', reading, span: whole })
}

function readGraded(reading: Reading, folded: string, said: Writable): void {
  const span = { first: 0, last: reading.tokens.length - 1 }
  if (YES.test(folded)) put(said, 'encapsulation', { value: 'encapsulated', reading, span })
  else if (NO.test(folded)) put(said, 'encapsulation', { value: 'raw', reading, span })
  else {
    const inner = parseText(reading, { graders: [], running: false })
    if (inner.encapsulation !== null && inner.encapsulation.value !== 'unclear')
      put(said, 'encapsulation', inner.encapsulation)
  }
}

function readCertificate(reading: Reading, plain: string, empty: boolean, said: Writable): void {
  if (empty) return
  const span = { first: 0, last: reading.tokens.length - 1 }
  const digits = plain.replace(/[^0-9]/g, '').length
  if (/[xX*•●█_?]{2,}|\.{3}|…/.test(plain) && digits >= 2) put(said, 'certificate', { value: null, reading, span })
  else {
    const value = /^(?:#|no\.?|nr\.?|n[°º.]?)?\s*([A-Z]{0,4}-?[0-9][0-9 -]{2,18}[A-Z]?)$/i
      .exec(plain)?.[1]
      ?.replace(/\s+/g, '')
    if (value !== undefined && digits >= 4) put(said, 'certificate', { value, reading, span })
  }
}

const REPRINT_VALUES: readonly (readonly [RegExp, Claim['reprint']])[] = [
  [
    /^(?:original|originale|originals?|authentic|authentisch|authentique|autentico|autentica|genuine|echt|yes original|originalkarte|originaldruck|oryginal)$/,
    'no',
  ],
]

function readReprint(reading: Reading, folded: string, said: Writable): void {
  const span = { first: 0, last: reading.tokens.length - 1 }
  const isAboutReprint = /reprint|nachdruck|reimpres|reimpression|ristampa|reproduc|reproduk/.test(
    foldText(reading.field),
  )
  const isPair = /original/.test(foldText(reading.field))
  for (const [pattern, value] of REPRINT_VALUES)
    if (pattern.test(folded)) {
      put(said, 'reprint', { value, reading, span })
      return
    }
  if (YES.test(folded) && !isPair && isAboutReprint) put(said, 'reprint', { value: 'stated', reading, span })
  else if (NO.test(folded)) put(said, 'reprint', { value: isPair && !isAboutReprint ? 'stated' : 'no', reading, span })
  else if (!YES.test(folded)) {
    const found = findReprint(reading)
    if (found !== null) put(said, 'reprint', { value: found.value, reading, span: found })
  }
}

function readMark(mark: 'autograph' | 'relic' | 'rookie', reading: Reading, folded: string, said: Writable): void {
  const span = { first: 0, last: reading.tokens.length - 1 }
  if (YES.test(folded)) put(said, mark, { value: true, reading, span })
  else if (NO.test(folded)) put(said, mark, { value: false, reading, span })
  else put(said, mark, parseText(reading, { graders: [], running: false })[mark])
}
