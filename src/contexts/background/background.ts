/**
 * The service worker (Chromium) or event page (Firefox): opens the panel inside the person's gesture, puts the content script
 * into pages, keeps the list of switched-on sites. It may be ended at any moment, so every listener is registered
 * synchronously here and nothing is kept in memory.
 */

import { labelsOf } from '../../page/all-labels.ts'
import { createMenu, onMenuClick } from '../../platform/context-menu.ts'
import { onBrowserStart, onInstalled } from '../../platform/life-cycle.ts'
import { browserReceiver, toExtension } from '../../platform/message-wire.ts'
import { createCall, handle } from '../../platform/messaging.ts'
import { onPermissionsLost } from '../../platform/permissions.ts'
import { onToolbarClick, openPanel } from '../../platform/side-panel.ts'
import { openOwnPage } from '../../platform/tabs.ts'
import { BACKGROUND_TO_PANEL, PAGE_TO_BACKGROUND, PANEL_TO_BACKGROUND } from '../channels.ts'
import { attach } from './attach.ts'
import { remind, watchDeadlines } from './deadlines.ts'
import { judgePage } from './judge-page.ts'
import { readSites, registerSites, switchOff, switchOn } from './sites.ts'

const MENU_INSPECT = 'inspect'
const MENU_DESK = 'desk'

const callPanel = createCall(BACKGROUND_TO_PANEL, toExtension)

/** Nothing may be awaited before the panel opens: the gesture would be gone. */
function inspectHere(windowId: number): void {
  // A browser that refuses leaves the person where they were; the panel can still be opened from the browser's own menu.
  openPanel(windowId).catch((error) => console.warn('the panel did not open:', error))
  // A panel that is open already learns that it may read this page now; a new one asks by itself.
  void callPanel('pageGranted', { windowId })
}

onToolbarClick(inspectHere)

onMenuClick((id, windowId) => {
  if (id === MENU_INSPECT && windowId !== null) inspectHere(windowId)
  if (id === MENU_DESK) void openOwnPage('desk/index.html')
})

onInstalled((first) => {
  void createMenu([
    { id: MENU_INSPECT, message: 'menuInspect', contexts: ['page', 'link', 'image', 'selection'] },
    { id: MENU_DESK, message: 'menuDesk', contexts: ['action'] },
  ])
  void registerSites()
  if (first) void openOwnPage('setup/index.html')
})
onBrowserStart(() => {
  void registerSites()
  void remind()
})
watchDeadlines()
onPermissionsLost(() => void registerSites())

handle(
  PANEL_TO_BACKGROUND,
  {
    attach,
    alwaysOnSite: async (site) => ({ registered: await switchOn(site) }),
    neverOnSite: async ({ origin }) => {
      await switchOff(origin)
      return null
    },
    deadlinesChanged: async () => {
      await remind()
      return null
    },
    sites: async () => ({ origins: (await readSites()).map((site) => site.origin) }),
  },
  browserReceiver(),
)

handle(
  PAGE_TO_BACKGROUND,
  {
    openPanel: async (_params, sender) => {
      if (sender.tab?.windowId !== undefined) await openPanel(sender.tab.windowId)
      return null
    },
    judge: ({ reading }, sender) => judgePage(reading, sender.url),
    labels: async ({ languages }) => labelsOf(languages),
  },
  browserReceiver(),
)
