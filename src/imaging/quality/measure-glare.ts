/** How much of a card lies under mirror-bright light: clipped white patches on a card whose own white is not clipped. */
import { contains, type Outline } from '../geometry/read-layout.ts'
import type { WorkingPicture } from '../geometry/working-picture.ts'

// Clipped light, levels; averaging over blocks takes a little off.
const CLIPPED = 248
const NEUTRAL = 7
// Where four fifths of the card reach this, its paper itself is clipped: that is exposure, not glare. Ours.
const BRIGHT_PAPER = 236

/** @returns share of the card, 0–1. */
export function measureGlare({ width, height, luma, blue, red }: WorkingPicture, card: Outline): number {
  const levels: number[] = []
  let clipped = 0
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (!contains(card.corners, [x + 0.5, y + 0.5], -2)) continue
      const at = y * width + x
      const level = luma[at] as number
      levels.push(level)
      if (level >= CLIPPED && Math.abs(blue[at] as number) < NEUTRAL && Math.abs(red[at] as number) < NEUTRAL) clipped++
    }
  }
  if (levels.length === 0) return 0
  levels.sort((a, b) => a - b)
  return (levels[Math.floor(0.8 * levels.length)] as number) >= BRIGHT_PAPER ? 0 : clipped / levels.length
}
