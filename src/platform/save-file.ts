/** Hands a file to the person through the browser's own download, without the downloads permission. */

/** Long enough for a browser to have opened the blob; a revoked address fails the download. Ours, no source. */
const REVOKE_AFTER_MS = 60_000

export function saveFile(name: string, content: Blob): void {
  const address = URL.createObjectURL(content)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), REVOKE_AFTER_MS)
}
