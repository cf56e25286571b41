/**
 * When the control that had the focus is gone from the screen – settled, saved, deleted –, the focus goes to the screen
 * itself rather than to nowhere, so that Tab goes on from there (WCAG 2.4.3).
 */
import type { RefObject } from 'preact'
import { useEffect, useRef } from 'preact/hooks'

export function useKeptFocus(screen: RefObject<HTMLElement | null>): void {
  const last = useRef<Element | null>(null)
  useEffect(() => {
    const remember = (event: FocusEvent) => {
      last.current = event.target as Element
    }
    document.addEventListener('focusin', remember)
    const watcher = new MutationObserver(() => {
      const lost = last.current !== null && !last.current.isConnected && document.activeElement === document.body
      if (!lost) return
      last.current = null
      screen.current?.focus({ preventScroll: true })
    })
    watcher.observe(document.body, { childList: true, subtree: true })
    return () => {
      document.removeEventListener('focusin', remember)
      watcher.disconnect()
    }
  }, [screen])
}
