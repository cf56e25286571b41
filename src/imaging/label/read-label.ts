/**
 * A grading label out of a photo: its lines, and by their form grader, grade and certificate number. The number counts only where
 * three readings at three scales agree digit for digit and every digit is likely enough. What is doubtful is `null`.
 */
import type { Point } from '../../domain/photo-facts.ts'
import type { Corners } from '../homography.ts'
import type { LabelReading, ReadLabel } from '../label-reader.ts'
import type { Pixels } from '../pixels.ts'
import { cornersOfWhole, cutOut } from './cut-out.ts'
import { findTextLines, type TextBox } from './find-text-lines.ts'
import { LEAST_LABEL_WIDTH_PX } from './label-limits.ts'
import { locateLabel, toMultipleOf32 } from './locate-label.ts'
import { carriesFigures, findCertificate, findGrade, findGrader, type PlacedLine } from './parse-label.ts'
import { readTextLine } from './read-text-line.ts'
import type { TextModels } from './text-models.ts'

/** Lowest probability of a digit for which a number counts; the same measurement. */
const LEAST_DIGIT_CERTAINTY = 0.7
// Below so many pixels a wrong number was agreed on at .88 by all three readings: there every digit must be beyond doubt.
const NARROW_BELOW_PX = 320
const LEAST_DIGIT_CERTAINTY_NARROW = 0.95
// Pixels: the widths at which a label is laid flat and read.
const READING_WIDTHS = [832, 640, 1024] as const
// A line with less is noise, a pattern or a barcode.
const LEAST_LINE_CONFIDENCE = 0.5
// Letters of a company count as seldom wrong as digits.
const LEAST_LETTER_CERTAINTY = 0.8
// Width over height: labels are about 2.5 to 5 times as wide as high, holders higher than wide. Common practice, no source.
const LEAST_LABEL_ASPECT = 1.7
// The outline given may cut a little off.
const MARGIN = 0.02

export function createLabelReader(models: TextModels): ReadLabel {
  return async (pixels, where, signal) => {
    const given = where === null ? cornersOfWhole(pixels) : where.corners
    const isLabel = where !== null && aspectOf(given) >= LEAST_LABEL_ASPECT
    const label = isLabel ? given : await locateLabel(pixels, given, models, signal)
    if (label === null) return null
    return readAt(pixels, label, models, signal)
  }
}

const apart = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1])
const widthOf = ([a, b, c, d]: Corners) => (apart(a, b) + apart(d, c)) / 2
const heightOf = ([a, b, c, d]: Corners) => (apart(a, d) + apart(b, c)) / 2
const aspectOf = (corners: Corners) => widthOf(corners) / Math.max(1, heightOf(corners))

async function readAt(
  pixels: Pixels,
  label: Corners,
  models: TextModels,
  signal?: AbortSignal,
): Promise<LabelReading | null> {
  const widthPx = Math.round(widthOf(label))
  const nothing: LabelReading = {
    lines: [],
    grader: null,
    grade: null,
    certificate: null,
    confidence: 0,
    widthPx,
    where: label,
  }
  if (widthPx < LEAST_LABEL_WIDTH_PX) return nothing
  const outline = widen(label)
  const readings: PlacedLine[][] = []
  for (const width of READING_WIDTHS) {
    signal?.throwIfAborted()
    readings.push(await readOnce(pixels, outline, width, models, readings[0] ?? null, signal))
  }
  const best = readings[0]!.filter((line) => line.confidence >= LEAST_LINE_CONFIDENCE)
  if (best.length === 0) return nothing
  const characters = best.reduce((sum, { text }) => sum + text.length, 0)
  return {
    lines: best.map(({ text }) => spaceYear(text)),
    grader: agree(
      readings.map((lines) => findGrader(lines, LEAST_LETTER_CERTAINTY)),
      2,
    ),
    grade: agree(readings.map(findGrade), 2),
    certificate: agreedCertificate(readings, widthPx),
    confidence: best.reduce((sum, { confidence, text }) => sum + confidence * text.length, 0) / characters,
    widthPx,
    where: label,
  }
}

async function readOnce(
  pixels: Pixels,
  outline: Corners,
  width: number,
  models: TextModels,
  before: readonly PlacedLine[] | null,
  signal?: AbortSignal,
): Promise<PlacedLine[]> {
  const flat = cutOut(pixels, outline, width, toMultipleOf32(width / aspectOf(outline)))
  if (!flat) return []
  const lines: PlacedLine[] = []
  for (const box of await findTextLines(flat, models)) {
    signal?.throwIfAborted()
    const place = placeOn(flat, box)
    if (before !== null && !mattersAgain(place, before)) continue
    const line = await readTextLine(flat, box.corners, models)
    if (line.text !== '') lines.push({ ...line, ...place })
  }
  return lines
}

/** What was read once as plain words need not be read again; numbers, grades, letters and what was not seen before must. */
function mattersAgain(place: Place, before: readonly PlacedLine[]): boolean {
  const same = before.filter(
    (line) =>
      Math.min(line.right, place.right) - Math.max(line.left, place.left) > (place.right - place.left) * 0.6 &&
      Math.min(line.bottom, place.bottom) - Math.max(line.top, place.top) > (place.bottom - place.top) * 0.6,
  )
  return same.length === 0 || same.some((line) => carriesFigures(line))
}

type Place = Pick<PlacedLine, 'left' | 'right' | 'top' | 'bottom'>

function placeOn({ width, height }: Pixels, { corners }: TextBox): Place {
  const x = corners.map((corner) => corner[0] / width)
  const y = corners.map((corner) => corner[1] / height)
  return { left: Math.min(...x), right: Math.max(...x), top: Math.min(...y), bottom: Math.max(...y) }
}

/** Recognition drops the space behind a year that begins a line, which then is no year any more. */
function spaceYear(text: string): string {
  return text.replace(/^((?:18|19|20)\d\d(?:[-/]\d\d)?)(?=\p{Lu}{2})/u, '$1 ')
}

/** What at least so many readings say and none denies. */
function agree(values: readonly (string | null)[], least: number): string | null {
  const said = values.filter((value) => value !== null)
  return said.length >= least && new Set(said).size === 1 ? said[0]! : null
}

function agreedCertificate(readings: readonly PlacedLine[][], widthPx: number): string | null {
  const least = widthPx < NARROW_BELOW_PX ? LEAST_DIGIT_CERTAINTY_NARROW : LEAST_DIGIT_CERTAINTY
  const found = readings.map(findCertificate)
  if (found.some((number) => number === null || number.certainty < least)) return null
  return agree(
    found.map((number) => number!.value),
    READING_WIDTHS.length,
  )
}

function widen(corners: Corners): Corners {
  const x = corners.reduce((sum, corner) => sum + corner[0], 0) / 4
  const y = corners.reduce((sum, corner) => sum + corner[1], 0) / 4
  return corners.map(
    (corner): Point => [x + (corner[0] - x) * (1 + MARGIN), y + (corner[1] - y) * (1 + MARGIN)],
  ) as unknown as Corners
}
