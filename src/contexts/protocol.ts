/**
 * Every message between contexts: one typed map for each directed pair, each entry with its parameters and its result.
 * `call` and `handle` in `platform/messaging.ts` are inferred from these maps; a handler table that misses an entry
 * does not compile. Payloads are parsed on receipt (`channels.ts`). Only plain data: bytes go through IndexedDB, by SHA-256.
 */
import type { Stance } from '../domain/inspection.ts'
import type { PageReading } from '../domain/listing.ts'
import type { SiteHint } from '../domain/site-hint.ts'

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

/** The small mark beside the listing's title. */
export interface TitleMark {
  /** CSS selector of the title's element, tried before the title's words. */
  readonly where: string | null
  readonly title: string | null
  readonly stance: Stance
  /** Seen: `3 open`. */
  readonly label: string
  /** Read out, and shown on hover: `Touchstone: 3 concerns are open. Show them.` */
  readonly description: string
}

export interface RowMark {
  /** CSS selector of the row. */
  readonly where: string
  readonly label: string
  readonly detail: string
  readonly kind: 'concerns' | 'kept' | 'not-a-single-card' | 'wanted'
}

export interface ListingMarks {
  readonly items: readonly HighlightRequest[]
  readonly mark: TitleMark | null
}

/** What is shown on a page of a switched-on site while no panel stands beside it. */
export interface PageMarks {
  readonly listing: ListingMarks | null
  readonly rows: readonly RowMark[]
}

export interface PickedElement {
  /** CSS selectors of the element, from the most robust to the last resort. */
  readonly selectors: readonly string[]
  readonly text: string
}

export type Calls = {
  /** panel → content script of one tab, through `tabs.sendMessage` */
  'panel-to-page': {
    read: { params: { hints: readonly SiteHint[] }; result: PageSnapshot }
    /** Answers the ids whose words were found. */
    highlight: { params: ListingMarks; result: { found: readonly string[] } }
    scrollTo: { params: { where: string | null; quote: string | null }; result: { found: boolean } }
    /** Put the words into the page's own message box. Never submits. */
    fillMessage: {
      params: { text: string }
      result: { filled: boolean; reason: 'no-message-box' | 'too-long' | 'read-only' | null }
    }
    /** Let the person point at an element; resolves when they did, or `null` when they gave up. */
    pickElement: { params: { prompt: string }; result: PickedElement | null }
    cancelPick: { params: null; result: null }
    markRows: { params: { marks: readonly RowMark[] }; result: { marked: number } }
    /** Everything of ours leaves the page. */
    clear: { params: null; result: null }
  }
  /** panel, desk or set-up → background */
  'panel-to-background': {
    /**
     * The tab in front of this window, or `tabId` for a panel that stands in a tab of its own, with the content script
     * injected. Fails with `no-tab`, `forbidden-page` or `no-permission`.
     */
    attach: { params: { windowId: number | null; tabId: number | null }; result: { tabId: number; url: string | null } }
    /** After the permission was given: the script of this site, on every visit. */
    alwaysOnSite: { params: { origin: string; photoOrigins: readonly string[] }; result: { registered: boolean } }
    neverOnSite: { params: { origin: string }; result: null }
    sites: { params: null; result: { origins: readonly string[] } }
    /** A deadline was set, met or lifted: the next reminder may be another. */
    deadlinesChanged: { params: null; result: null }
  }
  /** content script → background */
  'page-to-background': {
    /** A click on our mark; carries the person's gesture where the browser passes it on. */
    openPanel: { params: null; result: null }
    /** What the words of this page say, on a switched-on site; `null` on every other. */
    judge: { params: { reading: PageReading }; result: PageMarks | null }
    /** Label words by language and concept, for the languages of this page. */
    labels: { params: { languages: string[] }; result: Record<string, Record<string, string[]>> }
  }
  /** content script → panel beside it */
  'page-to-panel': {
    /** The page settled after a change, or its address changed without a load. */
    pageChanged: { params: { url: string }; result: null }
    markClicked: { params: null; result: null }
    /** Whether a panel looks at this page; it then marks the page itself. */
    isWatched: { params: null; result: { watched: boolean } }
  }
  /** background → panel */
  'background-to-panel': {
    /** The toolbar button was pressed: the tab in front of this window may be read now. */
    pageGranted: { params: { windowId: number }; result: null }
  }
}
