/**
 * The content script of one page: reads it, marks it, answers the panel. Injected at a click or on a switched-on site, maybe
 * several times; only one instance lives, and when its extension is gone, or at the panel's word, everything of ours leaves.
 */
import { isConnected } from '../../platform/extension-runtime.ts'
import { type PageSession, startSession } from './page-session.ts'

declare global {
  // The isolated world's own: the page's code cannot see it.
  var touchstoneSession: PageSession | undefined
}

const before = globalThis.touchstoneSession
if (before === undefined || !before.isAlive()) {
  before?.end()
  globalThis.touchstoneSession = startSession(window, isConnected)
}
