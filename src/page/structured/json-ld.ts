/**
 * JSON-LD scripts of a document (W3C JSON-LD 1.1 API, section "HTML Content Algorithms") as a graph of items.
 * Contexts are not fetched or expanded: schema.org names are read as written. Bounded in size, depth and count.
 */
import { addValue, type StructuredGraph, type StructuredItem, type StructuredValue, shortName } from './graph.ts'
import { isPlainObject, parseStrictJson, parseTolerantJson } from './parse-json.ts'

const JSON_LD_TYPE = /^application\/ld\+json\s*(?:;|$)/i
/** Nesting that real pages never reach; deeper data is cut there. */
const DEPTH_LIMIT = 24
/** Items of one page; result pages carry a few hundred. */
const ITEM_LIMIT = 5_000

export function isJsonLdScript(element: Element): boolean {
  return element.localName === 'script' && JSON_LD_TYPE.test((element.getAttribute('type') ?? '').trim())
}

export type JsonLdSelection =
  | { readonly values: readonly unknown[] }
  | { readonly fault: 'loading document failed' | 'invalid script element' }

/**
 * Which scripts a strict processor picks: the one with the fragment's id, else the first, or all. Faults are named as in the
 * specification. The reader itself is more forgiving; this is the yardstick that it is held against.
 */
export function selectJsonLd(
  document: Document,
  options: { fragment?: string | null; all?: boolean } = {},
): JsonLdSelection {
  let chosen: Element[]
  if (options.fragment) {
    const target = document.getElementById(options.fragment)
    if (!target || !isJsonLdScript(target)) return { fault: 'loading document failed' }
    chosen = [target]
  } else {
    chosen = [...document.getElementsByTagName('script')].filter(isJsonLdScript)
    if (!options.all) {
      if (chosen.length === 0) return { fault: 'loading document failed' }
      chosen = chosen.slice(0, 1)
    }
  }
  const values: unknown[] = []
  for (const script of chosen) {
    const parsed = parseStrictJson(script.textContent ?? '')
    if (!parsed) return { fault: 'invalid script element' }
    values.push(parsed.value)
  }
  return { values }
}

export function readJsonLd(scripts: readonly Element[]): StructuredGraph {
  const items: StructuredItem[] = []
  const byId = new Map<string, StructuredItem>()

  const toItem = (value: Record<string, unknown>, element: Element, depth: number): StructuredValue | null => {
    const id = typeof value['@id'] === 'string' ? value['@id'] : null
    const keys = Object.keys(value)
    if ('@value' in value) return toText(value['@value'])
    if (id !== null && keys.every((key) => key === '@id' || (key === '@type' && keys.length === 2 && byId.has(id))))
      return id
    if (items.length >= ITEM_LIMIT) return null
    const rawTypes = Array.isArray(value['@type']) ? value['@type'] : [value['@type'] ?? value.type]
    const types = rawTypes.filter((type): type is string => typeof type === 'string').map(shortName)
    const item: StructuredItem = { types, id, source: 'json-ld', properties: new Map(), element }
    items.push(item)
    if (id !== null && !byId.has(id)) byId.set(id, item)
    for (const key of keys) {
      if (key === '@context' || key === '@type' || key === '@id' || key === '@graph') continue
      for (const inner of Array.isArray(value[key]) ? (value[key] as unknown[]).slice(0, 1000) : [value[key]]) {
        const read = toValue(inner, element, depth + 1)
        if (read !== null) addValue(item, shortName(key), read)
      }
    }
    if ('@graph' in value) walk(value['@graph'], element, depth + 1)
    return item
  }

  const toValue = (value: unknown, element: Element, depth: number): StructuredValue | null => {
    if (depth > DEPTH_LIMIT) return null
    if (isPlainObject(value)) {
      if (Array.isArray(value['@list']))
        return value['@list'].length > 0 ? toValue(value['@list'][0], element, depth + 1) : null
      return toItem(value, element, depth)
    }
    return toText(value)
  }

  const walk = (value: unknown, element: Element, depth: number): void => {
    if (depth > DEPTH_LIMIT) return
    if (Array.isArray(value)) for (const inner of value.slice(0, ITEM_LIMIT)) walk(inner, element, depth + 1)
    else if (isPlainObject(value)) toItem(value, element, depth)
  }

  for (const script of scripts) {
    if (!isJsonLdScript(script)) continue
    for (const value of parseTolerantJson(script.textContent ?? '')) walk(value, script, 0)
  }
  return { items: dropHolders(items), byId }
}

/** An object that only carries `@graph` or `@context` says nothing itself. */
function dropHolders(items: readonly StructuredItem[]): StructuredItem[] {
  return items.filter((item) => item.types.length > 0 || item.properties.size > 0)
}

function toText(value: unknown): string | null {
  if (typeof value === 'string') return decodeOnce(value)
  if (typeof value === 'number' && Number.isFinite(value)) return toDecimalString(value)
  if (typeof value === 'boolean') return String(value)
  return null
}

/** Shops often escape names twice. Only the commonest five, and never more than once. */
function decodeOnce(text: string): string {
  if (!text.includes('&')) return text
  return text.replace(/&(amp|quot|lt|gt|apos|nbsp|#39|#x27|#34);/gi, (whole, name: string) => {
    const known: Record<string, string> = {
      amp: '&',
      quot: '"',
      lt: '<',
      gt: '>',
      apos: "'",
      nbsp: ' ',
      '#39': "'",
      '#x27': "'",
      '#34': '"',
    }
    return known[name.toLowerCase()] ?? whole
  })
}

/** `1e21` and the like are no price: they stay as printed and no money reader accepts them. */
function toDecimalString(value: number): string {
  return String(value)
}
