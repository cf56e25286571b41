/**
 * Monotone regression: the non-decreasing sequence nearest to the values in weighted squares, by pooling adjacent violators.
 * M. Ayer et al. (1955); T. Robertson, F. Wright & R. Dykstra, Order Restricted Statistical Inference (1988), section 1.2.
 */
export function isotonic(values: readonly number[], weights: readonly number[]): number[] {
  const pools: { mean: number; weight: number; count: number }[] = []
  values.forEach((value, i) => {
    let pool = { mean: value, weight: weights[i] as number, count: 1 }
    for (let before = pools.at(-1); before && before.mean >= pool.mean; before = pools.at(-1)) {
      pools.pop()
      const weight = before.weight + pool.weight
      pool = {
        mean: (before.mean * before.weight + pool.mean * pool.weight) / weight,
        weight,
        count: before.count + pool.count,
      }
    }
    pools.push(pool)
  })
  return pools.flatMap(({ mean, count }) => new Array<number>(count).fill(mean))
}
