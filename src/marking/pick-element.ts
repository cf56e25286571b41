/**
 * "Point at the price": a frame follows the pointer or the arrow keys, a click or Enter picks, Escape gives up. While it lasts
 * the page hears neither click nor key; afterwards it hears everything again.
 */

import type { Layer } from './layer.ts'
import { isOwnNode } from './own-nodes.ts'

/** Resolves `null` when the person gave up or `signal` aborted. */
export function pickElement(layer: Layer, prompt: string, signal: AbortSignal): Promise<Element | null> {
  const { document } = layer
  const frame = document.createElement('div')
  frame.className = 'frame'
  const words = document.createElement('div')
  words.className = 'prompt'
  words.setAttribute('role', 'status')
  words.textContent = prompt
  let current: Element | null = null

  layer.add({
    node: frame,
    place: () => {
      const box = current?.getBoundingClientRect()
      if (!box || box.width === 0) return null
      frame.style.width = `${Math.round(box.width)}px`
      frame.style.height = `${Math.round(box.height)}px`
      return box
    },
  })
  layer.add({ node: words, place: () => ({ left: 0, top: 0 }) })
  // The prompt stands in the window, not at an element.
  words.classList.remove('placed')

  return new Promise((resolve) => {
    const over = new AbortController()
    function end(picked: Element | null): void {
      over.abort()
      layer.take(frame)
      layer.take(words)
      resolve(picked)
    }
    function show(element: Element | null): void {
      if (element === null || isOwnNode(element)) return
      current = element
      layer.arrange()
    }
    function hold(event: Event): void {
      event.preventDefault()
      event.stopImmediatePropagation()
    }
    function underPointer(event: MouseEvent): Element | null {
      return event.composedPath().find((target): target is Element => (target as Node).nodeType === 1) ?? null
    }
    function onKey(event: KeyboardEvent): void {
      const next = stepFrom(current ?? document.body, event.key)
      if (event.key === 'Escape') end(null)
      else if (event.key === 'Enter' && current !== null) end(current)
      else if (next !== null) {
        next.scrollIntoView({ block: 'nearest' })
        show(next)
      } else if (event.key !== 'Enter') return
      hold(event)
    }
    const options = { capture: true, signal: over.signal }
    const { defaultView: window } = document
    window?.addEventListener('pointermove', (event) => show(underPointer(event)), options)
    for (const name of ['pointerdown', 'pointerup', 'mousedown', 'mouseup'] as const)
      window?.addEventListener(name, hold, options)
    window?.addEventListener(
      'click',
      (event) => {
        hold(event)
        end(underPointer(event))
      },
      options,
    )
    window?.addEventListener('keydown', onKey, options)
    signal.addEventListener('abort', () => end(null), { once: true, signal: over.signal })
    if (signal.aborted) end(null)
  })
}

/** Up to what encloses it, down into it, left and right to its neighbours; `null` where the key says nothing. */
function stepFrom(element: Element, key: string): Element | null {
  switch (key) {
    case 'ArrowUp':
      return element.parentElement ?? element
    case 'ArrowDown':
      return element.firstElementChild ?? element
    case 'ArrowLeft':
      return element.previousElementSibling ?? element
    case 'ArrowRight':
      return element.nextElementSibling ?? element
    default:
      return null
  }
}
