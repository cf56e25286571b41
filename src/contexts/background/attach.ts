/** Finds the page that a panel stands beside and makes it readable, or says in one code why it is not. */
import { injectInto } from '../../platform/content-scripts.ts'
import { CallFault } from '../../platform/messaging.ts'
import { findActiveTab, findTab } from '../../platform/tabs.ts'
import contentScript from '../content/content-script?iife'

export async function attach(to: {
  windowId: number | null
  tabId: number | null
}): Promise<{ tabId: number; url: string | null }> {
  const tab = to.tabId === null ? await findActiveTab(to.windowId) : await findTab(to.tabId)
  if (tab === null) throw new CallFault('no-tab', 'no tab is in front')
  const refusal = await injectInto(tab.tabId, tab.url, contentScript)
  if (refusal !== null) throw new CallFault(refusal, `the page in front cannot be read: ${refusal}`)
  return { tabId: tab.tabId, url: tab.url }
}
