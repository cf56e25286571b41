/** What the buyer pointed at on one site, so that the field is found there next time. */
export interface SiteHint {
  /** Host name without port; labels are compared from the right, never substrings. */
  readonly host: string
  /** Name of a `Listing` field. */
  readonly field: string
  /** From the most robust selector to the last resort; the first that finds exactly one element counts. */
  readonly selectors: readonly string[]
}
