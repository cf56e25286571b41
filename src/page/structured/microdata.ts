/**
 * Microdata of a document as a graph of items. `content` counts on every element, as W3C microdata has it and shops use it;
 * WHATWG's letter would read "$1,000.00" there. `itemref` is followed once.
 */
import { ownEntry } from '../../domain/own-entry.ts'
import type { PageIndex } from '../index-document.ts'
import { addValue, type StructuredGraph, type StructuredItem, type StructuredValue, shortName } from './graph.ts'

const URL_ATTRIBUTE: Readonly<Record<string, string>> = {
  a: 'href',
  area: 'href',
  link: 'href',
  audio: 'src',
  embed: 'src',
  iframe: 'src',
  img: 'src',
  source: 'src',
  track: 'src',
  video: 'src',
  object: 'data',
}

export function collapse(text: string | null | undefined): string {
  return (text ?? '').replace(/\s+/g, ' ').trim()
}

export function resolveAgainst(document: Document, url: string): string {
  try {
    return new URL(url, document.baseURI).href
  } catch {
    return url
  }
}

function readValue(element: Element): string {
  const content = element.getAttribute('content')
  if (content !== null) return collapse(content)
  const tag = element.localName
  const attribute = ownEntry(URL_ATTRIBUTE, tag)
  if (attribute) {
    const url = element.getAttribute(attribute) ?? (tag === 'img' ? element.getAttribute('data-src') : null)
    if (url !== null) return url.trim()
    return tag === 'a' ? collapse(element.textContent) : ''
  }
  if (tag === 'data' || tag === 'meter') return collapse(element.getAttribute('value') ?? element.textContent)
  if (tag === 'time') return collapse(element.getAttribute('datetime') ?? element.textContent)
  return collapse(element.textContent).slice(0, 50_000)
}

export function readMicrodata(index: PageIndex): StructuredGraph {
  const items: StructuredItem[] = []
  const byId = new Map<string, StructuredItem>()
  const referred = new Map<Element, StructuredItem>()
  /** Items that are open at the present place, innermost last, with the end of their range. */
  const open: { item: StructuredItem; end: number }[] = []

  for (const node of index.nodes) {
    if (!(node.markup & 1)) continue
    const { element } = node
    while (open.length > 0 && node.at >= open[open.length - 1]!.end) open.pop()
    const names = (element.getAttribute('itemprop') ?? '').split(/\s+/).filter(Boolean).map(shortName)
    const owner = open[open.length - 1]?.item ?? referredOwner(element, referred)
    let value: StructuredValue | null = null
    if (element.hasAttribute('itemscope')) {
      const id = element.getAttribute('itemid')?.trim() || null
      const item: StructuredItem = {
        types: (element.getAttribute('itemtype') ?? '').split(/\s+/).filter(Boolean).map(shortName),
        id,
        source: 'microdata',
        properties: new Map(),
        element,
      }
      items.push(item)
      if (id) {
        byId.set(id, item)
        byId.set(resolveAgainst(index.document, id), item)
      }
      for (const reference of (element.getAttribute('itemref') ?? '').split(/\s+/).filter(Boolean)) {
        const target = index.document.getElementById(reference)
        if (target && !referred.has(target)) referred.set(target, item)
      }
      value = item
      if (owner) for (const name of names) addValue(owner, name, value)
      open.push({ item, end: node.end })
      continue
    }
    if (names.length === 0 || !owner) continue
    value = readValue(element)
    if (value !== '') for (const name of names) addValue(owner, name, value)
  }
  return { items, byId }
}

function referredOwner(element: Element, referred: ReadonlyMap<Element, StructuredItem>): StructuredItem | null {
  if (referred.size === 0) return null
  for (let at: Element | null = element; at; at = at.parentElement) {
    const owner = referred.get(at)
    if (owner) return owner
  }
  return null
}
