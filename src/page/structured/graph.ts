/**
 * The one form that JSON-LD, microdata and RDFa are brought into: items with types and properties, linked by id.
 * Holds no opinion on what a page offers.
 */

export type StructuredSource = 'json-ld' | 'microdata' | 'rdfa'

export interface StructuredItem {
  /** Short names: `Product`, not `https://schema.org/Product`. */
  readonly types: readonly string[]
  readonly id: string | null
  readonly source: StructuredSource
  readonly properties: Map<string, StructuredValue[]>
  /** Element that carries the markup, where there is one. */
  readonly element: Element | null
}

export type StructuredValue = string | StructuredItem

/** Items of one page and one syntax, in document order, nested ones included. */
export interface StructuredGraph {
  readonly items: readonly StructuredItem[]
  readonly byId: ReadonlyMap<string, StructuredItem>
}

/** `https://schema.org/Offer`, `schema:Offer` and `Offer` are one name. Names of other vocabularies keep their prefix. */
export function shortName(name: string): string {
  const trimmed = name.trim()
  const vocabulary =
    /^(?:https?:\/\/(?:www\.)?schema\.org\/?|schema:|https?:\/\/(?:www\.)?data-vocabulary\.org\/)(.*)$/i.exec(trimmed)
  return vocabulary ? vocabulary[1]! : trimmed
}

export function addValue(item: StructuredItem, property: string, value: StructuredValue): void {
  const known = item.properties.get(property)
  if (known) known.push(value)
  else item.properties.set(property, [value])
}

export function valuesOf(
  item: StructuredItem | null | undefined,
  ...properties: readonly string[]
): readonly StructuredValue[] {
  if (!item) return []
  const found: StructuredValue[] = []
  for (const property of properties) found.push(...(item.properties.get(property) ?? []))
  return found
}

export function itemsOf(
  graph: StructuredGraph,
  item: StructuredItem,
  ...properties: readonly string[]
): StructuredItem[] {
  const found: StructuredItem[] = []
  for (const value of valuesOf(item, ...properties)) {
    const target = typeof value === 'string' ? graph.byId.get(value) : value
    if (target) found.push(target)
  }
  return found
}

/** First plain text of a property; an item stands for its own name. */
export function stringOf(item: StructuredItem | null | undefined, ...properties: readonly string[]): string | null {
  for (const value of valuesOf(item, ...properties)) {
    if (typeof value === 'string') {
      const text = value.trim()
      if (text) return text
    } else {
      const inner: string | null = stringOf(value, '@value', 'name', 'url', 'contentUrl')
      if (inner) return inner
    }
  }
  return null
}

export function hasType(item: StructuredItem, pattern: RegExp): boolean {
  return item.types.some((type) => pattern.test(type))
}
