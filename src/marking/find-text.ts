/**
 * Finds quoted words on a page, across the page's own nodes, as ranges. White space and invisible characters do not count,
 * since a reader folds them. Changes nothing, and looks into open shadow roots, which a range cannot leave.
 */

export interface FindTextOptions {
  /** Hidden words are passed over where visible ones are found. */
  readonly isVisible: (element: Element) => boolean
  /** UTF-16 units of page text that are looked through; the rest is left. */
  readonly limit?: number
}

/** The reader's own budget is smaller than this; it only keeps a page without end from holding us up. Ours, no source. */
const LIMIT = 1_500_000

const SKIPPED = new Set(['SCRIPT', 'STYLE', 'NOSCRIPT', 'TEMPLATE', 'TEXTAREA', 'OPTION', 'TITLE'])

/** White space, soft hyphen, zero-width and bidirectional control characters: seen by nobody, folded by the reader. */
const UNSEEN = /[\s\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/

const WORD = /[\p{L}\p{N}]/u

/** One root's text without what is not seen, and where each unit of it stands. */
interface Folded {
  text: string
  readonly nodes: Text[]
  /** For each unit of `text`: index into `nodes`, and offset in that node. */
  readonly node: number[]
  readonly offset: number[]
}

/** The first visible place of `quote` in `root`, else the first hidden one, else `null`. */
export function findText(root: Node, quote: string, options: FindTextOptions): Range | null {
  const needle = fold(quote)
  if (needle === '') return null
  let hidden: Range | null = null
  for (const folded of foldRoots(root, options.limit ?? LIMIT)) {
    for (let at = folded.text.indexOf(needle); at >= 0; at = folded.text.indexOf(needle, at + 1)) {
      if (!standsAlone(folded, at, needle.length)) continue
      const range = rangeOf(folded, at, needle.length)
      const parent = range.startContainer.parentElement
      if (parent === null || options.isVisible(parent)) return range
      hidden ??= range
    }
  }
  return hidden
}

function fold(text: string): string {
  let folded = ''
  for (let i = 0; i < text.length; i++) {
    const unit = text[i]!
    if (!UNSEEN.test(unit)) folded += foldCase(unit)
  }
  return folded
}

/** Unit by unit, so that offsets stay: the few letters whose small form is longer keep theirs. */
function foldCase(unit: string): string {
  const small = unit.toLowerCase()
  return small.length === 1 ? small : unit
}

function* foldRoots(root: Node, limit: number): Generator<Folded> {
  let left = limit
  const pending: Node[] = [root]
  for (let next = pending.shift(); next !== undefined && left > 0; next = pending.shift()) {
    const folded: Folded = { text: '', nodes: [], node: [], offset: [] }
    const units: string[] = []
    const walker = (next.ownerDocument ?? (next as Document)).createTreeWalker(
      next,
      // SHOW_ELEMENT | SHOW_TEXT
      0x1 | 0x4,
      (node) => (SKIPPED.has(node.nodeName) ? 2 /* FILTER_REJECT */ : 1) /* FILTER_ACCEPT */,
    )
    for (let node: Node | null = walker.currentNode; node !== null && left > 0; node = walker.nextNode()) {
      if (node.nodeType === 1) {
        const shadow = (node as Element).shadowRoot
        if (shadow !== null) pending.push(shadow)
        continue
      }
      if (node.nodeType !== 3) continue
      const words = (node as Text).data
      left -= words.length
      const index = folded.nodes.push(node as Text) - 1
      for (let i = 0; i < words.length; i++) {
        const unit = words[i]!
        if (UNSEEN.test(unit)) continue
        units.push(foldCase(unit))
        folded.node.push(index)
        folded.offset.push(i)
      }
    }
    folded.text = units.join('')
    yield folded
  }
}

/** "no returns" is not found in "casino returns": a word must begin where the quote begins, and end where it ends. */
function standsAlone(folded: Folded, at: number, length: number): boolean {
  const touches = (before: number, after: number) => {
    if (before < 0 || after >= folded.text.length) return false
    if (!WORD.test(folded.text[before]!) || !WORD.test(folded.text[after]!)) return false
    if (folded.node[before] !== folded.node[after]) return sameBlock(folded, before, after)
    return folded.offset[after]! - folded.offset[before]! === 1
  }
  return !touches(at - 1, at) && !touches(at + length - 1, at + length)
}

/** Two text nodes side by side in one element are one word; across elements, that is anybody's guess, and we say no. */
function sameBlock(folded: Folded, before: number, after: number): boolean {
  const first = folded.nodes[folded.node[before]!]!
  const second = folded.nodes[folded.node[after]!]!
  return first.nextSibling === second && folded.offset[before] === first.data.length - 1 && folded.offset[after] === 0
}

function rangeOf(folded: Folded, at: number, length: number): Range {
  const last = at + length - 1
  const first = folded.nodes[folded.node[at]!]!
  const range = first.ownerDocument.createRange()
  range.setStart(first, folded.offset[at]!)
  range.setEnd(folded.nodes[folded.node[last]!]!, folded.offset[last]! + 1)
  return range
}
