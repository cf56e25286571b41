/**
 * How many counters of the type in a region are open, against the exemplar. The exemplar is first made as soft and as coarse as the
 * photo: where its own counters then close, the photo cannot tell. A counter is ground enclosed by ink (a hole; the Euler number
 * of the ink is its pieces less its holes).
 */
import type { PointOf } from '../../domain/exemplar.ts'
import { type CannotTell, cannotTell } from '../cannot-tell.ts'
import type { PlacedPicture } from '../placed-picture.ts'
import { blurMm, type MeasuredBeside, type PairMeasure } from './point-measure.ts'
import { blurRaster, readLight } from './read-region.ts'

// A counter smaller than this on the exemplar is none that a photo could show, mm². Ours.
const LEAST_HOLE_MM2 = 0.008
// Pixels across the smallest counter: below, its ground level does not come through. Ours, from the bench.
const PIXELS_A_COUNTER = 5
// A counter that kept less than this share of its area is closing. Ours: type swells by a tenth within a run (from memory).
const LEAST_AREA_LEFT = 0.5
const LEAST_SHARE_OF_SMALLEST = 0.35
const LEAST_CONTRAST = 0.05

export interface InkShape {
  /** 1 where there is ink. */
  readonly ink: Uint8Array
  readonly width: number
  readonly height: number
}

export interface Counted {
  readonly pieces: number
  readonly holes: readonly { readonly area: number; readonly at: number }[]
  /** Pieces less holes: ink joined also over corners, ground only over sides. */
  readonly euler: number
}

/** Pieces of ink (joined over sides and corners) and the holes in them (ground joined over sides, not touching the rim). */
export function countPieces({ ink, width, height }: InkShape): Counted {
  const label = new Int32Array(width * height)
  let next = 0
  let pieces = 0
  const holes: { area: number; at: number }[] = []
  const open: number[] = []
  for (let start = 0; start < ink.length; start++) {
    if (label[start] !== 0) continue
    const isInk = ink[start] === 1
    label[start] = ++next
    open.push(start)
    let area = 0
    let touchesRim = false
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      area++
      const [x, y] = [at % width, Math.floor(at / width)]
      if (x === 0 || y === 0 || x === width - 1 || y === height - 1) touchesRim = true
      for (let dy = -1; dy <= 1; dy++) {
        for (let dx = -1; dx <= 1; dx++) {
          if ((dx === 0 && dy === 0) || (!isInk && dx !== 0 && dy !== 0)) continue
          const [nx, ny] = [x + dx, y + dy]
          if (nx < 0 || ny < 0 || nx >= width || ny >= height) continue
          const to = ny * width + nx
          if (label[to] !== 0 || (ink[to] === 1) !== isInk) continue
          label[to] = next
          open.push(to)
        }
      }
    }
    if (isInk) pieces++
    else if (!touchesRim) holes.push({ area, at: start })
  }
  return { pieces, holes, euler: pieces - holes.length }
}

interface Levels {
  readonly ink: number
  readonly ground: number
}

/** The two levels of ink and ground: means of what lies beyond the middle of the darkest and the lightest tenth. */
function levelsOf(values: Float32Array): Levels {
  const sorted = Float32Array.from(values).sort()
  const pick = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]!
  return { ink: pick(0.04), ground: pick(0.96) }
}

function shapeAt(
  values: Float32Array,
  width: number,
  height: number,
  { ink, ground }: Levels,
  share: number,
): InkShape {
  const threshold = ink + share * (ground - ink)
  return { ink: Uint8Array.from(values, (value) => (value < threshold ? 1 : 0)), width, height }
}

function holesOf(values: Float32Array, width: number, height: number, levels: Levels, share: number, least: number) {
  return countPieces(shapeAt(values, width, height, levels, share)).holes.filter(({ area }) => area >= least)
}

export const countersOpen: PairMeasure<'counters-open'> = {
  kind: 'counters-open',
  way: 'beside',
  needs(point: PointOf<'counters-open'>, exemplar: PlacedPicture): number {
    const smallest = smallestCounterMm(point, exemplar)
    return smallest === null ? 0 : PIXELS_A_COUNTER / smallest
  },
  compare(point, exemplar, photo): MeasuredBeside | CannotTell {
    const { region } = point
    const middle = [region.x + region.width / 2, region.y + region.height / 2] as const
    const perMm = Math.min(40, 2 * photo.plane.scaleAt(...middle))
    const model = readLight(exemplar, region, perMm)
    if ('reason' in model) return model
    const seen = readLight(photo, region, perMm)
    if ('reason' in seen) return seen
    const { width, height } = seen
    const least = Math.max(4, LEAST_HOLE_MM2 * perMm * perMm)
    const modelLevels = levelsOf(model.y)
    const sharp = holesOf(model.y, width, height, modelLevels, 0.5, least)
    if (sharp.length === 0) return cannotTell('no-counter')
    const [softness, own] = [blurMm(photo, ...middle), blurMm(exemplar, ...middle)]
    // Somewhat softer than measured, so that a photo blurred a little more here is not called a copy.
    const added = Math.sqrt(Math.max(0, (1.15 * softness) ** 2 - own ** 2)) * perMm
    const soft = blurRaster(model.y, width, height, added)
    const softened = holesOf(soft, width, height, modelLevels, 0.5, least / 4)
    const firm = holesOf(soft, width, height, modelLevels, 0.4, least / 4)
    if (softened.length !== sharp.length || firm.length !== sharp.length) return cannotTell('counters-run-together')
    const seenLevels = levelsOf(seen.y)
    if (seenLevels.ground - seenLevels.ink < LEAST_CONTRAST) return cannotTell('ink-too-faint')
    // Pinholes in sprayed or worn ink are no counters.
    const counter = Math.max(least / 4, LEAST_SHARE_OF_SMALLEST * Math.min(...softened.map((hole) => hole.area)))
    const count = (share: number) => holesOf(seen.y, width, height, seenLevels, share, counter).length
    const value = count(0.5)
    const counts = [count(0.42), value, count(0.58)]
    const uncertainty = Math.max(...counts) - Math.min(...counts)
    const area = (holes: readonly { area: number }[]) => holes.reduce((sum, hole) => sum + hole.area, 0)
    const left = area(holesOf(seen.y, width, height, seenLevels, 0.5, 1)) / area(softened)
    const lefts = [0.42, 0.58].map(
      (share) => area(holesOf(seen.y, width, height, seenLevels, share, 1)) / area(softened),
    )
    const doubt = Math.max(...lefts) - Math.min(...lefts)
    return {
      value,
      exemplar: sharp.length,
      // Only counters that are missing count: more of them are faults of the print or another word.
      apart: Math.max(0, sharp.length - value),
      uncertainty,
      alsoDiffers: left + doubt / 2 < LEAST_AREA_LEFT,
      figures: { openAreaPercent: Math.round(100 * left) },
    }
  },
}

/** Diameter of a disc of the smallest counter's area, mm; `null` where the exemplar shows none. */
function smallestCounterMm({ region }: PointOf<'counters-open'>, exemplar: PlacedPicture): number | null {
  const perMm = Math.min(40, 2 * exemplar.plane.scaleAt(region.x + region.width / 2, region.y + region.height / 2))
  const model = readLight(exemplar, region, perMm)
  if ('reason' in model) return null
  const holes = holesOf(model.y, model.width, model.height, levelsOf(model.y), 0.5, LEAST_HOLE_MM2 * perMm * perMm)
  if (holes.length === 0) return null
  return Math.sqrt((4 * Math.min(...holes.map(({ area }) => area))) / Math.PI) / perMm
}
