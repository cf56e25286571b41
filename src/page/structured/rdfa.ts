/**
 * RDFa Lite 1.1 (and `rev`, which real pages use for `makesOffer`) as a graph of items. Names are read by their local part: a
 * `vocab` without its final slash, which a strict processor turns into nonsense, is forgiven.
 */
import type { PageIndex } from '../index-document.ts'
import { addValue, type StructuredGraph, type StructuredItem, type StructuredValue, shortName } from './graph.ts'
import { collapse, resolveAgainst } from './microdata.ts'

/** Meta names that borrow the `property` attribute and are read elsewhere. */
const FOREIGN =
  /^(?:og|fb|product|article|twitter|al|music|video|book|profile|place|business|rdfa|rdf|rdfs|dc|dcterms|foaf|cc|v|skos|sioc|xhv|pin|ia|wb|vk):/i

function identityOf(element: Element): string | null {
  return (
    element.getAttribute('resource') ??
    element.getAttribute('about') ??
    element.getAttribute('href') ??
    element.getAttribute('src')
  )
}

export function readRdfa(index: PageIndex): StructuredGraph {
  const items: StructuredItem[] = []
  const byId = new Map<string, StructuredItem>()
  const open: { item: StructuredItem; end: number }[] = []
  const reversed: { property: string; from: string; value: StructuredItem }[] = []

  for (const node of index.nodes) {
    if (!(node.markup & 2)) continue
    const { element } = node
    while (open.length > 0 && node.at >= open[open.length - 1]!.end) open.pop()
    const owner = open[open.length - 1]?.item ?? null
    const names = (element.getAttribute('property') ?? '')
      .split(/\s+/)
      .filter((name) => name && !FOREIGN.test(name))
      .map(shortName)
    const rev = element.getAttribute('rev')
    const target = element.getAttribute('href') ?? element.getAttribute('resource')
    if (rev && owner && target)
      for (const name of rev.split(/\s+/).filter(Boolean))
        reversed.push({ property: shortName(name), from: target, value: owner })
    if (element.hasAttribute('typeof')) {
      const types = (element.getAttribute('typeof') ?? '').split(/\s+/).filter(Boolean)
      const id = identityOf(element)
      const item: StructuredItem = { types: types.map(shortName), id, source: 'rdfa', properties: new Map(), element }
      items.push(item)
      if (id !== null) {
        byId.set(id, item)
        byId.set(resolveAgainst(index.document, id), item)
      }
      if (owner) for (const name of names) addValue(owner, name, item)
      open.push({ item, end: node.end })
      continue
    }
    if (!owner) continue
    const value = readValue(element)
    if (value !== '') for (const name of names) addValue(owner, name, value)
  }
  for (const { property, from, value } of reversed) {
    const subject = byId.get(from) ?? byId.get(resolveAgainst(index.document, from))
    if (subject) addValue(subject, property, value)
  }
  return { items, byId }
}

function readValue(element: Element): StructuredValue {
  const content = element.getAttribute('content')
  if (content !== null) return collapse(content)
  const link = element.getAttribute('resource') ?? element.getAttribute('href') ?? element.getAttribute('src')
  if (link !== null) return link.trim()
  if (element.localName === 'time') return collapse(element.getAttribute('datetime') ?? element.textContent)
  return collapse(element.textContent).slice(0, 50_000)
}
