/**
 * Structural similarity of two grey rasters: Wang, Bovik, Sheikh & Simoncelli, Image Quality Assessment: From Error Visibility to
 * Structural Similarity, IEEE Transactions on Image Processing 13(4), 2004; window of 11 × 11 under a Gaussian of 1.5 px,
 * K1 = 0.01, K2 = 0.03, as published.
 */

const WINDOW = 11
const SIGMA = 1.5
const C1 = (0.01 * 255) ** 2
const C2 = (0.03 * 255) ** 2

/**
 * One value a place whose window lies inside, by rows; levels 0–255. `weights`: how much structure either picture has there, after
 * Wang & Li, Information Content Weighting for Perceptual Image Quality Assessment (2011): even places look alike in any two pictures.
 */
export function mapSsim(a: ArrayLike<number>, b: ArrayLike<number>, width: number, height: number) {
  const half = (WINDOW - 1) / 2
  const kernel = Array.from({ length: WINDOW }, (_, i) => Math.exp(-((i - half) ** 2) / (2 * SIGMA * SIGMA)))
  const total = kernel.reduce((sum, weight) => sum + weight, 0)
  const normed = kernel.map((weight) => weight / total)
  const [w, h] = [width - WINDOW + 1, height - WINDOW + 1]
  if (w < 1 || h < 1) return { width: 0, height: 0, values: new Float32Array(0), weights: new Float32Array(0) }
  const filter = (value: (i: number) => number) => {
    const rows = new Float64Array(w * height)
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < w; x++) {
        let sum = 0
        for (let k = 0; k < WINDOW; k++) sum += normed[k]! * value(y * width + x + k)
        rows[y * w + x] = sum
      }
    }
    const out = new Float64Array(w * h)
    for (let y = 0; y < h; y++) {
      for (let x = 0; x < w; x++) {
        let sum = 0
        for (let k = 0; k < WINDOW; k++) sum += normed[k]! * rows[(y + k) * w + x]!
        out[y * w + x] = sum
      }
    }
    return out
  }
  const meanA = filter((i) => a[i]!)
  const meanB = filter((i) => b[i]!)
  const squareA = filter((i) => a[i]! * a[i]!)
  const squareB = filter((i) => b[i]! * b[i]!)
  const product = filter((i) => a[i]! * b[i]!)
  const values = new Float32Array(w * h)
  const structure = new Float32Array(w * h)
  for (let i = 0; i < values.length; i++) {
    const [ma, mb] = [meanA[i]!, meanB[i]!]
    const [va, vb, cov] = [squareA[i]! - ma * ma, squareB[i]! - mb * mb, product[i]! - ma * mb]
    values[i] = ((2 * ma * mb + C1) * (2 * cov + C2)) / ((ma * ma + mb * mb + C1) * (va + vb + C2))
    structure[i] = Math.log1p((Math.max(0, va) + Math.max(0, vb)) / C2)
  }
  return { width: w, height: h, values, weights: structure }
}

export function weightedMean(values: ArrayLike<number>, weights: ArrayLike<number>): number {
  let [sum, total] = [0, 0]
  for (let i = 0; i < values.length; i++) {
    sum += values[i]! * weights[i]!
    total += weights[i]!
  }
  return total > 0 ? sum / total : 1
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i]!
  return sum / values.length
}
