/**
 * A long list of rows of one height, of which only those in sight exist. Arrow keys, Home and End move through all of it;
 * Tab enters at the row that was last active and leaves again.
 */
import { elementScroll, observeElementOffset, observeElementRect, Virtualizer } from '@tanstack/virtual-core'
import type { ComponentChildren } from 'preact'
import { useLayoutEffect, useReducer, useRef, useState } from 'preact/hooks'

interface VirtualListProps<T> {
  readonly items: ArrayLike<T>
  /** In CSS pixels. */
  readonly rowHeight: number
  readonly label: string
  readonly keyOf: (item: T) => string
  /** One focusable element, which takes `tabIndex` as handed in. */
  readonly row: (item: T, tabIndex: 0 | -1) => ComponentChildren
}

export function VirtualList<T>({ items, rowHeight, label, keyOf, row }: VirtualListProps<T>) {
  const scroller = useRef<HTMLUListElement>(null)
  const [, redraw] = useReducer((count: number) => count + 1, 0)
  const [active, setActive] = useState(0)
  const focusNext = useRef(false)
  const options = {
    count: items.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => rowHeight,
    overscan: 8,
    // What is drawn before the first measurement.
    initialRect: { width: 800, height: 900 },
    observeElementRect,
    observeElementOffset,
    scrollToFn: elementScroll,
    onChange: () => redraw(undefined),
  }
  const [virtual] = useState(() => new Virtualizer<HTMLUListElement, HTMLLIElement>(options))
  virtual.setOptions(options)
  useLayoutEffect(() => virtual._didMount(), [virtual])
  useLayoutEffect(() => virtual._willUpdate())
  useLayoutEffect(() => {
    if (!focusNext.current) return
    focusNext.current = false
    scroller.current?.querySelector<HTMLElement>(`[data-index="${active}"] a, [data-index="${active}"] button`)?.focus()
  })

  const current = Math.min(active, items.length - 1)
  const move = (to: number) => {
    const next = Math.max(0, Math.min(items.length - 1, to))
    virtual.scrollToIndex(next)
    focusNext.current = true
    setActive(next)
  }
  const MOVES: Readonly<Record<string, number>> = {
    ArrowDown: current + 1,
    ArrowUp: current - 1,
    PageDown: current + 10,
    PageUp: current - 10,
    Home: 0,
    End: items.length - 1,
  }

  return (
    <ul
      ref={scroller}
      class="virtual-list"
      aria-label={label}
      onKeyDown={(event) => {
        const to = MOVES[event.key]
        if (to === undefined || event.ctrlKey || event.metaKey || event.altKey) return
        event.preventDefault()
        move(to)
      }}
    >
      <li class="virtual-height" style={{ height: `${virtual.getTotalSize()}px` }} aria-hidden="true" />
      {virtual.getVirtualItems().map(({ index, start }) => {
        const item = items[index]
        return item === undefined ? null : (
          <li
            key={keyOf(item)}
            data-index={index}
            aria-setsize={items.length}
            aria-posinset={index + 1}
            class="virtual-row"
            style={{ height: `${rowHeight}px`, transform: `translateY(${start}px)` }}
            onFocusIn={() => setActive(index)}
          >
            {row(item, index === current ? 0 : -1)}
          </li>
        )
      })}
    </ul>
  )
}
