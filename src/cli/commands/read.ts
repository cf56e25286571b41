/** `read`: a saved page in, a Listing, the rows of a results page, or kind `none` out. */
import type { PageReading } from '../../domain/listing.ts'
import type { Trace } from '../../page/reading.ts'
import type { Answer, Arguments } from '../command.ts'
import { loadPage, parseAddress } from '../load-page.ts'
import { readingText } from '../text/reading-text.ts'

/** Reads the saved page as of now: relative end times count from here. */
async function explainSavedPage(path: string, url: string | null): Promise<{ reading: PageReading; trace: Trace }> {
  const address = parseAddress(url)
  const document = await loadPage(path, address)
  const { explainPage } = await import('../../page/read-page.ts')
  const { createStaticProbe } = await import('../../page/layout-probe.ts')
  return explainPage(document, { url: address, now: new Date().toISOString(), probe: createStaticProbe(document) })
}

export async function readSavedPage(path: string, url: string | null): Promise<PageReading> {
  return (await explainSavedPage(path, url)).reading
}

export async function run(args: Arguments): Promise<Answer> {
  const { reading, trace } = await explainSavedPage(args.positionals[0] as string, args.text('url'))
  if (!args.given('explain')) return { json: reading, text: readingText(reading, false) }
  const { traceText } = await import('../text/trace-text.ts')
  return { json: { ...reading, trace }, text: `${readingText(reading, true)}\n\n${traceText(trace)}` }
}
