// @vitest-environment jsdom
/**
 * Held against published examples: schema.org's Product and Offer examples in three syntaxes, the Open Graph protocol's order
 * example, and the W3C tests of finding JSON-LD in HTML. They are kept outside the repository.
 */
import { existsSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { indexDocument } from '../../src/page/index-document.ts'
import { readJsonLd, selectJsonLd } from '../../src/page/structured/json-ld.ts'
import { readMetadata } from '../../src/page/structured/metadata.ts'
import { readMicrodata } from '../../src/page/structured/microdata.ts'
import { readOfferRecords } from '../../src/page/structured/offer-records.ts'
import { readRdfa } from '../../src/page/structured/rdfa.ts'

const REFS = resolve(import.meta.dirname, '../../../shared/refs/structured-data')
const present = existsSync(REFS)
if (!present) console.log('left out: the published structured-data examples (../shared/refs is not here)')

interface Expected {
  item?: string | null
  offer?: string | null
  name: string | null
  price: string | null
  lowPrice: string | null
  highPrice: string | null
  priceCurrency: string | null
  offerCount: string | null
  availability: string | null
  seller: string | null
  condition: string | null
  url: string | null
  image: string | null
  offer_url: string | null
}
interface Case {
  file: string
  syntax: string
  records?: Expected[]
  images?: { url: string; width: string | null; height: string | null }[]
}
interface W3cCase {
  id: string
  name: string
  file: string
  document_url: string
  fragment?: string
  extractAllScripts?: boolean
  expect_error?: string
  selected_scripts?: unknown[]
}

const read = <T>(name: string): T => JSON.parse(readFileSync(resolve(REFS, name), 'utf8')) as T
const parse = (file: string): Document =>
  new DOMParser().parseFromString(readFileSync(resolve(REFS, file), 'utf8'), 'text/html')
const trimmed = (text: string | null): string | null => (text === null ? null : text.replace(/\s+/g, ' ').trim())

describe.runIf(present)('schema.org examples', () => {
  const { cases } = present ? read<{ cases: Case[] }>('cases.json') : { cases: [] }
  for (const each of cases.filter((one) => one.records)) {
    it(each.file, () => {
      const document = parse(each.file)
      const index = indexDocument(document)
      const graphs = { 'json-ld': readJsonLd(index.scripts), microdata: readMicrodata(index), rdfa: readRdfa(index) }
      const records = Object.values(graphs).flatMap(readOfferRecords)
      const found = records.map((record) => ({
        item: record.itemTypes.join(' ') || null,
        offer: record.offerType,
        name: trimmed(record.name),
        price: record.price,
        lowPrice: record.lowPrice,
        highPrice: record.highPrice,
        priceCurrency: record.priceCurrency,
        offerCount: record.offerCount,
        availability: record.availability,
        seller: record.seller,
        condition: record.condition,
        url: record.url,
        image: record.image,
        offer_url: record.offerUrl,
      }))
      const wanted = each.records!.map((record) => ({
        ...record,
        item: record.item ?? null,
        offer: record.offer ?? null,
        name: trimmed(record.name),
      }))
      expect(found).toEqual(wanted)
    })
  }

  it('keeps Open Graph images in order, each with its own size', () => {
    const wanted = cases.find((one) => one.images)!
    const document = parse(wanted.file)
    const { images } = readMetadata(document, indexDocument(document).metas)
    expect(images.map(({ url, width, height }) => ({ url, width, height }))).toEqual(wanted.images)
  })
})

describe.runIf(present)('W3C: JSON-LD in HTML', () => {
  for (const each of present ? read<W3cCase[]>('w3c-json-ld/cases.json') : []) {
    it(`${each.id} ${each.name}`, () => {
      const selection = selectJsonLd(parse(each.file), {
        fragment: each.fragment ?? null,
        all: each.extractAllScripts ?? false,
      })
      if (each.expect_error) expect(selection).toEqual({ fault: each.expect_error })
      else expect(selection).toEqual({ values: each.selected_scripts })
    })
  }
})
