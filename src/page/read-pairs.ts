/**
 * Label and value pairs as pages write them: definition lists, two-column tables, "Label: value" lines, bold lead-ins, pairs of
 * blocks in a repeated shape. In document order; the same pair is not given twice. Decides nothing about what a label means.
 */
import { hasLetter } from '../domain/letters.ts'
import { type IndexedNode, type PageIndex, textLengthOf, textOf } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'

export interface Pair {
  readonly label: string
  readonly value: string
  readonly labelNode: number
  readonly valueNode: number
  /** `list` and `table` pairs are specifics by their form; the others only where several stand together. */
  readonly form: 'list' | 'table' | 'line' | 'blocks' | 'heading'
}

/** A label is a few words; longer text before a colon is a sentence. */
const LABEL_LIMIT = 45
const VALUE_LIMIT = 600
const PAIR_LIMIT = 800

function cleanLabel(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/\s*[:：]\s*$/, '')
    .trim()
}

function isLabel(text: string): boolean {
  return text.length >= 1 && text.length <= LABEL_LIMIT && hasLetter(text) && !/[.!?]\s|https?:/.test(text)
}

/** Elements and lines between two chances to pause. */
const STEP = 1000

export function* readPairs(evidence: PageEvidence): Generator<undefined, Pair[]> {
  const { index, lexicon } = evidence
  const pairs: Pair[] = []
  const seen = new Set<string>()
  const taken = new Set<number>()
  const add = (label: string, value: string, labelNode: number, valueNode: number, form: Pair['form']): void => {
    const cleaned = cleanLabel(label)
    const trimmed = value.replace(/\s+/g, ' ').trim().slice(0, VALUE_LIMIT)
    if (!isLabel(cleaned) || trimmed === '' || trimmed === cleaned || pairs.length >= PAIR_LIMIT) return
    const key = `${cleaned}\u0000${trimmed}`
    if (seen.has(key)) return
    seen.add(key)
    pairs.push({ label: cleaned, value: trimmed, labelNode, valueNode, form })
  }
  for (const node of index.nodes) {
    if (node.at % STEP === 0) yield undefined
    if (node.hidden || pairs.length >= PAIR_LIMIT) continue
    if (node.tag === 'dl') readDefinitionList(index, node, add)
    else if (node.tag === 'tr') readTableRow(index, node, add)
    else if (node.children === 2 && node.tag !== 'a' && node.tag !== 'ul' && node.tag !== 'ol')
      readBlocks(evidence, node, add)
    else if (node.children >= 4 && node.children <= 60 && node.children % 2 === 0) readAlternating(index, node, add)
  }
  for (const line of index.lines) {
    if (line.at % STEP === 0) yield undefined
    if (line.hidden || line.text.length > VALUE_LIMIT) continue
    readLine(index, line.at, add, taken)
    // "Condition" on one line, "Near Mint" on the next: only for labels that we know.
    if (line.text.length <= LABEL_LIMIT && !taken.has(line.at)) {
      const next = index.lines[line.at + 1]
      if (next && !next.hidden && next.text.length <= 300 && lexicon.conceptsOf(line.text).length > 0) {
        add(line.text, next.text, line.node, next.node, 'heading')
      }
    }
  }
  return pairs.sort((a, b) => a.labelNode - b.labelNode)
}

type Add = (label: string, value: string, labelNode: number, valueNode: number, form: Pair['form']) => void

function childrenOf(index: PageIndex, node: IndexedNode): number[] {
  const children: number[] = []
  for (let at = node.at + 1; at < node.end; at = index.nodes[at]!.end) children.push(at)
  return children
}

function readDefinitionList(index: PageIndex, list: IndexedNode, add: Add): void {
  let label: number | null = null
  for (const outer of childrenOf(index, list)) {
    const inner = index.nodes[outer]!.tag === 'div' ? childrenOf(index, index.nodes[outer]!) : [outer]
    for (const at of inner) {
      const { tag } = index.nodes[at]!
      if (tag === 'dt') label = at
      else if (tag === 'dd' && label !== null) {
        add(textOf(index, label, 200), textOf(index, at, VALUE_LIMIT), label, at, 'list')
      }
    }
  }
}

function readTableRow(index: PageIndex, row: IndexedNode, add: Add): void {
  const cells = childrenOf(index, row).filter((at) => /^t[dh]$/.test(index.nodes[at]!.tag))
  if (cells.length !== 2 && cells.length !== 4) return
  // Four cells are two pairs only where labels are marked as such.
  const tags = cells.map((at) => index.nodes[at]!.tag)
  if (
    cells.length === 4 &&
    !(tags[0] === 'th' && tags[2] === 'th' && tags[1] === 'td') &&
    !cells.every((at, i) => i % 2 === 1 || /[:：]\s*$/.test(textOf(index, at, 60)))
  )
    return
  if (tags.every((tag) => tag === 'th')) return
  for (let i = 0; i + 1 < cells.length; i += 2) {
    const label = textOf(index, cells[i]!, 200)
    const value = textOf(index, cells[i + 1]!, VALUE_LIMIT)
    add(label, value, cells[i]!, cells[i + 1]!, 'table')
  }
}

