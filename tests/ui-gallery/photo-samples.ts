/** Twelve photos of one listing: while they are looked at, and when all is known. */
import type { PhotoFacts } from '../../src/domain/photo-facts.ts'
import type { ListingState, PanelPhoto, PhotoStep } from '../../src/ui/panel/panel-state.ts'
import { drawnPhoto, facts, listingState } from './samples.ts'

const url = (n: number) => `https://photos.quayside-lots.example/12-${n}.jpg`
const size = { width: 1500, height: 2000 }

/** The label of the drawn holder, in pixels of a photo of 1500 × 2000. */
const WHERE = [
  [300, 220],
  [1200, 220],
  [1200, 470],
  [300, 470],
] as const

const label = (certificate: string | null): PhotoFacts['label'] => ({
  lines: ['1931-32 PELLWICK', 'SKERRYBALL STARS', 'ODO MARRABLE', '#14', 'ZWY', 'NM-MT 8', 'CERT 40028817'],
  grader: 'ZWY',
  grade: '8',
  certificate,
  confidence: 0.97,
  where: WHERE,
})

type Kind = Parameters<typeof drawnPhoto>[0]
const SHOWN: readonly (readonly [Kind, PhotoFacts['view'], Partial<PhotoFacts>])[] = [
  ['holder', 'holder-front', { label: label('40028817') }],
  ['back', 'holder-back', {}],
  ['holder', 'holder-front', { label: label(null), problems: [{ problem: 'glare', detail: '' }] }],
  ['label', 'label', { problems: [{ problem: 'label-unreadable', detail: '' }] }],
  ['card', 'corners', {}],
  ['card', 'corners', {}],
  ['card', 'edges', { problems: [{ problem: 'blurred', detail: '' }] }],
  ['back', 'cannot-tell', {}],
  ['card', 'cannot-tell', {}],
  ['holder', 'holder-corners', {}],
  ['card', 'macro-print', {}],
  ['back', 'other', {}],
]

const done: readonly PanelPhoto[] = SHOWN.map(([kind, view, more], i) => ({
  url: url(i + 1),
  alt: null,
  thumbnail: drawnPhoto(kind),
  facts: facts(url(i + 1), { view, ...size, ...more }),
  assigned: null,
  added: i >= 10,
}))

const earlier = {
  dossier: 'd2',
  title: '1931-32 Skerryball Stars #14 Odo Marrable KVX 7',
  seller: 'heron_cards',
  at: '2026-08-02T10:00:00.000Z',
  outcome: null,
  sha256: null,
  mediaType: 'image/jpeg',
}

const seen: readonly PanelPhoto[] = done.map((photo, i) => {
  if (i === 0)
    return {
      ...photo,
      seen: [{ ...earlier, photo: photo.url, sameness: 'same-photo-changed', picture: drawnPhoto('holder') }],
    }
  if (i === 1)
    return { ...photo, seen: [{ ...earlier, photo: photo.url, sameness: 'same-file', picture: drawnPhoto('back') }] }
  if (i === 4)
    return {
      ...photo,
      seen: [{ ...earlier, photo: photo.url, sameness: 'look-yourself', seller: null, picture: null }],
    }
  return photo
})

const STEPS: readonly PhotoStep[] = ['none', 'none', 'none', 'looking', 'loading', 'waiting']

const working: readonly PanelPhoto[] = done.map((photo, i) => {
  const step = STEPS[Math.min(i, STEPS.length - 1)]!
  const early = { ...photo.facts!, view: 'cannot-tell', label: null } as const
  return {
    ...photo,
    step,
    thumbnail: i > 3 ? null : photo.thumbnail,
    facts: i < 3 ? photo.facts : i === 3 ? early : null,
  }
})

export const photosWorking: ListingState = { ...listingState, photos: working, photoProgress: { done: 3, total: 12 } }
export const photosDone: ListingState = { ...listingState, photos: seen }
