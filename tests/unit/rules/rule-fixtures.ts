/**
 * Fixtures of the rules (`tests/fixtures/rules/<rule>.json`): small changes to a clean offer, and what the rule says to it.
 * A case with `everywhere` stands for one case a field: its words are put into each field named, one at a time.
 */
import { readdirSync, readFileSync } from 'node:fs'
import type { Facts } from '../../../src/domain/facts.ts'
import type { Book } from '../../../src/domain/grader-book.ts'
import type { Concern } from '../../../src/domain/inspection.ts'
import type { Listing } from '../../../src/domain/listing.ts'
import type { PhotoFacts } from '../../../src/domain/photo-facts.ts'
import type { TextField } from '../../../src/domain/rules/conditions.ts'
import type { Valuation } from '../../../src/domain/valuation.ts'
import { BOOK, ENCAPSULATED, examined, FACTS, LISTING, valuation } from './sample-facts.ts'

export interface RuleCaseFixture {
  readonly name: string
  /** Strength of the concern, `null` where none may be raised, `settled` where a fact has settled it. */
  readonly expect: Concern['strength'] | 'settled' | null
  readonly base?: 'raw' | 'encapsulated'
  readonly listing?: Partial<Listing>
  readonly photos?: readonly (Partial<PhotoFacts> & { file: string })[]
  readonly valuation?: { centre: string; ask: string } & Partial<Valuation>
  readonly traces?: Facts['traces']
  readonly book?: Partial<Book>
  readonly everywhere?: { readonly words: string; readonly in: readonly TextField[] }
}

interface RuleFixture {
  readonly rule: string
  readonly cases: readonly RuleCaseFixture[]
}

export interface RuleCase {
  readonly rule: string
  readonly name: string
  readonly expect: RuleCaseFixture['expect']
  readonly facts: Facts
  readonly book: Book
}

const DIRECTORY = new URL('../../fixtures/rules/', import.meta.url)

function withWords(listing: Listing, field: TextField, words: string): Listing {
  switch (field) {
    case 'title':
      return { ...listing, title: `${listing.title} ${words}` }
    case 'description':
      return { ...listing, description: `${listing.description} ${words}.` }
    case 'specifics':
      return { ...listing, specifics: { ...listing.specifics, Note: words } }
    case 'condition':
      return { ...listing, condition: words }
    case 'payments':
      return { ...listing, payments: [...listing.payments, words] }
    case 'captions':
      return {
        ...listing,
        photos: listing.photos.map((photo, at) => (at === 0 ? { ...photo, alt: `${photo.alt}. ${words}` } : photo)),
      }
  }
}

function expand(rule: string, fixture: RuleCaseFixture): RuleCase[] {
  const base: Listing = { ...(fixture.base === 'encapsulated' ? ENCAPSULATED : LISTING), ...fixture.listing }
  const book: Book = { ...BOOK, ...fixture.book }
  const facts = (listing: Listing): Facts => {
    const { centre, ask, ...changes } = fixture.valuation ?? { centre: '', ask: '' }
    return {
      ...FACTS,
      listing,
      photos: (fixture.photos ?? []).map(({ file, ...rest }) => examined(file, rest)),
      valuation: fixture.valuation ? valuation(centre, ask, changes) : null,
      traces: fixture.traces ?? [],
    }
  }
  const common = { rule, expect: fixture.expect, book }
  if (!fixture.everywhere) return [{ ...common, name: fixture.name, facts: facts(base) }]
  const { words, in: fields } = fixture.everywhere
  return fields.map((field) => ({
    ...common,
    name: `${fixture.name} (${field})`,
    facts: facts(withWords(base, field, words)),
  }))
}

export function readRuleFixtures(): ReadonlyMap<string, readonly RuleCase[]> {
  const fixtures = new Map<string, readonly RuleCase[]>()
  for (const name of readdirSync(DIRECTORY).sort()) {
    const fixture = JSON.parse(readFileSync(new URL(name, DIRECTORY), 'utf8')) as RuleFixture
    if (`${fixture.rule}.json` !== name) throw new Error(`${name} speaks of the rule "${fixture.rule}"`)
    fixtures.set(
      fixture.rule,
      fixture.cases.flatMap((item) => expand(fixture.rule, item)),
    )
  }
  return fixtures
}
