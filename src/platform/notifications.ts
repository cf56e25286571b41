/** The system's own notifications. A second one of the same id replaces the first. */
import browser from 'webextension-polyfill'

export async function notify(id: string, title: string, message: string): Promise<void> {
  const iconUrl = browser.runtime.getURL('icons/128.png')
  await browser.notifications.create(id, { type: 'basic', iconUrl, title, message })
}

export function onNotificationClick(listener: (id: string) => void): void {
  browser.notifications.onClicked.addListener((id) => {
    void browser.notifications.clear(id)
    listener(id)
  })
}
