import { describe, expect, it } from 'vitest'
import type { Facts } from '../../../src/domain/facts.ts'
import { findViews } from '../../../src/domain/views/find-views.ts'
import { fileNameOf } from '../../../src/domain/views/read-view-words.ts'
import { VIEW_IDS, type ViewFinding, type ViewId } from '../../../src/domain/views.ts'
import { loadPacks } from '../rules/load-packs.ts'
import { ENCAPSULATED, examined, FACTS, LISTING, photo } from '../rules/sample-facts.ts'

const packs = loadPacks()

function findIn(facts: Partial<Facts>, kind: 'raw' | 'encapsulated' = 'raw'): ReadonlyMap<ViewId, ViewFinding> {
  return findViews({ ...FACTS, ...facts }, packs.views[kind], packs.viewWords, packs.translate)
}

const withPhotos = (...photos: ReturnType<typeof photo>[]): Partial<Facts> => ({ listing: { ...LISTING, photos } })
const BACK = photo('p2', 'Back').url

describe('words beside a photo', () => {
  it.each([
    ['Rückseite', 'back'],
    ['Kartenrücken', 'back'],
    ['Verso de la carte', 'back'],
    ['Reverso', 'back'],
    ['Retro', 'back'],
    ['BACK of the card', 'back'],
    ['Vorderseite', 'front'],
    ['recto', 'front'],
    ['anverso', 'front'],
    ['fronte', 'front'],
    ['Alle vier Ecken', 'corners'],
    ['Streiflicht von links', 'raking-light'],
    ['Out of the holder', 'out-of-holder'],
  ] as const)('%s → %s', (alt, view) => {
    expect(findIn(withPhotos(photo('p1', alt))).get(view)?.status).toBe('shown')
  })

  it.each(['Background of felt', 'Paperback', 'Retrograde', 'Money back', null])('%s is no view of the back', (alt) => {
    const found = findIn(withPhotos(photo('p1', alt)))
    // "Money back" does hold the word: a caption is not understood, only read. It stands here so that nobody claims more.
    expect(found.get('back')?.status).toBe(alt === 'Money back' ? 'shown' : 'cannot-tell')
  })

  it('says whether the photo was looked at as well', () => {
    const named = photo('p1', 'Back')
    const unseen = findIn(withPhotos(named)).get('back')
    expect(unseen?.reason).toContain('not looked at')
    const seen = findIn({ ...withPhotos(named), photos: [examined(named.url, { view: 'cannot-tell' })] }).get('back')
    expect(seen).toMatchObject({ status: 'shown', reason: expect.stringContaining('not recognised') })
    expect(seen?.reason).not.toContain('not looked at')
  })

  it('reads the file name where the caption says nothing', () => {
    const url = 'https://photos.moewenmarkt.example/back/IMG_Rueckseite2.jpg?size=1600'
    expect(fileNameOf(url)).toBe('IMG_Rueckseite2')
    expect(findIn(withPhotos({ url, alt: 'Bild 2' })).get('back')?.photo).toBe(url)
  })

  it('takes nothing from folders or hosts', () => {
    const url = 'https://back.example/back/front-desk/1.jpg'
    expect(findIn(withPhotos({ url, alt: null })).get('back')?.status).toBe('cannot-tell')
  })

  it('lets one caption name two views', () => {
    const found = findIn(withPhotos(photo('p1', 'Front and back')))
    expect([found.get('front')?.status, found.get('back')?.status]).toEqual(['shown', 'shown'])
  })

  it('means the holder where the card is encapsulated', () => {
    const found = findIn({ listing: { ...ENCAPSULATED, photos: [photo('p1', 'Back')] } }, 'encapsulated')
    expect([found.get('holder-back')?.status, found.get('back')?.status]).toEqual(['shown', 'missing'])
  })
})

describe('order of evidence', () => {
  it('words beside a photo outrank pixels', () => {
    const found = findIn({
      ...withPhotos(photo('p1', 'Front'), photo('p2', 'Back')),
      photos: [examined(BACK, { view: 'front' })],
    })
    expect(found.get('back')?.status).toBe('shown')
  })

  it('words stand where pixels cannot tell', () => {
    const found = findIn({ ...withPhotos(photo('p2', 'Back')), photos: [examined(BACK)] })
    expect(found.get('back')?.status).toBe('shown')
  })

  it('the person outranks pixels', () => {
    const found = findIn({
      ...withPhotos(photo('p2', 'Back')),
      photos: [examined(BACK, { view: 'front' })],
      viewCorrections: { [BACK]: 'edges' },
    })
    expect([found.get('edges')?.status, found.get('front')?.status, found.get('back')?.status]).toEqual([
      'shown',
      'missing',
      'missing',
    ])
  })

  it('a person may say that a photo shows none of them', () => {
    const found = findIn({ ...withPhotos(photo('p2', 'Back')), viewCorrections: { [BACK]: 'other' } })
    expect(found.get('back')?.status).toBe('missing')
  })
})

