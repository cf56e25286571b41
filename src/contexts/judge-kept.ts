/** Judges a kept offer anew: the words as they were kept, the photos that came since, today's book. Nothing is decided here. */
import type { Dossier } from '../domain/dossier.ts'
import type { Inspection } from '../domain/inspection.ts'
import type { MessageStyle } from '../domain/request/message-style.ts'
import type { Packs } from '../domain/rules/packs.ts'
import { judgeOffer, settledIn } from './judge-offer.ts'
import type { Stores } from './stores.ts'

export interface Rejudging {
  readonly at: string
  readonly messageLanguage: string
  readonly messageStyle: MessageStyle
}

export function judgeKept(
  dossier: Pick<Dossier, 'inspection' | 'photos' | 'viewCorrections'> & { readonly id: string | null },
  { at, messageLanguage, messageStyle }: Rejudging,
  stores: Stores,
  packs: Packs,
): Promise<Inspection> {
  const { inspection, photos, viewCorrections } = dossier
  return judgeOffer(
    {
      listing: inspection.listing,
      // By its address in the dossier, whatever the file was called when it was examined.
      photos: photos.flatMap(({ url, facts }) => (facts === null ? [] : [{ ...facts, file: url }])),
      viewCorrections,
      settled: settledIn(dossier),
      dossier: dossier.id,
      messageLanguage,
      messageMaxLength: null,
      messageMostViews: null,
      messageStyle,
      readAt: at,
    },
    stores,
    packs,
  )
}
