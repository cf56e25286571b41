/** Our one content script: put into a tab at a click, or registered for the sites that the buyer switched on. */
import browser from 'webextension-polyfill'

/** Why a page cannot be read. */
export type Refusal = 'forbidden-page' | 'no-permission'

/** Puts `file` into the top frame. Injecting twice is the script's own affair. `null`: done. */
export async function injectInto(tabId: number, url: string | null, file: string): Promise<Refusal | null> {
  try {
    await browser.scripting.executeScript({ target: { tabId }, files: [file] })
    return null
  } catch (error) {
    return classifyRefusal(error instanceof Error ? error.message : String(error), url)
  }
}

/** The browsers say why only in words, and only where they let us know the address. */
export function classifyRefusal(message: string, url: string | null): Refusal {
  if (url !== null && !/^(https?|file):/i.test(url)) return 'forbidden-page'
  if (
    /chrome(-[a-z]+)?:\/\/|extensions gallery|webstore|ExtensionsSettings policy|cannot be scripted|error page/i.test(
      message,
    )
  ) {
    return 'forbidden-page'
  }
  return url === null || /permission|access/i.test(message) ? 'no-permission' : 'forbidden-page'
}

export interface SiteScript {
  readonly id: string
  readonly pattern: string
}

/** Makes the registered scripts exactly `wanted`; what is registered and no longer wanted goes. */
export async function registerSiteScripts(wanted: readonly SiteScript[], file: string): Promise<void> {
  const present = await browser.scripting.getRegisteredContentScripts()
  const fits = (script: SiteScript) =>
    present.some(
      (p) => p.id === script.id && p.matches?.[0] === script.pattern && p.js?.some((js) => js.endsWith(file)),
    )
  const stale = present.filter((p) => !wanted.some((w) => w.id === p.id && fits(w))).map((p) => p.id)
  if (stale.length > 0) await browser.scripting.unregisterContentScripts({ ids: stale })
  const missing = wanted.filter((script) => !fits(script))
  if (missing.length === 0) return
  await browser.scripting.registerContentScripts(
    missing.map(({ id, pattern }) => ({
      id,
      matches: [pattern],
      js: [file],
      runAt: 'document_idle' as const,
      persistAcrossSessions: true,
    })),
  )
}
