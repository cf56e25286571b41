/**
 * Which of n distances from the centre a prediction interval has to reach, so that the next value lies inside with a probability of
 * at least 1 − α. V. Vovk, A. Gammerman & G. Shafer, Algorithmic Learning in a Random World (2005), section 2.
 */
import { Decimal } from 'decimal.js'

/**
 * ⌈(n + 1)(1 − α)⌉ in exact decimals: in binary doubles the product can lie a hair above a whole number.
 * @returns `null` where n is too small for any finite interval.
 */
export function conformalRank(n: number, alpha: number): number | null {
  const rank = new Decimal(1)
    .minus(alpha)
    .times(n + 1)
    .ceil()
    .toNumber()
  return rank > n ? null : rank
}
