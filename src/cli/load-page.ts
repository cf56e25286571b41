/** A saved page as a Document. Its scripts do not run and nothing is fetched. */
import { BadInput } from './bad-input.ts'
import { decodePage } from './decode-page.ts'
import { readBytes } from './read-file.ts'

// A saved page with its pictures inlined can be large; above this it is no page that somebody saved. Ours, no source.
const PAGE_LIMIT_BYTES = 64 * 2 ** 20

export function parseAddress(url: string | null): string | null {
  if (url === null) return null
  if (!URL.canParse(url) || !/^https?:/.test(url)) throw new BadInput(`--url: "${url}" is not an http address.`)
  return new URL(url).href
}

export async function loadPage(path: string, url: string | null): Promise<Document> {
  const bytes = await readBytes(path, PAGE_LIMIT_BYTES)
  const { JSDOM, VirtualConsole } = await import('jsdom')
  // A console that nobody listens to: faults in a page's style sheets are not the person's concern.
  const virtualConsole = new VirtualConsole()
  return new JSDOM(decodePage(bytes), { virtualConsole, ...(url === null ? {} : { url }) }).window.document
}