describe('status', () => {
  it('is missing for every view where there is no photo', () => {
    const found = findIn(withPhotos())
    expect(VIEW_IDS.map((view) => found.get(view)?.status)).toEqual(VIEW_IDS.map(() => 'missing'))
  })

  it('is cannot-tell while one photo is unaccounted for, missing once none is', () => {
    const photos = [photo('p1', 'Front'), photo('p2')]
    expect(findIn(withPhotos(...photos)).get('back')?.status).toBe('cannot-tell')
    const looked = { ...withPhotos(...photos), photos: [examined(photos[1]!.url, { view: 'other' })] }
    expect(findIn(looked).get('back')?.status).toBe('missing')
  })

  it('never takes a photo for a video', () => {
    expect(findIn(withPhotos(photo('p1'))).get('tilt-video')?.status).toBe('missing')
  })

  it('gives the figures of a photo that is too small', () => {
    const facts = { ...withPhotos(photo('p2', 'Back')), photos: [examined(BACK, { view: 'back', pxPerMm: 3.14 })] }
    expect(findIn(facts).get('back')).toMatchObject({
      status: 'not-readable',
      photo: BACK,
      reason: '3.1 px per mm, 8 needed',
    })
    const unscaled = { ...withPhotos(photo('p2', 'Back')), photos: [examined(BACK, { width: 480, height: 640 })] }
    expect(findIn(unscaled).get('back')?.reason).toBe('640 pixels on the long edge, 900 needed')
  })

  it('gives the figures of a label on a holder that is too small', () => {
    const url = ENCAPSULATED.photos[2]!.url
    const holder = {
      corners: [
        [0, 0],
        [243, 0],
        [243, 400],
        [0, 400],
      ],
      confidence: 0.9,
    } as const
    const found = findIn({ listing: ENCAPSULATED, photos: [examined(url, { view: 'label', holder })] }, 'encapsulated')
    expect(found.get('label')).toMatchObject({ status: 'not-readable', reason: '3.0 px per mm, 7 needed' })
  })

  it('prefers a readable photo to an unreadable one of the same view', () => {
    const facts = {
      ...withPhotos(photo('p2', 'Back'), photo('p3', 'Back')),
      photos: [examined(BACK, { view: 'back', pxPerMm: 2 }), examined(photo('p3').url, { view: 'back', pxPerMm: 14 })],
    }
    expect(findIn(facts).get('back')).toMatchObject({ status: 'shown', photo: photo('p3').url })
  })

  it.each(['blurred', 'glare', 'dark', 'overexposed', 'too-small', 'damaged'] as const)(
    'is not-readable where the photo is %s',
    (problem) => {
      const facts = {
        ...withPhotos(photo('p2', 'Back')),
        photos: [examined(BACK, { view: 'back', problems: [{ problem, detail: 'measured' }] })],
      }
      expect(findIn(facts).get('back')?.status).toBe('not-readable')
    },
  )

  it('sees the corners on a large photo of the front, by its measured scale only', () => {
    const at = (pxPerMm: number | null) =>
      findIn({
        ...withPhotos(photo('p1', 'Front')),
        photos: [examined(photo('p1').url, { view: 'front', pxPerMm })],
      }).get('corners')?.status
    expect([at(null), at(15), at(16)]).toEqual(['missing', 'missing', 'shown'])
  })

  it('joins what was measured by file name where only that is known', () => {
    const found = findIn({
      ...withPhotos(photo('p2', null)),
      photos: [examined('/tmp/photos/p2.png', { view: 'back', pxPerMm: 12 })],
    })
    expect(found.get('back')).toMatchObject({ status: 'shown', photo: BACK })
  })
})

it('has a sentence for every reason in German as well', () => {
  const german = loadPacks('de')
  const found = findViews(
    { ...FACTS, ...withPhotos(photo('p1')) },
    german.views.raw,
    german.viewWords,
    german.translate,
  )
  expect(found.get('back')?.reason).toBe('bei einem Foto steht nicht, was es zeigt, und es wurde nicht angesehen')
})