/** A grid whose cells are label, value, label, value …, told apart by their class alone. */
function readAlternating(index: PageIndex, grid: IndexedNode, add: Add): void {
  const first = index.nodes[grid.at + 1]!
  const second = index.nodes[first.end]
  if (!second || first.tag !== second.tag || first.marks === second.marks || first.children > 1) return
  const cells = childrenOf(index, grid)
  const alike = cells.every((at, i) => {
    const cell = index.nodes[at]!
    return (
      cell.tag === first.tag &&
      cell.marks === (i % 2 === 0 ? first.marks : second.marks) &&
      cell.lastRun > cell.firstRun
    )
  })
  if (!alike || cells.some((at, i) => i % 2 === 0 && textLengthOf(index, at) > LABEL_LIMIT)) return
  for (let i = 0; i + 1 < cells.length; i += 2)
    add(textOf(index, cells[i]!, 200), textOf(index, cells[i + 1]!, VALUE_LIMIT), cells[i]!, cells[i + 1]!, 'table')
}

/** An element with two children, both short, the first reading as a label. */
function readBlocks(evidence: PageEvidence, node: IndexedNode, add: Add): void {
  const { index, lexicon } = evidence
  const [first, second] = childrenOf(index, node)
  if (first === undefined || second === undefined) return
  const a = index.nodes[first]!
  const b = index.nodes[second]!
  if (a.tag === 'dt' || a.tag === 'td' || a.tag === 'th' || a.tag === 'img' || b.tag === 'script') return
  if (a.firstRun === a.lastRun || b.firstRun === b.lastRun || a.lastRun - a.firstRun > 4) return
  const label = textOf(index, first, 200)
  if (!isLabel(cleanLabel(label))) return
  const colon = /[:：]\s*$/.test(label)
  const known = lexicon.conceptsOf(label).length > 0
  const shaped = isRepeatedShape(index, node)
  if (!colon && !known && !shaped) return
  const value = textOf(index, second, VALUE_LIMIT + 1)
  if (value.length > VALUE_LIMIT) return
  add(label, value, first, second, shaped || colon ? 'blocks' : 'heading')
}

/** Sisters of the same tag that also have two children: a list of pairs, whatever it is built of. */
function isRepeatedShape(index: PageIndex, node: IndexedNode): boolean {
  const parent = index.nodes[node.parent]
  if (!parent) return false
  let alike = 0
  let total = 0
  for (let at = parent.at + 1; at < parent.end && total < 60; at = index.nodes[at]!.end) {
    total += 1
    const sister = index.nodes[at]!
    if (sister.tag === node.tag && sister.children === 2 && sister.marks === node.marks) alike += 1
  }
  return alike >= 3 && alike >= total * 0.6
}

function readLine(index: PageIndex, at: number, add: Add, taken: Set<number>): void {
  const line = index.lines[at]!
  const colon = /[:：]/.exec(line.text)
  const firstRun = index.runs[line.firstRun]
  if (!firstRun) return
  if (colon && colon.index > 0 && colon.index <= LABEL_LIMIT) {
    const label = line.text.slice(0, colon.index)
    const rest = line.text.slice(colon.index + 1)
    // "12:30" and "https://" are no labels.
    if (/\d$/.test(label) && /^\d/.test(rest)) return
    if (rest.startsWith('//')) return
    if (rest.trim() === '') {
      const next = index.lines[at + 1]
      if (next && !next.hidden && next.text.length <= 300 && !/[:：]\s*$/.test(next.text)) {
        add(label, next.text, line.node, next.node, 'line')
        taken.add(at)
      }
      return
    }
    // Several pairs in one line: cut before the next bold or labelled part.
    const value = rest.split(/\s+[|•·]\s+/)[0]!
    const valueRun = runAtOffset(
      index,
      line.firstRun,
      line.lastRun,
      colon.index + 1 + (rest.length - rest.trimStart().length),
    )
    add(label, value, firstRun.node, valueRun, 'line')
    taken.add(at)
    return
  }
  // A bold lead-in without a colon: <li><b>Year</b> 1931</li>.
  const { tag } = index.nodes[firstRun.node]!
  if (
    (tag === 'b' || tag === 'strong' || tag === 'th') &&
    line.lastRun - line.firstRun >= 2 &&
    line.lastRun - line.firstRun <= 4
  ) {
    const end = firstRun.offset + firstRun.text.length
    const value = line.text.slice(end)
    if (value.length <= 200) {
      add(firstRun.text, value, firstRun.node, index.runs[line.firstRun + 1]!.node, 'line')
      taken.add(at)
    }
  }
}

function runAtOffset(index: PageIndex, firstRun: number, lastRun: number, offset: number): number {
  for (let i = firstRun; i < lastRun; i += 1) {
    const run = index.runs[i]!
    if (run.offset + run.text.length > offset) return run.node
  }
  return index.runs[firstRun]!.node
}
