/** The channels of `protocol.ts`, each entry with the schema of its parameters and of its result. */
import * as v from 'valibot'
import type { Channel } from '../platform/messaging.ts'
import type { Calls } from './protocol.ts'
import { PAGE_READING, SITE_HINT } from './reading-schema.ts'

const TEXT = v.pipe(v.string(), v.maxLength(50_000))
const SELECTOR = v.nullable(TEXT)
const STANCE = v.picklist(['wait', 'ask', 'nothing-open'])
const ORIGIN = v.pipe(v.string(), v.regex(/^https?:\/\/[^/]+$/))
const TAB_ID = v.pipe(v.number(), v.integer())

const LISTING_MARKS = v.strictObject({
  items: v.array(v.strictObject({ id: TEXT, quote: TEXT, where: SELECTOR })),
  mark: v.nullable(
    v.strictObject({
      where: SELECTOR,
      title: v.nullable(TEXT),
      stance: STANCE,
      label: TEXT,
      description: TEXT,
    }),
  ),
})

const ROW_MARK = v.strictObject({
  where: TEXT,
  label: TEXT,
  detail: TEXT,
  kind: v.picklist(['concerns', 'kept', 'not-a-single-card', 'wanted']),
})

/** A large page takes a slow machine some seconds to read. Ours, no source. */
const READ_TIMEOUT_MS = 20_000
/** A person looks for the price. They can press Escape; this ends a pick whose page was closed. */
const PICK_TIMEOUT_MS = 180_000

export const PANEL_TO_PAGE: Channel<Calls['panel-to-page']> = {
  name: 'panel-to-page',
  sender: 'extension',
  methods: {
    read: {
      params: v.strictObject({ hints: v.array(SITE_HINT) }),
      result: v.strictObject({
        reading: PAGE_READING,
        pageText: v.pipe(v.string(), v.maxLength(2_000_000)),
        photoOrigins: v.pipe(v.array(ORIGIN), v.maxLength(20)),
        messageBox: v.nullable(v.strictObject({ maxLength: v.nullable(v.pipe(v.number(), v.integer())) })),
      }),
      timeoutMs: READ_TIMEOUT_MS,
    },
    highlight: {
      params: LISTING_MARKS,
      result: v.strictObject({ found: v.array(TEXT) }),
    },
    scrollTo: {
      params: v.strictObject({ where: SELECTOR, quote: v.nullable(TEXT) }),
      result: v.strictObject({ found: v.boolean() }),
    },
    fillMessage: {
      params: v.strictObject({ text: TEXT }),
      result: v.strictObject({
        filled: v.boolean(),
        reason: v.nullable(v.picklist(['no-message-box', 'too-long', 'read-only'])),
      }),
    },
    pickElement: {
      params: v.strictObject({ prompt: TEXT }),
      result: v.nullable(v.strictObject({ selectors: v.array(TEXT), text: TEXT })),
      timeoutMs: PICK_TIMEOUT_MS,
    },
    cancelPick: { params: v.null(), result: v.null() },
    markRows: {
      params: v.strictObject({
        marks: v.array(ROW_MARK),
      }),
      result: v.strictObject({ marked: v.number() }),
    },
    clear: { params: v.null(), result: v.null() },
  },
}

export const PANEL_TO_BACKGROUND: Channel<Calls['panel-to-background']> = {
  name: 'panel-to-background',
  sender: 'extension',
  methods: {
    attach: {
      params: v.strictObject({ windowId: v.nullable(v.number()), tabId: v.nullable(TAB_ID) }),
      result: v.strictObject({ tabId: TAB_ID, url: v.nullable(v.string()) }),
    },
    alwaysOnSite: {
      params: v.strictObject({ origin: ORIGIN, photoOrigins: v.array(ORIGIN) }),
      result: v.strictObject({ registered: v.boolean() }),
    },
    neverOnSite: { params: v.strictObject({ origin: ORIGIN }), result: v.null() },
    deadlinesChanged: { params: v.null(), result: v.null() },
    sites: { params: v.null(), result: v.strictObject({ origins: v.array(ORIGIN) }) },
  },
}

export const PAGE_TO_BACKGROUND: Channel<Calls['page-to-background']> = {
  name: 'page-to-background',
  sender: 'content-script',
  methods: {
    openPanel: { params: v.null(), result: v.null() },
    judge: {
      params: v.strictObject({ reading: PAGE_READING }),
      result: v.nullable(v.strictObject({ listing: v.nullable(LISTING_MARKS), rows: v.array(ROW_MARK) })),
      timeoutMs: READ_TIMEOUT_MS,
    },
    labels: {
      params: v.strictObject({ languages: v.pipe(v.array(v.pipe(v.string(), v.maxLength(3))), v.maxLength(20)) }),
      result: v.record(v.string(), v.record(v.string(), v.array(TEXT))),
    },
  },
}

export const PAGE_TO_PANEL: Channel<Calls['page-to-panel']> = {
  name: 'page-to-panel',
  sender: 'content-script',
  methods: {
    pageChanged: { params: v.strictObject({ url: v.string() }), result: v.null() },
    markClicked: { params: v.null(), result: v.null() },
    isWatched: { params: v.null(), result: v.strictObject({ watched: v.boolean() }) },
  },
}

export const BACKGROUND_TO_PANEL: Channel<Calls['background-to-panel']> = {
  name: 'background-to-panel',
  sender: 'extension',
  methods: { pageGranted: { params: v.strictObject({ windowId: v.number() }), result: v.null() } },
}
