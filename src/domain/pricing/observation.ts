/** What the estimate looks at of one sale: the logarithm of its price, its age, and who sold it. */
export interface Observation {
  /** Natural logarithm of the price. */
  readonly log: number
  /** Years before the day that the value is for, 0 or more. */
  readonly age: number
  readonly seller: string | null
  /** The price is no more than an upper bound. */
  readonly bound?: boolean
}
