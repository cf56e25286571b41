/** sRGB's transfer curve undone: from levels of 255 to light. IEC 61966-2-1. */
const LINEAR = Float64Array.from({ length: 256 }, (_, level) => {
  const value = level / 255
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4
})

/** @param level 0–255, whole or between two. @returns linear light, 0–1. */
export function linearLevel(level: number): number {
  const below = Math.floor(level)
  const low = LINEAR[below] as number
  return below === level ? low : low + (level - below) * ((LINEAR[below + 1] as number) - low)
}
