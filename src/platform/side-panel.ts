/** The panel beside the page: Chromium's side panel, Firefox's sidebar. Opening must happen inside the person's gesture. */
import browser from 'webextension-polyfill'

interface SidePanel {
  open(options: { windowId: number }): Promise<void>
}

/** Must be called synchronously in a click's or key's handler: a promise awaited before it loses the gesture. */
export function openPanel(windowId: number): Promise<void> {
  const { sidePanel } = browser as unknown as { sidePanel?: SidePanel }
  return sidePanel ? sidePanel.open({ windowId }) : browser.sidebarAction.open()
}

export function onToolbarClick(listener: (windowId: number) => void): void {
  browser.action.onClicked.addListener((tab) => {
    if (tab.windowId !== undefined) listener(tab.windowId)
  })
}
