/**
 * Repeated records of a page (result rows, carousels, "similar items"), found by what the records hold, not by class names: each
 * has a link of its own and an amount or a picture. Says where groups are, not what they are for.
 */

import { isWithin, type PageIndex, textLengthOf } from './index-document.ts'
import { countIn, type PageEvidence } from './page-evidence.ts'

export interface RecordGroup {
  /** Element that holds the group. */
  readonly container: number
  readonly rows: readonly number[]
  /** Share of rows with an amount. */
  readonly priced: number
  /** Share of rows with a picture. */
  readonly pictured: number
}

/** Characters of one row: longer ones are posts, articles or whole sections. */
const ROW_TEXT_LIMIT = 1800
/** Shorter ones are menu entries, page numbers and thumbnails. */
const ROW_TEXT_MINIMUM = 8
const AMOUNTS_LIMIT = 9
const GROUP_LIMIT = 200

/** Where a row's main link leads: the first link that is no anchor, script or contact. */
export function rowTarget(evidence: PageEvidence, at: number): string | null {
  const { index, links } = evidence
  const node = index.nodes[at]!
  for (let i = lowerBound(links, at); i < links.length && links[i]! < node.end; i += 1) {
    const href = index.nodes[links[i]!]!.element.getAttribute('href') ?? ''
    if (href && !/^(?:#|(?!https?:)[a-z][a-z0-9+.-]*:)/i.test(href.trim())) return href.trim()
  }
  // The row itself may be, or stand in, the link.
  for (let up = at, step = 0; up >= 0 && step < 2; up = index.nodes[up]!.parent, step += 1) {
    if (index.nodes[up]!.tag === 'a') return index.nodes[up]!.element.getAttribute('href')
  }
  return null
}

export function lowerBound(sorted: readonly number[], value: number): number {
  let low = 0
  let high = sorted.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (sorted[middle]! < value) low = middle + 1
    else high = middle
  }
  return low
}

function isRow(evidence: PageEvidence, at: number): boolean {
  const { index, counts } = evidence
  const node = index.nodes[at]!
  if (node.hidden) return false
  const links = countIn(counts.links, index, at)
  if (links === 0 && node.tag !== 'a') return false
  const amounts = countIn(counts.amounts, index, at)
  const images = countIn(counts.images, index, at)
  if (amounts === 0 && images === 0) return false
  if (amounts > AMOUNTS_LIMIT || node.lastRun === node.firstRun) return false
  return true
}

function textFits(index: PageIndex, at: number): boolean {
  const length = textLengthOf(index, at)
  return length >= ROW_TEXT_MINIMUM && length <= ROW_TEXT_LIMIT
}

export function findRecordGroups(evidence: PageEvidence): RecordGroup[] {
  const { index, counts } = evidence
  const { nodes } = index
  const childRows = new Map<number, Map<string, number[]>>()
  for (let at = 1; at < nodes.length; at += 1) {
    const node = nodes[at]!
    if (node.tag === 'td' || node.tag === 'body' || node.tag === 'main' || !isRow(evidence, at)) {
      // A cell is a row only where the table is a grid of cards; decided below by its sisters.
      if (node.tag !== 'td' || !isRow(evidence, at)) continue
    }
    const byTag = childRows.get(node.parent) ?? new Map<string, number[]>()
    const rows = byTag.get(node.tag)
    if (rows) rows.push(at)
    else byTag.set(node.tag, [at])
    childRows.set(node.parent, byTag)
  }
  const groups: RecordGroup[] = []
  for (const [container, byTag] of childRows) {
    for (const rows of byTag.values()) {
      const fitting = rows.filter((row) => textFits(index, row))
      if (fitting.length >= 2) groups.push(...groupOf(evidence, container, fitting))
    }
  }
  return keepDeepest(index, mergeSisters(evidence, groups)).filter(
    (group) => group.rows.length >= 2 && countIn(counts.links, index, group.container) >= 1,
  )
}

/** Rows are one group when most lead to different places. */
function groupOf(evidence: PageEvidence, container: number, rows: readonly number[]): RecordGroup[] {
  const targets = rows.map((row) => rowTarget(evidence, row))
  const linked = rows.filter((_, i) => targets[i] !== null)
  const distinct = new Set(targets.filter((target) => target !== null)).size
  if (linked.length < 2 || distinct < Math.max(2, linked.length * 0.6)) return []
  const { index, counts } = evidence
  const priced = linked.filter((row) => countIn(counts.amounts, index, row) > 0).length / linked.length
  const pictured = linked.filter((row) => countIn(counts.images, index, row) > 0).length / linked.length
  if (priced < 0.3 && pictured < 0.5) return []
  return [{ container, rows: linked, priced, pictured }]
}

/** Grid lines, and lists cut by date headings or advertisements: groups of like rows whose containers are sisters are one. */
function mergeSisters(evidence: PageEvidence, groups: readonly RecordGroup[]): RecordGroup[] {
  const { nodes } = evidence.index
  const byKey = new Map<string, RecordGroup[]>()
  for (const group of groups) {
    const container = nodes[group.container]!
    const key = `${container.parent}|${container.tag}|${nodes[group.rows[0]!]!.tag}|${container.tag === 'tr' || container.tag === 'tbody' ? '' : container.marks.slice(0, 40)}`
    const list = byKey.get(key)
    if (list) list.push(group)
    else byKey.set(key, [group])
  }
  const merged: RecordGroup[] = []
  for (const list of byKey.values()) {
    if (list.length === 1) merged.push(list[0]!)
    else {
      const rows = list.flatMap((group) => group.rows).sort((a, b) => a - b)
      const total = rows.length
      merged.push({
        container: nodes[list[0]!.container]!.parent,
        rows,
        priced: list.reduce((sum, group) => sum + group.priced * group.rows.length, 0) / total,
        pictured: list.reduce((sum, group) => sum + group.pictured * group.rows.length, 0) / total,
      })
    }
  }
  return merged
}

/**
 * Where a row of one group holds a whole other group, the outer "rows" are sections: the inner group is the records. But two
 * priced cells in a table row, or two thumbnails in a card, do not make the row a section.
 */
function keepDeepest(index: PageIndex, groups: readonly RecordGroup[]): RecordGroup[] {
  // Thousands of groups mean that every record holds one; the largest tell the page's lists.
  const sorted = [...groups]
    .sort((a, b) => b.rows.length - a.rows.length)
    .slice(0, GROUP_LIMIT)
    .sort((a, b) => a.container - b.container)
  return sorted.filter((outer) => {
    let holding = 0
    let innerRows = 0
    for (const inner of sorted) {
      const firstRow = inner.rows[0]!
      if (inner === outer || firstRow < outer.container || !isWithin(index, firstRow, outer.container)) continue
      const row = outer.rows.find((candidate) => candidate !== firstRow && isWithin(index, firstRow, candidate))
      if (row === undefined) continue
      // An inner group of pictures without prices inside priced rows is a strip of thumbnails or badges.
      if (outer.priced >= 0.5 && inner.priced < 0.5) continue
      holding += 1
      innerRows += inner.rows.length
    }
    if (holding === 0) return true
    return (
      innerRows <= holding * 2 &&
      holding < outer.rows.length &&
      outer.rows.length >= 4 &&
      holding < outer.rows.length * 0.3
    )
  })
}

interface GroupIndex {
  /** Place of the group + 1, 0 where an element is in no record. */
  readonly group: Uint16Array
  readonly row: Int32Array
}

const groupIndexes = new WeakMap<readonly RecordGroup[], GroupIndex>()

function indexGroups(index: PageIndex, groups: readonly RecordGroup[]): GroupIndex {
  let known = groupIndexes.get(groups)
  if (!known) {
    known = { group: new Uint16Array(index.nodes.length), row: new Int32Array(index.nodes.length).fill(-1) }
    // Backwards, so that where groups overlap the first has the last word.
    for (let i = groups.length - 1; i >= 0; i -= 1) {
      for (const row of groups[i]!.rows) {
        known.group.fill(i + 1, row, index.nodes[row]!.end)
        known.row.fill(row, row, index.nodes[row]!.end)
      }
    }
    groupIndexes.set(groups, known)
  }
  return known
}

/** The group that an element is a row of, or stands in. */
export function groupAt(
  index: PageIndex,
  groups: readonly RecordGroup[],
  at: number,
): { group: RecordGroup; row: number } | null {
  if (groups.length === 0) return null
  const known = indexGroups(index, groups)
  const place = known.group[at]
  return place ? { group: groups[place - 1]!, row: known.row[at]! } : null
}
