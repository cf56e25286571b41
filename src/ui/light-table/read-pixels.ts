/** Colours under a place of a laid-square picture, as CIELAB, and lightness along a line. Reads single pixels; judges nothing. */
import { converter, differenceCiede2000, type Lab65 } from 'culori'
import type { SquarePicture } from './square-picture.ts'
import type { Place } from './view.ts'

const toLab = converter('lab65')
const difference = differenceCiede2000()

/** CSS-independent: half the side of the square that a colour is the mean of, mm. Smooths a halftone's dots, keeps to one ink. */
const PATCH_MM = 0.25

let canvas: HTMLCanvasElement | null = null

/** Pixels of the largest level, clipped to the picture. */
function readBox(square: SquarePicture, left: number, top: number, right: number, bottom: number) {
  const level = square.levels[0]!
  const x = Math.max(0, Math.floor(left))
  const y = Math.max(0, Math.floor(top))
  const width = Math.min(level.width, Math.ceil(right)) - x
  const height = Math.min(level.height, Math.ceil(bottom)) - y
  if (width < 1 || height < 1) return null
  canvas ??= document.createElement('canvas')
  canvas.width = width
  canvas.height = height
  const context = canvas.getContext('2d', { willReadFrequently: true })
  if (context === null) return null
  context.drawImage(level, x, y, width, height, 0, 0, width, height)
  return { x, y, width, height, data: context.getImageData(0, 0, width, height).data }
}

const inPixels = (square: SquarePicture, mm: number) => (mm + square.marginMm) * square.pxPerMm

/** Mean of linear light over a small square; `null` outside the picture. */
export function readColour(square: SquarePicture, { x, y }: Place): Lab65 | null {
  const [cx, cy] = [inPixels(square, x), inPixels(square, y)]
  const reach = Math.max(PATCH_MM * square.pxPerMm, 0.5)
  const box = readBox(square, cx - reach, cy - reach, cx + reach, cy + reach)
  if (box === null) return null
  let [r, g, b, count] = [0, 0, 0, 0]
  for (let at = 0; at < box.data.length; at += 4) {
    if (box.data[at + 3]! < 255) continue
    r += linear(box.data[at]!)
    g += linear(box.data[at + 1]!)
    b += linear(box.data[at + 2]!)
    count++
  }
  return count === 0 ? null : toLab({ mode: 'lrgb', r: r / count, g: g / count, b: b / count })
}

/** CIEDE2000, unbalanced: light and camera are in it. */
export const colourDifference = (a: Lab65, b: Lab65): number => difference(a, b)

/** IEC 61966-2-1. */
function linear(level: number): number {
  const share = level / 255
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
}

export interface ProfileSample {
  /** From the line's start. */
  readonly mm: number
  /** L*. */
  readonly lightness: number
}

/** Enough for a line across a card at the finest scale that a screen shows. */
const MOST_SAMPLES = 600

export function readProfile(square: SquarePicture, from: Place, to: Place): ProfileSample[] {
  const length = Math.hypot(to.x - from.x, to.y - from.y)
  const count = Math.min(Math.max(2, Math.ceil(length * square.pxPerMm)), MOST_SAMPLES)
  const xs = [inPixels(square, from.x), inPixels(square, to.x)] as const
  const ys = [inPixels(square, from.y), inPixels(square, to.y)] as const
  const box = readBox(square, Math.min(...xs) - 1, Math.min(...ys) - 1, Math.max(...xs) + 2, Math.max(...ys) + 2)
  if (box === null) return []
  const samples: ProfileSample[] = []
  for (let i = 0; i < count; i++) {
    const share = i / (count - 1)
    const x = Math.floor(xs[0] + (xs[1] - xs[0]) * share) - box.x
    const y = Math.floor(ys[0] + (ys[1] - ys[0]) * share) - box.y
    if (x < 0 || y < 0 || x >= box.width || y >= box.height) continue
    const at = 4 * (y * box.width + x)
    if (box.data[at + 3]! < 255) continue
    const [r, g, b] = [linear(box.data[at]!), linear(box.data[at + 1]!), linear(box.data[at + 2]!)]
    samples.push({ mm: length * share, lightness: toLab({ mode: 'lrgb', r, g, b }).l })
  }
  return samples
}

/**
 * Micrometres over which the profile goes from a tenth to nine tenths between its first and last level, at the first crossing of each;
 * `null` where it does not rise or fall by more than noise.
 */
export function riseOf(samples: readonly ProfileSample[]): number | null {
  if (samples.length < 8) return null
  const end = Math.max(2, Math.floor(samples.length / 8))
  const mean = (part: readonly ProfileSample[]) => part.reduce((sum, { lightness }) => sum + lightness, 0) / part.length
  const first = mean(samples.slice(0, end))
  const last = mean(samples.slice(-end))
  // Below ten steps of L* an edge is not told from shading. Ours.
  if (Math.abs(last - first) < 10) return null
  const share = ({ lightness }: ProfileSample) => (lightness - first) / (last - first)
  const crossing = (level: number): number | null => {
    for (let i = 1; i < samples.length; i++) {
      const [a, b] = [share(samples[i - 1]!), share(samples[i]!)]
      if (a < level && b >= level)
        return samples[i - 1]!.mm + ((level - a) / (b - a)) * (samples[i]!.mm - samples[i - 1]!.mm)
    }
    return null
  }
  const [low, high] = [crossing(0.1), crossing(0.9)]
  return low === null || high === null || high < low ? null : (high - low) * 1000
}
