/** Tabs and windows: which page the person is on, when that changes, opening our own pages. Knows nothing of listings. */
import browser, { type Tabs } from 'webextension-polyfill'

export interface TabInSight {
  readonly tabId: number
  readonly windowId: number
  /** `null` where the browser does not tell us, for lack of permission. */
  readonly url: string | null
}

function tabInSight(tab: Tabs.Tab): TabInSight | null {
  if (tab.id === undefined || tab.windowId === undefined) return null
  return { tabId: tab.id, windowId: tab.windowId, url: tab.url ?? null }
}

/** The tab in front in `windowId`, or in the window used last. */
export async function findActiveTab(windowId: number | null): Promise<TabInSight | null> {
  const [tab] = await browser.tabs.query(
    windowId === null ? { active: true, lastFocusedWindow: true } : { active: true, windowId },
  )
  return tab ? tabInSight(tab) : null
}

export async function findTab(tabId: number): Promise<TabInSight | null> {
  try {
    return tabInSight(await browser.tabs.get(tabId))
  } catch {
    return null
  }
}

export async function findOwnWindow(): Promise<number | null> {
  return (await browser.windows.getCurrent()).id ?? null
}

export function onTabActivated(listener: (tabId: number, windowId: number) => void): void {
  browser.tabs.onActivated.addListener(({ tabId, windowId }) => listener(tabId, windowId))
}

/** A page of a tab finished loading, or its address changed within the page. */
export function onTabLoaded(listener: (tabId: number, windowId: number, url: string | null) => void): void {
  browser.tabs.onUpdated.addListener((tabId, change, tab) => {
    if (change.status === 'complete') listener(tabId, tab.windowId ?? -1, tab.url ?? null)
  })
}

/** Brings one of our own pages to the front, in the tab where it is open already or in a new one. */
export async function openOwnPage(path: string): Promise<void> {
  const address = browser.runtime.getURL(path)
  const page = address.replace(/[#?].*$/, '')
  const open = (await browser.tabs.query({})).find((tab) => tab.url?.startsWith(page))
  if (open?.id === undefined) {
    await browser.tabs.create({ url: address })
    return
  }
  await browser.tabs.update(open.id, { active: true, ...(open.url === address ? {} : { url: address }) })
  if (open.windowId !== undefined) await browser.windows.update(open.windowId, { focused: true })
}

/** A page of the web, in a new tab beside this one. Addresses come from pages and backups: any other scheme throws. */
export async function openPage(url: string): Promise<void> {
  if (!URL.canParse(url) || !/^https?:$/.test(new URL(url).protocol))
    throw new TypeError(`no address of the web: ${url}`)
  await browser.tabs.create({ url })
}
