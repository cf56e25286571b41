/**
 * The same piece, or another copy of the issue? One picture is laid over the other by its print; then the cut outline against the
 * print, fine marks that only one shows, and the course of the cut edges speak. Marks of a holder move against the card between
 * two photos, so that they seldom stand in one place of the print twice; they can make two photos of one piece look different.
 */
import type { SamePiece, SamePieceEvidence } from '../../domain/same-piece.ts'
import { alignPrint } from '../align-print.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import type { QuestionedPhoto } from '../compare-photos.ts'
import type { CardSize } from '../homography.ts'
import { cornersOf, type PlacedPicture, place } from '../placed-picture.ts'
import { registerPhoto } from '../register-photo.ts'
import { findSpecks } from './find-specks.ts'
import { nicksOf, SIDE_NAMES, type SideName, traceCutEdge } from './trace-cut-edge.ts'

/** Under this many px/mm the marks blur into one another. Ours: the bench states its error from 12 on. */
export const LEAST_PX_PER_MM = 10
// Softer than this, specks of two tenths of a millimetre are gone, mm. Ours.
const LARGEST_BLUR_MM = 0.13
const MOST_PLACES = 12

/** Weights: normal models of each mark for one piece and for two, set by hand from a few pairs of the bench. Ours, no source. */
const OFFSET = { sameMm: 0.035, differentMm: 0.2 }
const NICKS = { same: 0.5, sameSd: 0.2, different: 0, differentSd: 0.1 }
const SPECKS = { same: 1.5, different: 12 }
// No single mark decides alone: a found speck may be dust, an offset a bent card. Ours.
const LARGEST_WEIGHT = 6
const CLEAR = 4

export function comparePieces(
  first: readonly QuestionedPhoto[],
  second: readonly QuestionedPhoto[],
  size: CardSize,
): SamePiece {
  let best: SamePiece | null = null
  let nearest: CannotTell = cannotTell('no-card')
  for (const a of first) {
    for (const b of second) {
      const answer = comparePair(a, b, size)
      if ('reason' in answer && 'cause' in answer && !('verdict' in answer)) nearest = answer
      else if (!best || Math.abs((answer as SamePiece).score ?? 0) > Math.abs(best.score ?? 0))
        best = answer as SamePiece
    }
  }
  return best ?? { verdict: 'cannot-tell', support: 'none', evidence: [], score: null, photos: null, ...nearest }
}

function comparePair(a: QuestionedPhoto, b: QuestionedPhoto, size: CardSize): SamePiece | CannotTell {
  if (!a.picture || !b.picture) return cannotTell('no-card')
  const [cornersA, cornersB] = [cornersOf(a.picture, a.corners), cornersOf(b.picture, b.corners)]
  if (!cornersA || !cornersB) return cannotTell('no-card')
  const one = place(a.picture, cornersA.corners, size)
  if (!one) return cannotTell('corners-no-card')
  const registration = registerPhoto(one, b.picture, cornersB.corners, b.corners !== null)
  if (!registration.registered) return registration
  const aligned = alignPrint(one, registration.placed)
  if (!aligned) return cannotTell('other-design')
  const two: PlacedPicture = { ...registration.placed, plane: aligned.plane }
  const middle = [size.widthMm / 2, size.heightMm / 2] as const
  for (const picture of [one, two]) {
    const scale = picture.plane.scaleAt(...middle)
    if (scale < LEAST_PX_PER_MM) {
      return cannotTell('too-coarse', { scale: scale.toFixed(1), needed: String(LEAST_PX_PER_MM) })
    }
    const blur = (picture.blurPx ?? 0) / scale
    if (blur > LARGEST_BLUR_MM) return cannotTell('blurred', { blur: blur.toFixed(2), most: String(LARGEST_BLUR_MM) })
  }
  const evidence = [...compareEdges(one, two, size), compareSpecks(one, two)]
  const score = evidence.reduce((sum, { weight }) => sum + weight, 0)
  const verdict = score > 1 ? 'consistent-with-same' : score < -1 ? 'different' : 'cannot-tell'
  return {
    verdict,
    support: verdict === 'cannot-tell' ? 'none' : Math.abs(score) >= CLEAR ? 'clear' : 'some',
    evidence,
    score: Math.round(100 * score) / 100,
    photos: [a.file, b.file],
    reason: evidence.map(({ mark, value, unit }) => `${mark}: ${value} ${unit}`).join('; '),
    cause: null,
  }
}

