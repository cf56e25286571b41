/**
 * Set and subject from a title, in the orders that titles have: YEAR SET #NUMBER SUBJECT, YEAR SET SUBJECT #NUMBER with a set
 * that its own last word marks, and parts set off by dashes. Where a title can be cut in more than one way, both stay `null`.
 */
import { GAP } from '../text/normalise-text.ts'
import { quoteOf, type Reading, type Span } from './reading.ts'

export interface Names {
  readonly set: Span | null
  readonly subject: Span | null
}

export interface Landmarks {
  /** Tokens that are explained otherwise. */
  readonly taken: ReadonlySet<number>
  readonly year: Span | null
  readonly number: Span | null
}

/** Words inside a name that begin small. */
const INNER =
  /^(of|the|and|a|an|de|la|le|les|des|du|d|l|der|die|das|den|dem|und|von|van|y|e|el|los|las|del|di|della|delle|dei|dello|degli|dell|sul|sulla|da|do|in|im|am|zu|aus|et|au|aux|i|gli|il|lo|per|con|s)$/
const ROMANCE = /^(de|du|des|d|del|della|dello|delle|dei|degli|di)$/
/** Longest names, in words. Ours. */
const LONGEST_SUBJECT = 4
const LONGEST_SET = 8

interface Run extends Span {
  /** What stands before and behind: the year, the number, something else that is explained, or a break of the clause. */
  readonly before: 'year' | 'number' | 'other'
  readonly after: 'year' | 'number' | 'other'
}

export function findNames(reading: Reading, landmarks: Landmarks): Names {
  const runs = findRuns(reading, landmarks)
  const numbered = landmarks.number
  let set: Span | null = null
  let subject: Span | null = null

  // A run whose own words end a series or a maker.
  const marked = runs.map((run) => ({ run, cut: cutSet(reading, run) })).filter(({ cut }) => cut !== null)
  const best = marked[0]
  if (best !== undefined && marked.length === 1 && best.cut !== null) {
    set = best.cut.set
    if (best.cut.rest !== null && isSubject(reading, best.cut.rest) && best.cut.certain) subject = best.cut.rest
    if (best.cut.lead !== null && isSubject(reading, best.cut.lead)) subject = best.cut.lead
  } else if (marked.length > 1) {
    // Maker and series in two parts: the series counts.
    const series = marked.filter(({ cut }) => cut?.series === true)
    if (series.length === 1) set = series[0]?.cut?.set ?? null
  }
  const setRun = best?.run ?? null

  // YEAR SET #NUMBER SUBJECT
  if (numbered !== null) {
    const behind = runs.find((run) => run.before === 'number')
    const ahead = runs.find((run) => run.after === 'number')
    // One word may be anything, unless the set before the number is known.
    const isNamed =
      behind !== undefined &&
      (behind.last > behind.first || (ahead !== undefined && (ahead === setRun || ahead.before === 'year')))
    if (behind !== undefined && isNamed && behind !== setRun && subject === null && isSubject(reading, behind)) {
      subject = behind
      if (set === null && ahead !== undefined && ahead.before === 'year' && isSet(ahead)) set = ahead
    }
    // SUBJECT #NUMBER behind a set of its own part.
    if (subject === null && ahead !== undefined && ahead !== setRun && set !== null && isSubject(reading, ahead))
      subject = ahead
  }
  // Parts set off from each other: one is the set, of the others exactly one can be a subject.
  if (subject === null && set !== null) {
    const candidates = runs.filter(
      (run) => run !== setRun && !overlaps(run, set) && isSubject(reading, run) && run.last > run.first,
    )
    if (candidates.length === 1) subject = candidates[0] ?? null
  }
  return { set, subject }
}

/** Small words that names hold inside, whatever case they are written in. */
export function isInnerForm(form: string): boolean {
  return INNER.test(form)
}

/** A small word inside a name; in a title in capitals it is in capitals too. */
function isInner(reading: Reading, index: number): boolean {
  return INNER.test(reading.tokens[index]?.form ?? '') && (reading.inCapitals || !/^\p{Lu}/u.test(reading.raw(index)))
}

function overlaps(a: Span, b: Span | null): boolean {
  return b !== null && a.first <= b.last && b.first <= a.last
}

