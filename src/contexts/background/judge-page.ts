/**
 * What the words of a page say, for a switched-on site that is visited with no panel open. The photos wait for the panel: a
 * background has no worker to examine them in. Opens what it needs anew each time, since it may have been ended in between.
 */
import type { PageReading } from '../../domain/listing.ts'
import { now } from '../../platform/clock.ts'
import { readBrowserLanguage } from '../../platform/interface-language.ts'
import { chooseLanguage, interfaceTexts } from '../interface-texts.ts'
import { judgeOffer, settledIn } from '../judge-offer.ts'
import { judgeRows } from '../judge-rows.ts'
import { marksOfListing, marksOfRows } from '../page-marks.ts'
import type { PageMarks } from '../protocol.ts'
import { loadPacks } from '../rule-packs.ts'
import { openStores } from '../stores.ts'
import { isSwitchedOn } from './sites.ts'

export async function judgePage(reading: PageReading, pageUrl: string | undefined): Promise<PageMarks | null> {
  if (reading.kind === 'none' || !(await isSwitchedOn(pageUrl))) return null
  const stores = await openStores()
  try {
    const settings = await stores.readSettings()
    const texts = interfaceTexts(chooseLanguage(settings, readBrowserLanguage()))
    const packs = await loadPacks(texts, stores)
    if (reading.kind === 'results') {
      const rows = await judgeRows(reading.rows, stores, packs)
      return { listing: null, rows: marksOfRows(rows, texts.translate) }
    }
    const kept = reading.url === null ? null : await stores.dossiers.findByUrl(reading.url)
    const offer = {
      listing: reading,
      photos: kept?.photos.flatMap(({ facts }) => facts ?? []) ?? [],
      viewCorrections: kept?.viewCorrections ?? {},
      settled: settledIn(kept),
      messageLanguage: settings.messageLanguage,
      messageMaxLength: null,
      messageMostViews: null,
      readAt: now(),
    }
    return { listing: marksOfListing(await judgeOffer(offer, stores, packs), texts.translate), rows: [] }
  } finally {
    stores.database.close()
  }
}
