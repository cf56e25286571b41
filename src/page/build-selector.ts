/**
 * A CSS selector that finds exactly the given element: from the nearest id that is unique and looks made by a person, else from
 * the root, by tag and place among sisters of the same tag. Built from the index, without asking the document.
 */
import type { PageIndex } from './index-document.ts'

const idCounts = new WeakMap<PageIndex, Map<string, number>>()

function countIds(index: PageIndex): Map<string, number> {
  let counts = idCounts.get(index)
  if (!counts) {
    counts = new Map()
    for (const { element } of index.nodes) if (element.id) counts.set(element.id, (counts.get(element.id) ?? 0) + 1)
    idCounts.set(index, counts)
  }
  return counts
}

/** Ids with long digit runs or hashes change from one rendering to the next. */
export function isStableName(name: string): boolean {
  return (
    /^[A-Za-z][\w-]{1,48}$/.test(name) &&
    !/\d{4,}|[a-f0-9]{8,}|^(?:ember|react|yui|ext|radix|headlessui|__|:r)/i.test(name)
  )
}

const places = new WeakMap<PageIndex, Map<number, Map<number, { place: number; alone: boolean }>>>()

/** Counted once for all children of a parent: asking each of a thousand rows for its place would be a million questions. */
function placeAmongSisters(index: PageIndex, at: number): { place: number; alone: boolean } {
  const parent = index.nodes[at]!.parent
  const byParent = places.get(index) ?? new Map<number, Map<number, { place: number; alone: boolean }>>()
  places.set(index, byParent)
  let known = byParent.get(parent)
  if (!known) {
    known = new Map()
    const counts = new Map<string, number>()
    const byElement: [number, string, number][] = []
    // From the document, not from the index: a cut page has sisters that were never read, and skipped ones count too.
    for (let child = index.nodes[parent]!.element.firstElementChild; child; child = child.nextElementSibling) {
      const tag = child.localName
      const place = (counts.get(tag) ?? 0) + 1
      counts.set(tag, place)
      const childAt = index.byElement.get(child)
      if (childAt !== undefined) byElement.push([childAt, tag, place])
    }
    for (const [childAt, tag, place] of byElement) known.set(childAt, { place, alone: counts.get(tag) === 1 })
    byParent.set(parent, known)
  }
  return known.get(at) ?? { place: 1, alone: true }
}

export function buildSelector(index: PageIndex, at: number): string | null {
  const { nodes } = index
  const ids = countIds(index)
  const steps: string[] = []
  for (let current = at; current >= 0; ) {
    const node = nodes[current]!
    const { element } = node
    if (element.id && isStableName(element.id) && ids.get(element.id) === 1) {
      steps.unshift(`#${element.id}`)
      return steps.join(' > ')
    }
    if (node.parent < 0) {
      steps.unshift(node.tag)
      return steps.join(' > ')
    }
    // Inside a shadow tree no selector of the document leads to it.
    if (element.parentElement !== nodes[node.parent]!.element) return null
    const { place, alone } = placeAmongSisters(index, current)
    const tag = node.tag.replace(/[^\w-]/g, (char) => `\\${char}`)
    steps.unshift(alone ? tag : `${tag}:nth-of-type(${place})`)
    current = node.parent
  }
  return null
}
