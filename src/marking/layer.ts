/**
 * The one element that we add to a page: an empty box at the document's end whose closed shadow root holds our marks, each laid
 * over the page at the place of the element it speaks of. It takes no room, so nothing of the page moves.
 */
import { OWN_TAG } from './own-nodes.ts'

export interface Placed {
  readonly node: HTMLElement
  /** In CSS pixels of the viewport; `null` hides the mark. */
  readonly place: () => { readonly left: number; readonly top: number } | null
}

export interface Layer {
  readonly document: Document
  add(placed: Placed): void
  take(node: HTMLElement): void
  /** Something moved. */
  arrange(): void
  remove(): void
}

const SHEET = `
:host { all: initial; position: absolute; top: 0; left: 0; width: 0; height: 0; z-index: 2147483647; color-scheme: light; }
.placed { position: absolute; display: block; box-sizing: border-box; }
.placed[hidden] { visibility: hidden; }
.tag {
  display: inline-flex; align-items: center; gap: 6px; padding: 0 8px 0 6px; min-height: 24px; width: max-content; max-width: 280px;
  border: 1px solid #566064; border-radius: 3px; background: #262d31; color: #f1f0ea;
  font: 600 13px/18px "Source Sans 3", system-ui, sans-serif; letter-spacing: 0; text-align: start; white-space: nowrap;
  box-shadow: 0 1px 2px rgb(0 0 0 / 18%); cursor: pointer;
}
.tag:hover { background: #353e43; }
.tag:focus-visible { outline: 2px solid #e3b75c; outline-offset: 2px; }
.tag.still { cursor: default; font-weight: 500; }
.tag svg { width: 32px; height: 10px; flex: none; overflow: visible; }
.tag svg.dot { width: 10px; height: 10px; }
.filled { fill: #e3b75c; stroke: none; }
.outlined { fill: none; stroke: #e3b75c; stroke-width: 1.4; }
.frame {
  border: 2px solid #765300; border-radius: 3px; outline: 2px solid #fcfcf9; background: rgb(227 183 92 / 22%); pointer-events: none;
}
.prompt {
  position: fixed; inset: 12px auto auto 50%; transform: translateX(-50%); max-width: min(560px, calc(100vw - 24px));
  padding: 10px 14px; border-radius: 3px; background: #262d31; color: #f1f0ea; border: 1px solid #566064;
  font: 500 15px/21px "Source Sans 3", system-ui, sans-serif; pointer-events: none; box-shadow: 0 6px 20px rgb(0 0 0 / 22%);
}
@media (forced-colors: active) { .tag, .prompt { border-color: CanvasText; } .frame { border-color: Highlight; } }
@media print { :host { display: none; } }
`

export function createLayer(window: Window & typeof globalThis): Layer {
  const { document } = window
  const host = document.createElement(OWN_TAG)
  const root = host.attachShadow({ mode: 'closed' })
  const sheet = new window.CSSStyleSheet()
  sheet.replaceSync(SHEET)
  root.adoptedStyleSheets = [sheet]
  const placed = new Map<HTMLElement, Placed>()
  const stop = new AbortController()
  let frame = 0

  function arrangeNow(): void {
    frame = 0
    // A page that rewrites its body throws us out; what we say still holds.
    if (!host.isConnected) document.documentElement.append(host)
    const origin = host.getBoundingClientRect()
    // Read every place before moving any mark, so that the page is laid out once.
    const places = [...placed.values()].map(({ node, place }) => ({ node, at: place() }))
    for (const { node, at } of places) {
      node.hidden = at === null
      if (at === null) continue
      node.style.left = `${Math.round(at.left - origin.left)}px`
      node.style.top = `${Math.round(at.top - origin.top)}px`
    }
  }
  function arrange(): void {
    if (frame === 0) frame = window.requestAnimationFrame(arrangeNow)
  }

  document.documentElement.append(host)
  const options = { capture: true, passive: true, signal: stop.signal }
  // The window's own scrolling carries an absolute box along; a scroller inside the page does not.
  document.addEventListener('scroll', (event) => event.target !== document && arrange(), options)
  window.addEventListener('resize', arrange, options)
  document.addEventListener('load', arrange, options)
  document.addEventListener('transitionend', arrange, options)

  return {
    document,
    add(item) {
      item.node.classList.add('placed')
      item.node.hidden = true
      placed.set(item.node, item)
      root.append(item.node)
      arrange()
    },
    take(node) {
      placed.delete(node)
      node.remove()
    },
    arrange,
    remove() {
      stop.abort()
      window.cancelAnimationFrame(frame)
      placed.clear()
      host.remove()
    },
  }
}
