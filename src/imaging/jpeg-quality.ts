/**
 * JPEG quality on the Independent JPEG Group's scale, estimated from a file's luma quantisation table.
 * An estimate of the last encoding only: a poor picture saved again at 95 reads 95.
 */

/** ITU-T T.81 (1992), Annex K, table K.1: luminance, by rows. */
export const LUMINANCE_TABLE: readonly number[] = [
  16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55, 14, 13, 16, 24, 40, 57, 69, 56, 14, 17, 22, 29, 51,
  87, 80, 62, 18, 22, 37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113, 92, 49, 64, 78, 87, 103, 121, 120, 101,
  72, 92, 95, 98, 112, 100, 103, 99,
]

/** ITU-T T.81, figure 5: place of each zig-zag index in row order. */
const ZIG_ZAG: readonly number[] = [
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13, 6, 7, 14, 21, 28,
  35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46, 53, 60, 61, 54, 47,
  55, 62, 63,
]

/** The Independent JPEG Group's scaling (`jpeg_quality_scaling`, libjpeg 6b): the published table at quality 1–100. */
export function scaleTable(table: readonly number[], quality: number): number[] {
  const percent = quality < 50 ? Math.floor(5000 / quality) : 200 - 2 * quality
  return table.map((value) => Math.min(255, Math.max(1, Math.floor((value * percent + 50) / 100))))
}

// An encoder with tables of its own is placed on the scale only where its table is near one of the scale's: mean
// difference in per cent of the table's mean. Ours, no source.
const NEAR_ENOUGH_PERCENT = 20

/** @param zigZag 64 values as stored. @returns 1–100, or `null` where the table is unlike any of the scale. */
export function estimateJpegQuality(zigZag: readonly number[]): number | null {
  const stored = new Array<number>(64)
  zigZag.forEach((value, i) => {
    stored[ZIG_ZAG[i] as number] = value
  })
  let best = { quality: 0, difference: Number.POSITIVE_INFINITY }
  for (let quality = 1; quality <= 100; quality++) {
    const scaled = scaleTable(LUMINANCE_TABLE, quality)
    const difference = scaled.reduce((sum, value, i) => sum + Math.abs(value - (stored[i] as number)), 0)
    // At equal distance the better quality: only the lowest qualities share tables, where values are clamped.
    if (difference <= best.difference) best = { quality, difference }
  }
  const sum = stored.reduce((a, b) => a + b, 0)
  return (100 * best.difference) / sum <= NEAR_ENOUGH_PERCENT ? best.quality : null
}