function findRuns(reading: Reading, { taken, year, number }: Landmarks): Run[] {
  const { tokens } = reading
  const runs: Run[] = []
  let first = -1
  const isNameWord = (index: number): boolean => {
    const token = tokens[index]
    if (token === undefined || taken.has(index)) return false
    const raw = reading.raw(index)
    if (/[0-9]/.test(raw)) return false
    if (!/^\p{L}/u.test(raw)) return false
    return isInner(reading, index) ? first >= 0 : /^\p{Lu}/u.test(raw)
  }
  const edge = (index: number): Run['before'] => {
    if (year !== null && index >= year.first && index <= year.last) return 'year'
    if (number !== null && index >= number.first && index <= number.last) return 'number'
    return 'other'
  }
  /** A small word or a lone letter at the end belongs to what follows, or to nothing (`L@@K`). */
  const isLoose = (index: number): boolean => {
    const raw = reading.raw(index)
    if (raw.length === 1) return reading.text.original.charAt(tokens[index]?.end ?? 0) !== '.'
    return isInner(reading, index)
  }
  const close = (last: number, next: number): void => {
    if (first < 0) return
    let end = last
    while (end > first && isLoose(end)) end -= 1
    const reachable = (index: number, at: number): boolean =>
      (tokens[Math.max(index, at)]?.gapBefore ?? GAP.sentence) <= GAP.clause
    runs.push({
      first,
      last: end,
      before: first > 0 && reachable(first, first) ? edge(first - 1) : 'other',
      after: next < tokens.length && reachable(next, next) ? edge(next) : 'other',
    })
    first = -1
  }
  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index]
    if (token === undefined) continue
    if (first >= 0 && (token.gapBefore >= GAP.clause || /["“”„«»]/.test(token.separator))) close(index - 1, index)
    if (isNameWord(index)) {
      if (first < 0) first = index
    } else close(index - 1, index)
  }
  close(tokens.length - 1, tokens.length)
  return runs
}

interface Cut {
  readonly set: Span
  /** What stands behind the set in the same run, and before it. */
  readonly rest: Span | null
  readonly lead: Span | null
  /** The set's end is sure: no "of the …" goes on behind its noun. */
  readonly certain: boolean
  readonly series: boolean
}

/** Cuts a run at the word that ends a series ("Stars", "League") or a maker ("Confectionery", "& Sons"). */
function cutSet(reading: Reading, run: Run): Cut | null {
  let series = -1
  let maker = -1
  for (let index = run.first; index <= run.last; index += 1) {
    if (reading.startingAt('set:series-end', index) !== null)
      series = Math.max(series, reading.startingAt('set:series-end', index)?.last ?? index)
    if (reading.startingAt('set:maker-end', index) !== null)
      maker = Math.max(maker, reading.startingAt('set:maker-end', index)?.last ?? index)
  }
  if (series > run.last) series = run.last
  if (series < 0 && maker < 0) return null
  const isSeries = series >= 0 && series > maker
  let end = Math.max(series, maker)
  let first = run.first
  if (isSeries && maker >= run.first && maker < series) first = maker + 1
  // A maker behind the series ("Skerryball Stars Pellwick & Sons"): the series alone.
  if (series >= 0 && maker > series) return null
  let certain = true
  const next = reading.tokens[end + 1]
  if (end < run.last && next !== undefined && isInner(reading, end + 1)) {
    // "Ships of the Cold Coast" goes on for a word or two; where more follow, nothing says where a name begins.
    certain = false
    const words = []
    for (let index = end + 1; index <= run.last; index += 1) if (!isInner(reading, index)) words.push(index)
    if (words.length > 2) return null
    end = run.last
    // In the Romance languages the noun comes first: what stands before it is a name of its own ("… Ligue des Marées").
    if (ROMANCE.test(next.form) && series > first) {
      const lead = { first, last: series - 1 }
      return {
        set: { first: series, last: end },
        rest: null,
        lead: lead.last - lead.first >= 1 ? lead : null,
        certain,
        series: true,
      }
    }
  }
  // Without a year before it, a name may stand at the head of the run ("Odo Marrable Tidal League").
  if (run.before !== 'year' && first === run.first && Math.max(series, maker) - first >= 2) return null
  // "Serie Harbour Ships": the bare noun before the name.
  if (/^(serie|series|set)$/.test(reading.tokens[first]?.form ?? '') && first < end) first += 1
  const set = { first, last: end }
  if (set.last - set.first + 1 > LONGEST_SET) return null
  // One word is a series only with what makes it one before it.
  if (set.last === set.first && run.before !== 'year') return null
  const rest = end < run.last ? { first: end + 1, last: run.last } : null
  return { set, rest, lead: null, certain, series: isSeries }
}

function isSet(run: Run): boolean {
  return run.last - run.first + 1 <= LONGEST_SET
}

/** One to four words, none of them ending a series or a maker. */
function isSubject(reading: Reading, span: Span): boolean {
  const count = span.last - span.first + 1
  if (count > LONGEST_SUBJECT) return false
  for (let index = span.first; index <= span.last; index += 1) {
    if (reading.startingAt('set:maker-end', index) !== null) return false
    if (reading.startingAt('set:series-end', index) !== null) return false
    const raw = reading.raw(index)
    if (!/^[\p{L}\p{M}.'’-]+$/u.test(raw)) return false
  }
  const words = quoteOf(reading, span).quote
  return words.length >= 3 && !/^[A-Z]{1,5}$/.test(words)
}
