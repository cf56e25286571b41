/** JSON in the one form of RFC 8785, so that the same record always has the same hash. */
import canonicalize from 'canonicalize'

/** Throws for what JSON cannot say (`NaN`, an infinity). Without a final line end. */
export function canonicalJson(value: unknown): string {
  const text = canonicalize(value)
  if (text === undefined) throw new Error('there is no JSON for this value')
  return text
}
