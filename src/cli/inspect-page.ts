/** What `inspect` and `request` share: gather all that the options give about one page, and let `inspect` decide. */
import { inspect } from '../domain/inspect.ts'
import type { Inspection } from '../domain/inspection.ts'
import { valueListing } from '../domain/pricing/value-listing.ts'
import { BadInput } from './bad-input.ts'
import type { Arguments } from './command.ts'
import { readSavedPage } from './commands/read.ts'
import { loadBook } from './load-book.ts'
import { loadPacks } from './load-packs.ts'
import { loadPhotos } from './load-photos.ts'
import { loadSales } from './load-sales.ts'

export async function inspectPage(args: Arguments): Promise<Inspection> {
  const [path = ''] = args.positionals
  const reading = await readSavedPage(path, args.text('url'))
  if (reading.kind === 'none') throw new BadInput(`${path}: no listing was found on this page.`)
  if (reading.kind === 'results') {
    throw new BadInput(`${path}: this is a results page with ${reading.rows.length} rows; inspect takes one listing.`)
  }
  const packs = await loadPacks()
  const messageLanguage = args.text('lang') ?? 'en'
  if (!packs.messages.has(messageLanguage)) {
    throw new BadInput(
      `--lang: there is no message in "${messageLanguage}", only in ${[...packs.messages.keys()].join(', ')}.`,
    )
  }
  const book = await loadBook({ graders: args.text('graders'), highValue: args.text('high-value') })
  const { sales } = await loadSales(args.text('sales'))
  const photos = await loadPhotos(args.text('photos'), reading)
  const now = new Date().toISOString()
  const valuation = valueListing(reading, sales, { graders: book.graders, packs, on: now.slice(0, 10) })
  return inspect(
    { listing: reading, photos, valuation, traces: [], messageLanguage, messageMaxLength: null, now },
    book,
    packs,
  )
}
