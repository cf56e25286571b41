// @vitest-environment node
/**
 * Our readers of structured data beside general-purpose ones on the same documents: `microdata-node` (WHATWG microdata),
 * `rdfa-streaming-parser` (RDFa 1.1) and `jsonld` (JSON-LD 1.1). Every page fixture, and the published examples where they are at
 * hand. Facts are compared as type, property and value; each disagreement must be one of the kinds explained below.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { resolve } from 'node:path'
import { JSDOM } from 'jsdom'
import { describe, expect, it } from 'vitest'
import { indexDocument } from '../../src/page/index-document.ts'
import { type StructuredGraph, shortName } from '../../src/page/structured/graph.ts'
import { isJsonLdScript, readJsonLd } from '../../src/page/structured/json-ld.ts'
import { readMicrodata } from '../../src/page/structured/microdata.ts'
import { readRdfa } from '../../src/page/structured/rdfa.ts'

const load = createRequire(import.meta.url)
const FIXTURES = resolve(import.meta.dirname, '../fixtures/pages')
const REFS = resolve(import.meta.dirname, '../../../shared/refs/structured-data')

interface Page {
  readonly name: string
  readonly html: string
  readonly url: string
}

const pages: Page[] = readdirSync(FIXTURES)
  .sort()
  .map((slug) => ({
    name: slug,
    html: readFileSync(resolve(FIXTURES, slug, 'source.html'), 'utf8'),
    url: (JSON.parse(readFileSync(resolve(FIXTURES, slug, 'meta.json'), 'utf8')) as { url: string }).url,
  }))
if (existsSync(REFS)) {
  const { cases } = JSON.parse(readFileSync(resolve(REFS, 'cases.json'), 'utf8')) as { cases: { file: string }[] }
  for (const { file } of cases)
    pages.push({ name: file, html: readFileSync(resolve(REFS, file), 'utf8'), url: 'https://page.example/' })
} else console.log('left out: the published structured-data examples (../shared/refs is not here)')

/** `Product.name = Grey Petrel`; a nested item stands for itself as `@Offer`. White space collapsed, addresses resolved. */
type Fact = string

const plain = (text: string): string => text.replace(/\s+/g, ' ').trim().slice(0, 400)

