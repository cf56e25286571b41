/**
 * How soft a photo is at its sharpest edges: the standard deviation of the blur, in pixels of the photo.
 * Says nothing about the printing: a perfect edge under a soft lens and a soft print under a sharp one look alike.
 *
 * A step of height A under a Gaussian blur of standard deviation σ has its steepest slope at A / (σ √(2π)). Slopes are
 * differences of neighbouring pixels along the row or column, which themselves average over one pixel (variance 1/12);
 * that share is taken off. Edges that cross the row at an angle are corrected by its cosine.
 */
import type { Grey } from './pixels.ts'

// One edge a tile, so that one busy corner does not speak for the photo. Ours.
const TILE = 24
// Enough tiles for the sharpest fifth to be a few hundred edges. Ours.
const MOST_TILES = 5000
// Steps lower than this drown in noise and JPEG blocks. Ours, no source.
const LEAST_STEP = 48
// How far an edge is followed to its plateaus, px: covers a blur of about 8 px.
const REACH = 24
const WIDEST_BLUR = 8
// Closer to the photo's border than this an edge cannot be followed to its plateaus.
const LEAST_REACH = 6
// Five rows averaged halve the noise; an edge is straight over so few.
const ROWS_ASIDE = 2
// A rise of less than this is noise of the averaged rows, levels. Ours.
const SLACK = 0.75
// The sharpest edges: a fifth of those measured, so that single noisy ones do not decide. Ours.
const SHARPEST_SHARE = 0.2
const LEAST_EDGES = 8

/** @returns `null` where too few clear edges were found to say. */
export function measureBlur(grey: Grey): number | null {
  const spreads: number[] = []
  // A large photo is looked at in every second or third tile only: its edges are longer in the same measure.
  const step = TILE * Math.max(1, Math.round(Math.sqrt((grey.width * grey.height) / (MOST_TILES * TILE * TILE))))
  for (let top = 1; top + TILE < grey.height; top += step) {
    for (let left = 1; left + TILE < grey.width; left += step) {
      const spread = measureTile(grey, left, top)
      if (spread !== null) spreads.push(spread)
    }
  }
  if (spreads.length < LEAST_EDGES) return null
  spreads.sort((a, b) => a - b)
  return spreads[Math.floor(spreads.length * SHARPEST_SHARE)] as number
}

/** The spread at the tile's steepest place. */
function measureTile(grey: Grey, left: number, top: number): number | null {
  const { width, data } = grey
  let steepest = 0
  let place = -1
  let along = 1
  for (let y = top; y < top + TILE; y++) {
    for (let x = left; x < left + TILE; x++) {
      const at = y * width + x
      const across = Math.abs((data[at + 1] as number) - (data[at] as number))
      const down = Math.abs((data[at + width] as number) - (data[at] as number))
      const slope = Math.max(across, down)
      if (slope > steepest) {
        steepest = slope
        place = at
        along = across >= down ? 1 : width
      }
    }
  }
  // A step of LEAST_STEP under the widest blur that is followed is no steeper than this.
  if (steepest < LEAST_STEP / (WIDEST_BLUR * Math.sqrt(2 * Math.PI))) return null
  const aside = along === 1 ? width : 1
  const tilt = (at: number) => (data[at + aside] as number) - (data[at - aside] as number)
  const slope = (data[place + along] as number) - (data[place - along] as number)
  const shift = slope === 0 ? 0 : -tilt(place) / slope
  const profile = averageProfile(grey, place, along, Math.max(-1, Math.min(1, shift)))
  return profile && spreadOf(profile, Math.min(1, Math.abs(shift)))
}

/** Levels across the edge, averaged over a few neighbouring rows, each shifted by where the edge crosses it. */
function averageProfile(
  { width, height, data }: Grey,
  place: number,
  along: number,
  shift: number,
): Float64Array | null {
  const [x, y] = [place % width, Math.floor(place / width)]
  const [position, aside] = along === 1 ? [x, y] : [y, x]
  const [length, breadth] = along === 1 ? [width, height] : [height, width]
  if (aside < ROWS_ASIDE || aside + ROWS_ASIDE >= breadth) return null
  const reach = Math.min(REACH, position - ROWS_ASIDE, length - 2 - position - ROWS_ASIDE)
  if (reach < LEAST_REACH) return null
  const profile = new Float64Array(2 * reach + 1)
  const step = along === 1 ? width : 1
  for (let row = -ROWS_ASIDE; row <= ROWS_ASIDE; row++) {
    const start = place + row * step + Math.round(row * shift) * along
    for (let i = -reach; i <= reach; i++)
      profile[i + reach] = (profile[i + reach] as number) + (data[start + i * along] as number)
  }
  return profile.map((sum) => sum / (2 * ROWS_ASIDE + 1))
}

function spreadOf(profile: Float64Array, tilt: number): number | null {
  const middle = (profile.length - 1) / 2
  let steepest = middle
  const slopeAt = (i: number) => (profile[i + 1] as number) - (profile[i] as number)
  for (const i of [middle - 1, middle + 1]) if (Math.abs(slopeAt(i)) > Math.abs(slopeAt(steepest))) steepest = i
  const slope = slopeAt(steepest)
  const step = followStep(profile, steepest, Math.sign(slope))
  if (step < LEAST_STEP) return null
  const variance = (step / (Math.abs(slope) * Math.sqrt(2 * Math.PI))) ** 2 - 1 / 12
  return Math.sqrt(Math.max(0, variance)) / Math.sqrt(1 + tilt * tilt)
}

/** Height of the step through `place`: from where it stops rising on one side to where it stops on the other. */
function followStep(profile: Float64Array, place: number, sign: number): number {
  const follow = (start: number, direction: 1 | -1) => {
    let at = start
    for (;;) {
      const level = sign * direction * (profile[at] as number)
      // Two pixels ahead as well, so that a single noisy one does not end the step.
      const ahead = [1, 2].filter((d) => sign * direction * (profile[at + d * direction] ?? Number.NaN) > level + SLACK)
      if (ahead.length === 0) return profile[at] as number
      at += (ahead[0] as number) * direction
    }
  }
  return Math.abs(follow(place + 1, 1) - follow(place, -1))
}
