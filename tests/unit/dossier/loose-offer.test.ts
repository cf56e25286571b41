import { describe, expect, it } from 'vitest'
import { toListing } from '../../../src/domain/loose-offer.ts'

const loose = { title: '', words: '', seller: '', price: null, language: null, photos: [] }

describe('an offer that is on no page', () => {
  it('is named by the first line of its words where it has no title', () => {
    const { title, description } = toListing({ ...loose, words: '\n  Odo Marrable #17\nfound at the pier market' })
    expect(title).toBe('Odo Marrable #17')
    expect(description).toBe('Odo Marrable #17\nfound at the pier market')
    expect(toListing({ ...loose, title: 'A card', words: 'words' }).title).toBe('A card')
  })

  it('says nothing that nobody said', () => {
    const listing = toListing(loose)
    expect(listing).toMatchObject({
      url: null,
      title: null,
      description: null,
      price: null,
      priceKind: null,
      seller: null,
    })
    expect(listing.provenance).toEqual({})
  })

  it('has an asking price, a seller and photos where they are given', () => {
    const price = { amount: '40', currency: 'EUR' }
    const listing = toListing({ ...loose, seller: ' Jory T. ', price, photos: ['photo:1'] })
    expect(listing).toMatchObject({
      price,
      priceKind: 'asking',
      seller: { name: 'Jory T.' },
      photos: [{ url: 'photo:1' }],
    })
  })
})
