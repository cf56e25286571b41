/** One small dossier draft of the invented world, for the storage tests. */
import { emptyListing, type Listing } from '../../src/domain/listing.ts'
import type { DossierDraft } from '../../src/storage/dossiers.ts'
import type { Stamps } from '../../src/storage/records.ts'

const LISTING: Listing = {
  ...emptyListing('https://quayside.example/lot/7'),
  title: 'Harbour Ships of the Cold Coast 1931 #12 Grey Petrel',
  price: { amount: '120.00', currency: 'EUR' },
  priceKind: 'fixed',
  saleFormat: 'fixed',
  seller: { name: 'möwe_karten', url: null, feedbackCount: null, feedbackPercent: null, memberSince: null },
  language: 'en',
  photos: [{ url: 'https://photos.example/7-front.jpg', alt: 'front' }],
}

export function sampleDraft(change: Partial<DossierDraft> = {}): DossierDraft {
  const claim = {
    year: '1931',
    cardNumber: '12',
    subject: 'Grey Petrel',
    set: 'Harbour Ships of the Cold Coast',
    variation: null,
    serial: null,
    encapsulation: 'raw',
    grader: null,
    grade: null,
    qualifier: null,
    certificate: null,
    certificateHidden: false,
    holderKind: null,
    reprint: 'no',
    multiple: false,
    autograph: null,
    relic: null,
    rookie: null,
    object: 'card',
    quotes: {},
  } as const
  return {
    title: LISTING.title ?? '',
    url: LISTING.url,
    capturedAt: '2026-11-18T12:00:00.000Z',
    pageText: 'Harbour Ships …',
    inspection: {
      stance: 'ask',
      stanceReason: 'One view is missing.',
      listing: LISTING,
      claim,
      claims: [claim],
      concerns: [],
      views: [],
      request: { text: '', language: 'en', views: [] },
      valuation: null,
      trace: [],
    },
    photos: [
      {
        url: 'https://photos.example/7-front.jpg',
        alt: 'front',
        mediaType: 'image/jpeg',
        facts: null,
        bytes: new Uint8Array([0xff, 0xd8, 0xff, 1, 2, 3]).buffer,
      },
    ],
    screenshot: new Uint8Array([0x89, 0x50, 0x4e, 0x47]).buffer,
    viewCorrections: {},
    outcome: null,
    notes: '',
    tags: [],
    ...change,
  }
}

/** A clock that moves one second a reading, and ids that count. */
export function countingStamps(): Stamps {
  let readings = 0
  let ids = 0
  return {
    now: () => new Date(Date.UTC(2026, 10, 18, 12, 0, readings++)).toISOString(),
    newId: () => `id-${++ids}`,
  }
}