const limit = (weight: number) => Math.round(100 * Math.max(-LARGEST_WEIGHT, Math.min(LARGEST_WEIGHT, weight))) / 100
const supportsOf = (weight: number) => (weight > 0.5 ? 'same' : weight < -0.5 ? 'different' : 'neither')

function compareEdges(one: PlacedPicture, two: PlacedPicture, size: CardSize): SamePieceEvidence[] {
  const offsets: { side: SideName; apart: number }[] = []
  const [x, y]: [number[], number[]] = [[], []]
  for (const side of SIDE_NAMES) {
    const [a, b] = [traceCutEdge(one, side), traceCutEdge(two, side)]
    if (!a || !b) continue
    const both: number[] = []
    for (let k = 0; k < a.length; k++) if (!Number.isNaN(a[k]! + b[k]!)) both.push(b[k]! - a[k]!)
    if (both.length < a.length / 2) continue
    both.sort((p, q) => p - q)
    offsets.push({ side, apart: both[both.length >> 1]! })
    const [na, nb] = [nicksOf(a), nicksOf(b)]
    for (let k = 0; k < na.length; k++) {
      if (Number.isNaN(na[k]! + nb[k]!)) continue
      x.push(na[k]!)
      y.push(nb[k]!)
    }
  }
  const evidence: SamePieceEvidence[] = []
  if (offsets.length >= 3) {
    const rms = Math.sqrt(offsets.reduce((sum, { apart }) => sum + apart ** 2, 0) / offsets.length)
    // Two variances, as many degrees as sides: ln of the ratio of the two densities.
    const n = offsets.length
    const weight = limit(
      n * Math.log(OFFSET.differentMm / OFFSET.sameMm) -
        (n * rms * rms * (OFFSET.sameMm ** -2 - OFFSET.differentMm ** -2)) / 2,
    )
    evidence.push({
      mark: 'offset',
      value: Math.round(1000 * rms) / 1000,
      unit: 'mm',
      weight,
      supports: supportsOf(weight),
      places: offsets.map(({ side }) => bandOf(side, size)),
    })
  }
  if (x.length >= 200) {
    const r = correlation(x, y)
    const density = (mean: number, sd: number) => -(((r - mean) / sd) ** 2) / 2 - Math.log(sd)
    const weight = limit(density(NICKS.same, NICKS.sameSd) - density(NICKS.different, NICKS.differentSd))
    evidence.push({
      mark: 'nicks',
      value: Math.round(100 * r) / 100,
      unit: 'correlation',
      // A low correlation may be two soft photos; it does not speak for two pieces as a high one speaks for one.
      weight: Math.max(-2, r > NICKS.same ? Math.max(weight, 2) : weight),
      supports: supportsOf(weight),
      places: offsets.map(({ side }) => bandOf(side, size)),
    })
  }
  return evidence
}

function bandOf(side: SideName, { widthMm, heightMm }: CardSize) {
  const deep = 2
  if (side === 'left') return { x: 0, y: 0, width: deep, height: heightMm }
  if (side === 'right') return { x: widthMm - deep, y: 0, width: deep, height: heightMm }
  if (side === 'top') return { x: 0, y: 0, width: widthMm, height: deep }
  return { x: 0, y: heightMm - deep, width: widthMm, height: deep }
}

function compareSpecks(one: PlacedPicture, two: PlacedPicture): SamePieceEvidence {
  const specks = findSpecks(one, two)
  const n = specks.length
  // Poisson counts of two rates.
  const weight = limit(n * Math.log(SPECKS.same / SPECKS.different) + SPECKS.different - SPECKS.same)
  return {
    mark: 'specks',
    value: n,
    unit: 'specks',
    // None unmatched may be a clean pair of copies: it speaks less for one piece than many speak for two.
    weight: Math.min(1.5, weight),
    supports: supportsOf(Math.min(1.5, weight)),
    places: specks
      .slice(0, MOST_PLACES)
      .map(({ x, y, size }) => ({ x: x - size, y: y - size, width: 2 * size, height: 2 * size })),
  }
}

function correlation(x: readonly number[], y: readonly number[]): number {
  const mean = (list: readonly number[]) => list.reduce((a, b) => a + b, 0) / list.length
  const [mx, my] = [mean(x), mean(y)]
  let [xy, xx, yy] = [0, 0, 0]
  for (let i = 0; i < x.length; i++) {
    xy += (x[i]! - mx) * (y[i]! - my)
    xx += (x[i]! - mx) ** 2
    yy += (y[i]! - my) ** 2
  }
  return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0
}
