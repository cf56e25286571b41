/** Host permissions: asked for one site at a time, only ever from a person's click. */
import browser from 'webextension-polyfill'

/** `https://lots.example` → `https://lots.example/*`; the browser's pattern has no port, and covers every one. */
export function originPattern(origin: string): string {
  const { protocol, hostname } = new URL(origin)
  return `${protocol}//${hostname}/*`
}

function patterns(origins: readonly string[]): string[] {
  return [...new Set(origins.map(originPattern))]
}

export function mayRead(origins: readonly string[]): Promise<boolean> {
  return browser.permissions.contains({ origins: patterns(origins) })
}

/** One question for all `origins`. Call it synchronously in a click's handler: a promise awaited before it loses the gesture. */
export function askToRead(origins: readonly string[]): Promise<boolean> {
  return browser.permissions.request({ origins: patterns(origins) })
}

export async function giveBack(origins: readonly string[]): Promise<void> {
  if (origins.length > 0) await browser.permissions.remove({ origins: patterns(origins) })
}

export function onPermissionsLost(listener: () => void): void {
  browser.permissions.onRemoved.addListener(listener)
}
