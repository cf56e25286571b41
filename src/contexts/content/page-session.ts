/** What one content script does while its page is open. Wiring only: reading is `page`'s affair, marks are `marking`'s. */

import type { PageReading } from '../../domain/listing.ts'
import type { SiteHint } from '../../domain/site-hint.ts'
import { createSelectors } from '../../marking/create-selectors.ts'
import { fillMessageBox } from '../../marking/fill-message-box.ts'
import { findText } from '../../marking/find-text.ts'
import { createHighlighter } from '../../marking/highlight-quotes.ts'
import { createLayer, type Layer } from '../../marking/layer.ts'
import { markRows } from '../../marking/mark-rows.ts'
import { markTitle } from '../../marking/mark-title.ts'
import { pickElement } from '../../marking/pick-element.ts'
import { watchPage } from '../../marking/watch-page.ts'
import { findMessageBox } from '../../page/find-message-box.ts'
import { createLayoutProbe } from '../../page/layout-probe.ts'
import { type Labels, type Language, registerLabels } from '../../page/lexicon.ts'
import { readPageInPieces } from '../../page/read-page-in-pieces.ts'
import { readPageText } from '../../page/read-page-text.ts'
import { now } from '../../platform/clock.ts'
import { browserReceiver, toExtension } from '../../platform/message-wire.ts'
import { createCall, handle } from '../../platform/messaging.ts'
import { PAGE_TO_BACKGROUND, PAGE_TO_PANEL, PANEL_TO_PAGE } from '../channels.ts'
import type { ListingMarks, PageSnapshot, RowMark } from '../protocol.ts'

export interface PageSession {
  isAlive(): boolean
  end(): void
}

/** UTF-16 units of the page's visible text that a dossier keeps: a long description several times over. Ours, no source. */
const PAGE_TEXT_LIMIT = 200_000
/** More hosts than this are not a listing's photos. Ours, no source. */
const MOST_PHOTO_ORIGINS = 10