function normalValue(text: string, base: string): string {
  // RDF writes doubles in one canonical form, pages as they like.
  const value = /^-?\d\.\d+E-?\d+$/.test(text) ? String(Number(text)) : plain(text)
  if (!/^(?:https?:|\/|\.{1,2}\/|#|[\w./-]+\.(?:html?|jpe?g|png|webp|php))/i.test(value) || /\s/.test(value))
    return value
  try {
    return new URL(value, base).href
  } catch {
    return value
  }
}

const nameOf = (types: readonly string[]): string => [...new Set(types)].sort().join('+')

function factsOf(graph: StructuredGraph, base: string): Set<Fact> {
  const facts = new Set<Fact>()
  for (const item of graph.items) {
    const type = nameOf(item.types) || '?'
    for (const [property, values] of item.properties) {
      for (const value of values) {
        // A reference by id is kept as written and looked up when it is used; here it stands for what it refers to.
        const target = typeof value === 'string' ? graph.byId.get(value) : value
        facts.add(
          `${type}.${property} = ${target ? `@${nameOf(target.types) || '?'}` : normalValue(String(value), base)}`,
        )
      }
    }
  }
  return facts
}

interface MicrodataItem {
  readonly type?: string[]
  readonly properties: Record<string, (string | MicrodataItem)[]>
}

function factsOfMicrodataNode(page: Page): Set<Fact> {
  const { toJson } = load('microdata-node') as { toJson(html: string, options: { base: string }): string }
  const facts = new Set<Fact>()
  const typeOf = (item: MicrodataItem): string => nameOf((item.type ?? []).map(shortName)) || '?'
  const walk = (item: MicrodataItem): void => {
    for (const [property, values] of Object.entries(item.properties)) {
      for (const value of values) {
        if (typeof value === 'string')
          facts.add(`${typeOf(item)}.${shortName(property)} = ${normalValue(value, page.url)}`)
        else {
          facts.add(`${typeOf(item)}.${shortName(property)} = @${typeOf(value)}`)
          walk(value)
        }
      }
    }
  }
  const read = toJson(page.html, { base: page.url }) as unknown
  const { items } = (typeof read === 'string' ? JSON.parse(read) : read) as { items: MicrodataItem[] }
  for (const item of items) walk(item)
  return facts
}

interface Quad {
  readonly subject: { value: string }
  readonly predicate: { value: string }
  readonly object: { value: string; termType: string }
}

const RDF_TYPE = 'http://www.w3.org/1999/02/22-rdf-syntax-ns#type'

function factsOfQuads(quads: readonly Quad[], base: string): Set<Fact> {
  const types = new Map<string, string[]>()
  const named = new Set(quads.map((quad) => quad.subject.value))
  for (const { subject, predicate, object } of quads)
    if (predicate.value === RDF_TYPE)
      types.set(subject.value, [...(types.get(subject.value) ?? []), shortName(object.value)])
  const typeOf = (id: string): string => nameOf(types.get(id) ?? []) || '?'
  const facts = new Set<Fact>()
  for (const { subject, predicate, object } of quads) {
    if (predicate.value === RDF_TYPE) continue
    const isItem = object.termType !== 'Literal' && named.has(object.value)
    facts.add(
      `${typeOf(subject.value)}.${shortName(predicate.value)} = ${isItem ? `@${typeOf(object.value)}` : normalValue(object.value, base)}`,
    )
  }
  return facts
}

async function factsOfRdfaParser(page: Page): Promise<Set<Fact>> {
  const { RdfaParser } = load('rdfa-streaming-parser') as {
    RdfaParser: new (options: Record<string, unknown>) => NodeJS.ReadWriteStream
  }
  const parser = new RdfaParser({ baseIRI: page.url, contentType: 'text/html' })
  const quads: Quad[] = []
  await new Promise<void>((done, fail) => {
    parser.on('data', (quad: unknown) => quads.push(quad as Quad))
    parser.on('error', fail)
    parser.on('end', () => done())
    parser.write(page.html)
    parser.end()
  })
  return factsOfQuads(quads, page.url)
}

/** schema.org's own context is large and remote; what it does to the names compared here is its vocabulary and its addresses. */
const CONTEXT = { '@context': { '@vocab': 'https://schema.org/', id: '@id', type: '@type' } }

async function factsOfJsonLd(page: Page, scripts: readonly string[]): Promise<Set<Fact>> {
  const { toRDF } = load('jsonld') as {
    toRDF(input: unknown, options: Record<string, unknown>): Promise<Quad[]>
  }
  const facts = new Set<Fact>()
  for (const script of scripts) {
    let data: unknown
    try {
      data = JSON.parse(script)
    } catch {
      continue
    }
    const quads = await toRDF(data, {
      base: page.url,
      documentLoader: async (url: string) => ({ contextUrl: null, documentUrl: url, document: CONTEXT }),
    })
    for (const fact of factsOfQuads(quads, page.url)) facts.add(fact)
  }
  return facts
}

interface Difference {
  readonly page: string
  readonly fact: Fact
  readonly reader: 'microdata-node' | 'rdfa-streaming-parser' | 'jsonld'
  /** Who states it. */
  readonly side: 'ours' | 'theirs'
}

function compare(
  page: Page,
  reader: Difference['reader'],
  ours: ReadonlySet<Fact>,
  theirs: ReadonlySet<Fact>,
): Difference[] {
  return [
    ...[...ours]
      .filter((fact) => !theirs.has(fact))
      .map((fact) => ({ page: page.name, reader, fact, side: 'ours' as const })),
    ...[...theirs]
      .filter((fact) => !ours.has(fact))
      .map((fact) => ({ page: page.name, reader, fact, side: 'theirs' as const })),
  ]
}

/** Why two careful readers differ on a document. A difference that none of these explains fails. */
const CAUSES: readonly {
  readonly why: string
  fits(difference: Difference, page: Page, all: readonly Difference[]): boolean
}[] = [
  {
    why: "Open Graph and other head names borrow RDFa's attribute; here they are read as metadata, with their order",
    fits: ({ fact, reader }) =>
      reader === 'rdfa-streaming-parser' &&
      /^\?\.(?:http:\/\/ogp\.me|product:|og:|https?:\/\/[^ ]*\.imgs\.)/.test(fact),
  },
  {
    why: 'RDFa 1.1 in HTML makes triples of `role` and of the vocabulary itself; no listing is described by them',
    fits: ({ fact, reader }) => reader === 'rdfa-streaming-parser' && /vocab#role|rdfa#usesVocabulary/.test(fact),
  },
  {
    why: 'a script that is no JSON (comments, trailing commas) is nothing to a strict reader',
    fits: ({ side, reader }, page) => reader === 'jsonld' && side === 'ours' && hasBrokenScript(page),
  },
  {
    why: 'an item with an id, named by its id: here the reference is followed and an id does not take the place of its item',
    fits: ({ fact }, _page, all) => {
      const [name, value = ''] = fact.split(' = ', 2)
      return all.some((other) => {
        const [otherName, otherValue = ''] = other.fact.split(' = ', 2)
        return name === otherName && value.startsWith('@') !== otherValue.startsWith('@')
      })
    },
  },
  {
    why: 'RDFa property copying (`rdfa:Pattern`): the properties stay with the pattern here; no offer is written so',
    fits: ({ fact, page, reader }) =>
      reader === 'rdfa-streaming-parser' &&
      page.includes('eg-0394') &&
      /^(?:rdfa:Pattern|Organization)\.sameAs/.test(fact),
  },
  {
    why: 'a property without a value is left out here',
    fits: ({ fact, side }) => side === 'theirs' && / = $/.test(fact),
  },
]

function hasBrokenScript(page: Page): boolean {
  return [...page.html.matchAll(/<script[^>]*ld\+json[^>]*>([\s\S]*?)<\/script>/gi)].some(([, text = '']) => {
    try {
      JSON.parse(text)
      return false
    } catch {
      return true
    }
  })
}

describe('beside other readers', () => {
  it('every disagreement is explained', async () => {
    const counts = new Map<string, number>()
    const unexplained: string[] = []
    let facts = 0
    for (const page of pages) {
      const { window } = new JSDOM(page.html, { url: page.url })
      const index = indexDocument(window.document)
      const scripts = index.scripts.filter(isJsonLdScript).map((script) => script.textContent ?? '')
      const ours = { microdata: readMicrodata(index), rdfa: readRdfa(index), jsonLd: readJsonLd(index.scripts) }
      const read: [Difference['reader'], StructuredGraph, Set<Fact>][] = [
        ['microdata-node', ours.microdata, factsOfMicrodataNode(page)],
        ['rdfa-streaming-parser', ours.rdfa, await factsOfRdfaParser(page)],
        ['jsonld', ours.jsonLd, await factsOfJsonLd(page, scripts)],
      ]
      for (const [reader, graph, theirs] of read) {
        facts += theirs.size
        const differences = compare(page, reader, factsOf(graph, page.url), theirs)
        for (const difference of differences) {
          const cause = CAUSES.find((each) => each.fits(difference, page, differences))
          if (cause) counts.set(cause.why, (counts.get(cause.why) ?? 0) + 1)
          else unexplained.push(`${reader}, ${difference.side}: ${page.name}: ${difference.fact.slice(0, 200)}`)
        }
      }
      window.close()
    }
    console.log(
      [
        `${pages.length} documents, ${facts} facts of the other readers; disagreements by cause:`,
        ...[...counts].map(([why, count]) => `${String(count).padStart(4)}  ${why}`),
      ].join('\n'),
    )
    expect(facts).toBeGreaterThan(300)
    expect(unexplained).toEqual([])
  }, 120_000)
})
