import { diffWords } from 'diff'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  diffRevision,
  diffText,
  isUnchanged,
  type Seen,
  type SeenPhoto,
} from '../../../src/domain/dossier/diff-revision.ts'
import { sameListing } from '../../../src/domain/dossier/same-listing.ts'
import { emptyListing, type Listing } from '../../../src/domain/listing.ts'

const seller = (name: string) => ({ name, url: null, feedbackCount: null, feedbackPercent: null, memberSince: null })
const photo = (name: string, sha256: string | null = `hash-${name}`, pdq: string | null = null): SeenPhoto => ({
  url: `https://photos.example/${name}.jpg`,
  sha256,
  pdq,
})
const seen = (change: Partial<Listing> = {}, photos: SeenPhoto[] = [photo('front'), photo('back')]): Seen => ({
  listing: {
    ...emptyListing('https://quayside.example/lot/7'),
    title: 'Grey Petrel 1931',
    price: { amount: '120.00', currency: 'EUR' },
    seller: seller('möwe_karten'),
    description: 'Sold as is. It is a reprint. Ships tomorrow.',
    ...change,
  },
  photos,
})

describe('what differs between two readings', () => {
  it('is nothing for the same', () => {
    expect(isUnchanged(diffRevision(seen(), seen()))).toBe(true)
    expect(
      isUnchanged(diffRevision(seen(), seen({ description: 'Sold as is.  It is a reprint.\nShips tomorrow. ' }))),
    ).toBe(true)
  })

  it('names price, end, seller and words', () => {
    const diff = diffRevision(
      seen(),
      seen({
        price: { amount: '90.00', currency: 'EUR' },
        endsAt: '2026-12-01T10:00:00Z',
        seller: seller('another'),
        description: 'Sold as is. Ships tomorrow.',
      }),
    )
    expect(diff.price).toEqual({
      before: { amount: '120.00', currency: 'EUR' },
      after: { amount: '90.00', currency: 'EUR' },
    })
    expect(diff.endsAt).toEqual({ before: null, after: '2026-12-01T10:00:00Z' })
    expect(diff.seller).toEqual({ before: 'möwe_karten', after: 'another' })
    expect(diff.texts.map(({ field }) => field)).toEqual(['description'])
    const removed = diff.texts[0]?.parts
      .filter(({ kind }) => kind === 'removed')
      .map(({ text }) => text)
      .join('')
    expect(removed?.trim()).toBe('It is a reprint.')
    expect(isUnchanged(diff)).toBe(false)
  })

  it('tells photos added, removed, swapped and only moved or compressed anew', () => {
    const pdq = 'f8f8f0cee0f4a84f06370a22038f63f0b36e2ed596621e1d33e6b39c4e9c9b22'
    const oneBit = `e${pdq.slice(1)}`
    const before = seen({}, [photo('front'), photo('back'), photo('label'), photo('edge', 'a', pdq)])
    const after = seen({}, [
      photo('front', 'other'),
      photo('moved', 'hash-back'),
      photo('new'),
      photo('edge', 'b', oneBit),
    ])
    expect(diffRevision(before, after)).toMatchObject({
      photosAdded: ['https://photos.example/new.jpg'],
      photosRemoved: ['https://photos.example/label.jpg'],
      photosSwapped: [{ url: 'https://photos.example/front.jpg' }],
    })
  })

  it('does not call a photo swapped whose bytes were not had', () => {
    expect(isUnchanged(diffRevision(seen({}, [photo('front')]), seen({}, [photo('front', null)])))).toBe(true)
  })

  // The reference is the library by itself, reading words and leaving white space aside.
  it('finds the words that the library finds', () => {
    const words = fc
      .array(fc.constantFrom('sold', 'as', 'is', 'reprint', 'not', 'a', 'rare'), { maxLength: 12 })
      .map((list) => list.join(' '))
    fc.assert(
      fc.property(words, words, (a, b) => {
        const of = (kind: string, parts: readonly { text: string; kind: string }[]) =>
          parts
            .filter((part) => part.kind !== kind)
            .map(({ text }) => text)
            .join('')
            .replace(/\s+/g, ' ')
            .trim()
        const parts = diffText(a, b)
        expect(of('added', parts)).toBe(a)
        expect(of('removed', parts)).toBe(b)
        expect(parts.some(({ kind }) => kind !== 'same')).toBe(
          diffWords(a, b).some(({ added, removed }) => added || removed),
        )
      }),
    )
  })
})

describe('whether it is the same listing', () => {
  const other = (change: Partial<Listing>, photos?: SeenPhoto[]) =>
    seen({ ...emptyListing(null), ...change } as Partial<Listing>, photos)
  it('goes by address, then item number, then photos of the same seller', () => {
    expect(sameListing(seen(), seen({ url: 'https://quayside.example/lot/7#photos', title: 'Another title' }))).toBe(
      'address',
    )
    const moved = { url: 'https://quayside.example/view?id=7', itemNumber: '7' }
    expect(sameListing(seen({ itemNumber: '7' }), seen(moved))).toBe('item-number')
    expect(sameListing(seen(), seen({ url: 'https://quayside.example/x' }))).toBe('photos')
    expect(sameListing(seen(), seen({ url: 'https://quayside.example/x', seller: seller('another') }))).toBeNull()
    expect(sameListing(seen(), seen({ url: 'https://moewenmarkt.example/7', itemNumber: '7' }))).toBeNull()
    expect(
      sameListing(seen({}, [photo('front')]), seen({ url: 'https://quayside.example/x' }, [photo('front')])),
    ).toBeNull()
    expect(sameListing(seen({ url: null }), other({ url: null }))).toBeNull()
  })
})