export function startSession(window: Window & typeof globalThis, isConnected: () => boolean): PageSession {
  const { document } = window
  const life = new AbortController()
  const { signal } = life
  const callBackground = createCall(PAGE_TO_BACKGROUND, toExtension)
  const callPanel = createCall(PAGE_TO_PANEL, toExtension)
  const highlighter = createHighlighter(window)
  let layer: Layer | null = null
  let takeTitleMark: (() => void) | null = null
  let takeRowMarks: (() => void) | null = null
  let pick: AbortController | null = null
  let hints: readonly SiteHint[] = []
  let lastRead: string | null = null
  let lastMarks: ListingMarks | null = null
  /** The address on which the person took our marks away. */
  let dismissedOn: string | null = null

  const openLayer = (): Layer => {
    layer ??= createLayer(window)
    return layer
  }

  function clear(): void {
    pick?.abort()
    takeTitleMark?.()
    takeRowMarks?.()
    takeTitleMark = takeRowMarks = null
    highlighter.remove()
    layer?.remove()
    layer = null
  }

  function isDismissed(): boolean {
    return dismissedOn === window.location.href
  }

  /** The person wants to see this page bare: what is found later (a photo examined, a page filled late) does not mark it again. */
  function dismiss(): void {
    dismissedOn = window.location.href
    clear()
  }

  /** They ask to be led to a place. */
  function bringBackMarks(): void {
    if (!isDismissed()) return
    dismissedOn = null
    if (lastMarks !== null) showListing(lastMarks)
  }

  function end(): void {
    life.abort()
    clear()
  }

  const isVisible = (element: Element) =>
    element.checkVisibility({ opacityProperty: true, visibilityProperty: true, contentVisibilityAuto: true })

  /** In pieces, so that a large page stays usable meanwhile. `null`: this session ended. */
  function read(): Promise<PageReading | null> {
    const probe = createLayoutProbe(window)
    const options = { url: window.location.href, now: now(), probe, hints }
    return readPageInPieces(document, options, { time: () => performance.now(), pause: giveWay, loadLabels, signal })
  }

  /** The page's script carries English label words alone; the others lie with the background. */
  async function loadLabels(languages: readonly Language[]): Promise<void> {
    const answer = await callBackground('labels', { languages: [...languages] }, { signal })
    if (answer.ok)
      for (const [language, labels] of Object.entries(answer.value))
        registerLabels(language as Language, labels as Labels)
  }

  /** A selector comes from our own reading, but the page may have changed under it, and then it may no longer parse. */
  function query(selector: string | null): Element | null {
    if (selector === null) return null
    try {
      return document.querySelector(selector)
    } catch {
      return null
    }
  }

  function find(where: string | null, quote: string | null): Range | null {
    const element = query(where)
    if (quote !== null) {
      const within = element && findText(element, quote, { isVisible })
      const range = within ?? findText(document.body, quote, { isVisible })
      if (range !== null) return range
    }
    if (element === null || quote !== null) return null
    const range = document.createRange()
    range.selectNodeContents(element)
    return range
  }

  async function snapshot(): Promise<PageSnapshot> {
    const reading = await read()
    if (reading === null) throw new Error('the page was left while it was read')
    lastRead = JSON.stringify(reading)
    const photos = reading.kind === 'listing' ? reading.photos.map((photo) => photo.url) : []
    const box = findMessageBox(document)
    return {
      reading,
      pageText: readPageText(document, PAGE_TEXT_LIMIT),
      photoOrigins: photoOrigins(photos),
      messageBox: box && { maxLength: box.maxLength },
    }
  }

  /** Ids whose words were found. */
  function showListing(marks: ListingMarks): string[] {
    const { items, mark } = marks
    const found = items.flatMap(({ id, quote, where }) => {
      const range = find(where, quote)
      return range === null ? [] : [{ id, range }]
    })
    lastMarks = marks
    if (isDismissed()) return found.map(({ id }) => id)
    highlighter.show(found.map(({ range }) => range))
    takeTitleMark?.()
    takeTitleMark = null
    const title = mark && find(mark.where, mark.title)
    if (mark && title) {
      takeTitleMark = markTitle(openLayer(), title, mark, () => {
        // The background opens a closed panel while the click still counts; an open one is told to look up.
        void callBackground('openPanel', null)
        void callPanel('markClicked', null)
      })
    }
    return found.map(({ id }) => id)
  }

  function showRows(marks: readonly RowMark[]): number {
    takeRowMarks?.()
    const rows = marks.flatMap((mark) => {
      const row = query(mark.where)
      return row === null ? [] : [{ row, content: mark }]
    })
    takeRowMarks = rows.length > 0 && !isDismissed() ? markRows(openLayer(), rows) : null
    return rows.length
  }

  /** On a switched-on site the words are judged without a panel; a panel that looks at this page does more, by itself. */
  async function judgeAlone(reading: PageReading): Promise<void> {
    const watching = await callPanel('isWatched', null, { signal })
    if (watching.ok && watching.value.watched) return
    const judged = await callBackground('judge', { reading }, { signal })
    if (!judged.ok || judged.value === null || signal.aborted) return
    if (judged.value.listing !== null) showListing(judged.value.listing)
    showRows(judged.value.rows)
  }

  handle(
    PANEL_TO_PAGE,
    {
      read: async (params) => {
        hints = params.hints
        return snapshot()
      },
      highlight: async (marks) => ({ found: showListing(marks) }),
      scrollTo: async ({ where, quote }) => {
        const range = find(where, quote) ?? find(where, null)
        const element =
          range?.startContainer instanceof window.Element ? range.startContainer : range?.startContainer.parentElement
        if (!range || !element) return { found: false }
        bringBackMarks()
        const still = window.matchMedia('(prefers-reduced-motion: reduce)').matches
        element.scrollIntoView({ block: 'center', behavior: still ? 'instant' : 'smooth' })
        highlighter.point(range)
        return { found: true }
      },
      fillMessage: async ({ text }) => {
        const box = findMessageBox(document)
        if (box === null) return { filled: false, reason: 'no-message-box' as const }
        box.element.scrollIntoView({ block: 'nearest' })
        return fillMessageBox(box.element, text)
      },
      pickElement: async ({ prompt }) => {
        pick?.abort()
        const mine = new AbortController()
        pick = mine
        const picked = await pickElement(openLayer(), prompt, mine.signal)
        if (pick === mine) pick = null
        if (picked === null) return null
        // biome-ignore lint/performance/useDomNodeTextContent: the words as they are seen are what the person pointed at
        return { selectors: createSelectors(picked), text: (picked as HTMLElement).innerText ?? '' }
      },
      cancelPick: async () => {
        pick?.abort()
        return null
      },
      markRows: async ({ marks }) => ({ marked: showRows(marks) }),
      clear: async () => {
        clear()
        return null
      },
    },
    browserReceiver(),
    signal,
  )

  let looks = 0
  /** `changed`: the address, where the page has changed since it was last read. */
  async function look(changed: string | null): Promise<void> {
    looks += 1
    const mine = looks
    const reading = await read()
    // The page settled once more meanwhile: that look counts.
    if (reading === null || mine !== looks) return
    const words = JSON.stringify(reading)
    if (words === lastRead) return
    lastRead = words
    if (changed !== null) void callPanel('pageChanged', { url: changed })
    void judgeAlone(reading)
  }

  watchPage(window, {
    signal,
    onSettled: (url) => {
      if (!isConnected()) return end()
      layer?.arrange()
      void look(url)
    },
  })
  // One key takes every mark away. The page hears it too: it may have something of its own to close.
  window.addEventListener('keydown', (event) => event.key === 'Escape' && pick === null && dismiss(), {
    signal,
    capture: true,
  })

  void look(null)

  return { isAlive: () => !signal.aborted && isConnected(), end }
}

/** The page's own work comes first. A message, unlike a timer, is not held back in a tab that is not looked at. */
function giveWay(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = () => {
      port1.close()
      resolve()
    }
    port2.postMessage(null)
  })
}

function photoOrigins(urls: readonly string[]): string[] {
  const origins = urls.filter((url) => /^https?:/i.test(url) && URL.canParse(url)).map((url) => new URL(url).origin)
  return [...new Set(origins)].slice(0, MOST_PHOTO_ORIGINS)
}
