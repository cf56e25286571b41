/** `read`: a saved page in, a Listing, the rows of a results page, or kind `none` out. */
import type { PageReading } from '../../domain/listing.ts'
import type { Answer, Arguments } from '../command.ts'
import { loadPage, parseAddress } from '../load-page.ts'
import { readingText } from '../text/reading-text.ts'

/** Reads the saved page as of now: relative end times count from here. */
export async function readSavedPage(path: string, url: string | null): Promise<PageReading> {
  const address = parseAddress(url)
  const document = await loadPage(path, address)
  const { readPage } = await import('../../page/read-page.ts')
  const { createStaticProbe } = await import('../../page/layout-probe.ts')
  return readPage(document, { url: address, now: new Date().toISOString(), probe: createStaticProbe(document) })
}

export async function run(args: Arguments): Promise<Answer> {
  const reading = await readSavedPage(args.positionals[0] as string, args.text('url'))
  return { json: reading, text: readingText(reading, args.given('explain')) }
}
