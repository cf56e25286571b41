/** Entries in the browser's own menus. */
import browser, { type Menus } from 'webextension-polyfill'

export interface MenuEntry {
  readonly id: string
  /** Key of the browser's `messages.json`. */
  readonly message: string
  readonly contexts: readonly Menus.ContextType[]
}

/** Replaces all our entries. Call it when installed or updated; the browser remembers them. */
export async function createMenu(entries: readonly MenuEntry[]): Promise<void> {
  await browser.contextMenus.removeAll()
  for (const { id, message, contexts } of entries) {
    browser.contextMenus.create({ id, title: browser.i18n.getMessage(message), contexts: [...contexts] })
  }
}

export function onMenuClick(listener: (id: string, windowId: number | null) => void): void {
  browser.contextMenus.onClicked.addListener((info, tab) => listener(String(info.menuItemId), tab?.windowId ?? null))
}
