/** A dossier with a whole life, and the bag of it, for the bag's tests. */
import 'fake-indexeddb/auto'
import enTexts from '../../../assets/_locales/en/bag.json' with { type: 'json' }
import type { Dossier } from '../../../src/domain/dossier.ts'
import { createTranslate } from '../../../src/domain/translate.ts'
import { bagDossier, type DossierBagOptions } from '../../../src/storage/bag/dossier-bag.ts'
import { openDatabase } from '../../../src/storage/database.ts'
import { createDossiers, type Dossiers } from '../../../src/storage/dossiers.ts'
import { countingStamps, sampleDraft } from '../sample-dossier.ts'

let run = 0

/** A JPEG's beginning and then noise, so that a changed byte is nowhere else. */
function photoBytes(seed: number, size = 4000): ArrayBuffer {
  const bytes = new Uint8Array(size)
  let state = seed
  for (let at = 0; at < size; at++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    bytes[at] = state >>> 24
  }
  bytes.set([0xff, 0xd8, 0xff])
  return bytes.buffer
}

const photo = (name: string, seed: number) => ({
  url: `https://photos.example/${name}.jpg`,
  alt: `${name} <view>`,
  mediaType: 'image/jpeg',
  facts: null,
  bytes: photoBytes(seed),
})

export async function livedDossier(): Promise<{ dossier: Dossier; dossiers: Dossiers }> {
  const dossiers = createDossiers(await openDatabase(`bag-${run++}`), countingStamps())
  const first = sampleDraft({
    photos: [photo('7-front', 1), photo('7-back', 2)],
    pageText: 'It is a <b>reprint</b> & „Möwe“.',
  })
  const listing = (change: object) => ({
    ...first.inspection,
    listing: { ...first.inspection.listing, photos: [{ url: first.photos[0]!.url, alt: null }], ...change },
  })
  const { id } = await dossiers.keep({ ...first, inspection: listing({ description: 'It is a reprint. Ships soon.' }) })
  await dossiers.keepAgain(id, {
    ...first,
    photos: [photo('7-front', 3)],
    inspection: listing({ description: 'Ships soon.', price: { amount: '90.00', currency: 'EUR' } }),
  })
  await dossiers.addStep(id, { event: 'asked', detail: 'The back, please.', views: ['back'], language: 'en' })
  await dossiers.addStep(id, { event: 'answered', detail: 'No.', photos: [], shows: [], refused: ['back'] })
  const dossier = await dossiers.addStep(id, { event: 'closed', detail: '', outcome: 'not-as-described' })
  return { dossier, dossiers }
}

export async function makeBag(
  { dossier, dossiers }: { dossier: Dossier; dossiers: Pick<Dossiers, 'readBlob'> },
  change: Partial<DossierBagOptions> = {},
) {
  const chunks: Uint8Array[] = []
  const made = await bagDossier(dossier, {
    createdAt: '2026-11-25T19:00:00.000Z',
    versions: { program: { name: 'touchstone', version: '0.0.0' }, rules: [{ file: 'concerns/a.json', sha256: '00' }] },
    texts: createTranslate(enTexts),
    language: 'en',
    async readBlob(sha256) {
      const blob = await dossiers.readBlob(sha256)
      return blob && { bytes: new Uint8Array(blob.bytes), mediaType: blob.mediaType }
    },
    shrink: async (picture) => picture,
    sink: (chunk) => void chunks.push(chunk),
    ...change,
  })
  return { ...made, zip: new Uint8Array(Buffer.concat(chunks)) }
}
