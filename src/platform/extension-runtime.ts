/**
 * The browser's `runtime` as a content script needs it: both browsers offer it with promises. Must stay free of the polyfill, which is
 * larger than all that is asked of it here, and is otherwise part of the script in every page that is read.
 */
import type { Runtime } from 'webextension-polyfill'

type Respond = (answer: unknown) => void
export type RuntimeListener = (message: unknown, sender: Runtime.MessageSender, respond: Respond) => true | undefined

interface ExtensionRuntime {
  /** Gone in a content script whose extension was updated or removed under it. */
  readonly id?: string
  getURL(path: string): string
  sendMessage(message: unknown): Promise<unknown>
  readonly onMessage: {
    addListener(listener: RuntimeListener): void
    removeListener(listener: RuntimeListener): void
  }
}

type Namespace = { readonly runtime: ExtensionRuntime }

export function extensionRuntime(): ExtensionRuntime {
  const { browser, chrome } = globalThis as { browser?: Namespace; chrome?: Namespace }
  const runtime = browser?.runtime ?? chrome?.runtime
  if (runtime === undefined) throw new Error('this script runs in a browser extension only')
  return runtime
}

/** False in a content script whose extension was updated or removed under it. */
export function isConnected(): boolean {
  try {
    return extensionRuntime().id !== undefined
  } catch {
    return false
  }
}
