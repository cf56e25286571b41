/** How much each sale counts: less with age, and no seller more than a share of all. */
import type { Observation } from './observation.ts'

// Markets for single cards move over seasons: a sale of two years ago counts half. Ours; a shorter half-life made the
// interval wider in the bench's calm markets than it made it better in moving ones.
export const HALF_LIFE_YEARS = 2
// No seller decides alone: at most a quarter of the weight, or one sale's where few are at hand. Ours.
export const SELLER_CAP = 0.25

/** @returns a weight for each sale, the largest being 1 before sellers are capped. */
export function weighSales(sales: readonly Observation[]): { weights: number[]; capped: string[] } {
  const weights = sales.map(({ age }) => 0.5 ** (age / HALF_LIFE_YEARS))
  const bySeller = new Map<string, number[]>()
  sales.forEach(({ seller }, i) => {
    if (seller !== null) bySeller.set(seller, [...(bySeller.get(seller) ?? []), i])
  })
  const capped: string[] = []
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  for (const [seller, places] of bySeller) {
    if (places.length < 2) continue
    const own = places.reduce((sum, i) => sum + (weights[i] as number), 0)
    const others = total - own
    // own' = cap × (own' + others), solved for own'.
    const allowed = Math.max(
      others * (SELLER_CAP / (1 - SELLER_CAP)),
      Math.max(...places.map((i) => weights[i] as number)),
    )
    if (own <= allowed) continue
    capped.push(seller)
    for (const i of places) weights[i] = ((weights[i] as number) * allowed) / own
  }
  return { weights, capped }
}
