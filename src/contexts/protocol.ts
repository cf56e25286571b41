/**
 * Every message between contexts: one typed map for each directed pair, each entry with its parameters and its result.
 * `call` and `handle` in `platform/messaging.ts` are inferred from these maps; a handler table that misses an entry
 * does not compile. Payloads are parsed on receipt. Only plain data: bytes go through IndexedDB, by SHA-256.
 */
import type { PageReading } from '../domain/listing.ts'

/** What a content script knows of its page, besides the reading. */
export interface PageSnapshot {
  readonly reading: PageReading
  /** The page's visible text, cut at the reader's budget. */
  readonly pageText: string
  /** Origins of the listing's photos, for the one permission question. */
  readonly photoOrigins: readonly string[]
  /** The page's message box, if it has one: its length limit (`null`: none stated). */
  readonly messageBox: { readonly maxLength: number | null } | null
}

/** Words to highlight on the page: by text, since offsets of a field are not offsets of the page. */
export interface HighlightRequest {
  readonly id: string
  readonly quote: string
  /** CSS selector of the element to search in first. */
  readonly where: string | null
}

export interface RowMark {
  /** CSS selector of the row. */
  readonly where: string
  readonly label: string
  readonly detail: string
  readonly kind: 'concerns' | 'kept' | 'not-a-single-card' | 'clear'
}

export type Calls = {
  /** panel → content script of one tab, through `tabs.sendMessage` */
  'panel-to-page': {
    read: { params: Record<string, never>; result: PageSnapshot }
    highlight: {
      params: { items: readonly HighlightRequest[]; title: string | null; markLabel: string }
      result: { found: readonly string[] }
    }
    clearHighlights: { params: Record<string, never>; result: null }
    scrollTo: { params: { where: string | null; quote: string | null }; result: { found: boolean } }
    /** Put the words into the page's own message box. Never submits. */
    fillMessage: { params: { text: string }; result: { filled: boolean; reason: string | null } }
    /** Let the person point at an element; resolves when they did, or `null` when they gave up. */
    pickElement: { params: { field: string; prompt: string }; result: { where: string; text: string } | null }
    markRows: { params: { marks: readonly RowMark[] }; result: null }
  }
  /** panel, desk or set-up → background */
  'panel-to-background': {
    /** The tab this panel stands beside, with the content script injected; an error says why not. */
    attach: { params: { windowId: number | null }; result: { tabId: number; url: string | null } }
    screenshot: { params: { windowId: number | null }; result: { dataUrl: string } }
    alwaysOnSite: { params: { origin: string; photoOrigins: readonly string[] }; result: { registered: boolean } }
    neverOnSite: { params: { origin: string }; result: null }
    openDesk: { params: { path: string }; result: null }
  }
  /** content script → background, which passes it on to an open panel */
  'page-to-background': {
    pageChanged: { params: { url: string }; result: null }
    markClicked: { params: { rule: string | null }; result: null }
    cardsOnPage: { params: { reading: PageReading }; result: { marks: readonly RowMark[] } }
  }
  /** background → panel */
  'background-to-panel': {
    pageChanged: { params: { tabId: number; url: string }; result: null }
    tabActivated: { params: { tabId: number; url: string | null }; result: null }
    focusConcern: { params: { rule: string | null }; result: null }
  }
}

export type Channel = keyof Calls
