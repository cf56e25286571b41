/**
 * Tells when a page has settled after it changed, or went to another address without loading. Pages fill late and some never
 * rest: there is a longest wait, and each further call on the same address waits longer.
 */
import { isOwnMutation } from './own-nodes.ts'

export interface WatchOptions {
  readonly signal: AbortSignal
  readonly onSettled: (url: string) => void
  /** Milliseconds of quiet that count as settled. */
  readonly quietMs?: number
  /** Milliseconds after which a restless page is looked at anyway. */
  readonly longestMs?: number
}

/** A page's own rendering comes in bursts some hundred ms apart; a person notices a wait of a second. Ours, no source. */
const QUIET_MS = 500
const LONGEST_MS = 3_000
/** The wait doubles from `QUIET_MS` up to this, so that a ticking countdown costs next to nothing. Ours, no source. */
const SLOWEST_MS = 30_000

export function watchPage(window: Window & typeof globalThis, options: WatchOptions): void {
  const { signal, onSettled, quietMs = QUIET_MS, longestMs = LONGEST_MS } = options
  const { document, location } = window
  let url = location.href
  let pause = quietMs
  let calledAt = Number.NEGATIVE_INFINITY
  let dirtySince: number | null = null
  let timer: ReturnType<typeof setTimeout> | undefined

  function settle(): void {
    dirtySince = null
    calledAt = performance.now()
    if (location.href !== url) {
      url = location.href
      pause = quietMs
    } else {
      pause = Math.min(pause * 2, SLOWEST_MS)
    }
    onSettled(url)
  }
  function stir(): void {
    const time = performance.now()
    dirtySince ??= time
    clearTimeout(timer)
    const moved = location.href !== url
    const earliest = moved ? time : calledAt + pause
    const latest = Math.max(dirtySince + longestMs, earliest)
    timer = setTimeout(settle, Math.max(0, Math.min(Math.max(time + quietMs, earliest), latest) - time))
  }

  const observer = new window.MutationObserver((records) => {
    if (!records.every(isOwnMutation)) stir()
  })
  observer.observe(document, {
    subtree: true,
    childList: true,
    characterData: true,
    attributes: true,
    attributeFilter: ['src', 'srcset', 'hidden', 'content'],
  })
  const onMove = () => location.href !== url && stir()
  window.addEventListener('popstate', onMove, { signal })
  window.addEventListener('hashchange', onMove, { signal })
  // `pushState` of the page's own scripts is told by the Navigation API alone, where there is one.
  ;(window as { navigation?: EventTarget }).navigation?.addEventListener('currententrychange', onMove, { signal })
  signal.addEventListener(
    'abort',
    () => {
      observer.disconnect()
      clearTimeout(timer)
    },
    { once: true },
  )
}
