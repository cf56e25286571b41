/**
 * Quoted evidence, highlighted by the CSS Custom Highlight API: the page's nodes stay as they are, and the page's styles
 * are only added to by one sheet, which goes again. The page can see highlight names, so ours begin with our own.
 */
import { EVIDENCE, POINTED } from './own-nodes.ts'

const SHEET = `
::highlight(${EVIDENCE}) { background-color: #f0d79a; color: #1b2023; text-decoration: underline 2px #765300; }
::highlight(${POINTED}) { background-color: #262d31; color: #f1f0ea; text-decoration: underline 2px #e3b75c; }
`

/** How long a place that was scrolled to stays marked, in ms: long enough to find it with the eye. Ours, no source. */
const POINTED_MS = 2_600

export interface Highlighter {
  /** Replaces what is highlighted as evidence. */
  show(ranges: readonly Range[]): void
  /** Marks one place for a moment. */
  point(range: Range): void
  remove(): void
}

export function createHighlighter(window: Window & typeof globalThis): Highlighter {
  const { document } = window
  let sheet: CSSStyleSheet | null = null
  const adopters = new Set<Document | ShadowRoot>()
  let timer: ReturnType<typeof setTimeout> | undefined

  /** Firefox applies a document's highlight rules to the document alone: each shadow root adopts the sheet. */
  function adopt(ranges: readonly Range[]): void {
    if (sheet === null) {
      sheet = new window.CSSStyleSheet()
      sheet.replaceSync(SHEET)
    }
    for (const root of [document, ...ranges.map((range) => range.startContainer.getRootNode())]) {
      if (!isAdopter(root) || adopters.has(root)) continue
      root.adoptedStyleSheets = [...root.adoptedStyleSheets, sheet]
      adopters.add(root)
    }
  }

  return {
    show(ranges) {
      window.CSS.highlights.delete(EVIDENCE)
      if (ranges.length === 0) return
      adopt(ranges)
      window.CSS.highlights.set(EVIDENCE, new window.Highlight(...ranges))
    },
    point(range) {
      adopt([range])
      const pointed = new window.Highlight(range)
      pointed.priority = 1
      window.CSS.highlights.set(POINTED, pointed)
      clearTimeout(timer)
      timer = setTimeout(() => window.CSS.highlights.delete(POINTED), POINTED_MS)
    },
    remove() {
      clearTimeout(timer)
      window.CSS.highlights.delete(EVIDENCE)
      window.CSS.highlights.delete(POINTED)
      for (const root of adopters) {
        root.adoptedStyleSheets = root.adoptedStyleSheets.filter((adopted) => adopted !== sheet)
      }
      adopters.clear()
      sheet = null
    },
  }
}

function isAdopter(root: Node): root is Document | ShadowRoot {
  return root.nodeType === 9 || (root.nodeType === 11 && 'adoptedStyleSheets' in root)
}
