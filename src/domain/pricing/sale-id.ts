/**
 * A stable id from a sale's own content, so that the same sale read twice is the same record.
 * Two 32-bit FNV-1a sums with different starts: an index key, not a cryptographic hash.
 * FNV-1a: Fowler, Noll, Vo; prime and offset as in draft-eastlake-fnv.
 */
const PRIME = 0x01000193
const OFFSET = 0x811c9dc5
// Any other start gives a second, independent sum.
const SECOND_OFFSET = 0x9747b28c

function fnv1a(text: string, offset: number): string {
  let sum = offset
  for (let i = 0; i < text.length; i++) sum = Math.imul(sum ^ text.charCodeAt(i), PRIME)
  return (sum >>> 0).toString(16).padStart(8, '0')
}

export function saleId(parts: readonly (string | null)[]): string {
  const text = parts.map((part) => part ?? '').join('\u001f')
  return `sale-${fnv1a(text, OFFSET)}${fnv1a(text, SECOND_OFFSET)}`
}
