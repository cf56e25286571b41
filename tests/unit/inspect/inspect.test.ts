import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { inspect } from '../../../src/domain/inspect.ts'
import { STANCES } from '../../../src/domain/stance/take-stance.ts'
import { loadPacks } from '../rules/load-packs.ts'
import { BOOK, ENCAPSULATED, FACTS, LISTING, photo } from '../rules/sample-facts.ts'

const packs = loadPacks()

describe('clean offers', () => {
  it('raises nothing on a raw card under the limit with its views', () => {
    const result = inspect(FACTS, BOOK, packs)
    expect(result.concerns).toEqual([])
    expect(result.views.map(({ view, status }) => `${view} ${status}`)).toEqual([
      'front shown',
      'back shown',
      'corners shown',
    ])
    expect(result.request.text).toBe('')
    expect(result.stance).toBe('nothing-open')
  })

  it('raises nothing on an encapsulated card of an accepted grader', () => {
    const result = inspect({ ...FACTS, listing: ENCAPSULATED }, BOOK, packs)
    expect(result.concerns).toEqual([])
    expect(result.views.map(({ view, status }) => `${view} ${status}`)).toEqual([
      'holder-front shown',
      'holder-back shown',
      'label shown',
    ])
    expect(result.stance).toBe('nothing-open')
  })
})

it('leaves a trace line for every rule', () => {
  const { trace } = inspect(FACTS, BOOK, packs)
  expect(trace.map((line) => line.rule).sort()).toEqual(packs.rules.map((rule) => rule.id).sort())
})

it('asks for what one removed photo showed and for nothing else', () => {
  for (const gone of LISTING.photos) {
    const photos = LISTING.photos.filter((kept) => kept !== gone)
    const result = inspect({ ...FACTS, listing: { ...LISTING, photos } }, BOOK, packs)
    const open = result.views.filter((view) => view.status !== 'shown').map((view) => view.view)
    expect(open).toEqual([gone.url.replace(/^.*\/|\.jpg$/g, '')])
    expect(result.request.views).toEqual(open)
  }
})

it('calls a view missing only when every photo is accounted for', () => {
  const photos = [photo('IMG_0001'), photo('IMG_0002', 'Back')]
  const { views } = inspect({ ...FACTS, listing: { ...LISTING, photos } }, BOOK, packs)
  expect(views.map(({ view, status }) => [view, status])).toEqual([
    ['front', 'cannot-tell'],
    ['back', 'shown'],
    ['corners', 'cannot-tell'],
  ])
})

describe('the whole inspection', () => {
  const dubious = {
    ...FACTS,
    listing: {
      ...LISTING,
      price: { amount: '900.00', currency: 'EUR' },
      description: 'Tamsin Quillfeather, number 34, in a screw-down holder. I am not an expert. Must sell today.',
      photos: [photo('front', 'Front')],
    },
  }

  it('is the same every time', () => {
    expect(inspect(dubious, BOOK, packs)).toEqual(inspect(dubious, BOOK, packs))
  })

  it('puts strong concerns first, and settled ones last', () => {
    const book = { ...BOOK, settled: { 'raw-high-value': 'seen in hand by an expert' } }
    const { concerns } = inspect(dubious, book, packs)
    const order = concerns.map(
      ({ strength, settledBy }) => (settledBy === null ? 0 : 10) + ['strong', 'medium', 'weak'].indexOf(strength),
    )
    expect(order).toEqual([...order].sort((a, b) => a - b))
    expect(concerns.at(-1)).toMatchObject({ rule: 'raw-high-value', settledBy: 'seen in hand by an expert' })
  })

  it('never tightens the stance or asks for more when a concern is settled', () => {
    const before = inspect(dubious, BOOK, packs)
    for (const { rule } of before.concerns) {
      const after = inspect(dubious, { ...BOOK, settled: { [rule]: 'answered' } }, packs)
      expect(STANCES.indexOf(after.stance)).toBeLessThanOrEqual(STANCES.indexOf(before.stance))
      expect(after.request.views.every((view) => before.request.views.includes(view))).toBe(true)
    }
  })

  it('quotes words where they stand', () => {
    for (const { evidence } of inspect(dubious, BOOK, packs).concerns) {
      for (const { quote, field, start, end } of evidence) {
        if (field !== 'title' && field !== 'description') continue
        expect(dubious.listing[field]?.slice(start!, end!)).toBe(quote)
      }
    }
  })

  it('says of every weight that it is assumed, and nothing of probability', () => {
    const result = inspect(dubious, BOOK, packs)
    for (const { weight } of result.concerns) expect(weight).toMatchObject({ basis: 'assumed', count: 0 })
    expect(result.weighing).toMatchObject({ basis: 'assumed' })
    expect(JSON.stringify(result)).not.toMatch(/probab|fake|counterfeit/i)
  })

  it('learns from twenty outcomes', () => {
    const outcomes = { urgency: { raisedWrong: 9, silentWrong: 1, raisedSound: 1, silentSound: 9 } }
    const { concerns } = inspect(dubious, { ...BOOK, outcomes }, packs)
    expect(concerns.find(({ rule }) => rule === 'urgency')?.weight).toMatchObject({ basis: 'learned', count: 20 })
  })

  it('writes in the language of the message and speaks in that of the interface', () => {
    const result = inspect({ ...dubious, messageLanguage: 'en' }, BOOK, loadPacks('de'))
    expect(result.request.text).toMatch(/^Hello,/)
    expect(result.stanceReason).toMatch(/offen/)
    expect(inspect({ ...dubious, messageLanguage: 'xx' }, BOOK, packs).request.language).toBe('en')
  })

  it('has nothing to say of an empty listing but that nothing is shown', () => {
    const listing = {
      ...LISTING,
      title: null,
      price: null,
      seller: null,
      specifics: {},
      description: null,
      condition: null,
      photos: [],
      returns: null,
      returnsDays: null,
      payments: [],
    }
    const result = inspect({ ...FACTS, listing }, BOOK, packs)
    expect(result.concerns.map(({ rule }) => rule).sort()).toEqual(['missing-back', 'missing-front', 'too-few-photos'])
  })

  it('asks first for what would settle the most', () => {
    const { nextQuestion, request } = inspect(dubious, BOOK, packs)
    expect(nextQuestion?.view).toBe(request.views[0])
  })

  it('takes any text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 200 }),
        fc.string({ unit: 'grapheme', maxLength: 400 }),
        (title, description) => {
          const { trace } = inspect({ ...FACTS, listing: { ...LISTING, title, description } }, BOOK, packs)
          expect(trace.length).toBe(packs.rules.length)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('a view in doubt', () => {
  const covered = { ...ENCAPSULATED, description: 'Odo Marrable by KVX, EX 5. Certificate number covered for safety.' }

  it('is asked for although a caption names it', () => {
    const { views, request } = inspect({ ...FACTS, listing: covered }, BOOK, packs)
    const label = views.find(({ view }) => view === 'label')
    expect(label).toMatchObject({ status: 'not-readable', reason: expect.stringContaining('shown, but: ') })
    expect(request.views).toContain('label')
  })

  it('is taken at its word again once the concern is settled', () => {
    const book = { ...BOOK, settled: { 'certificate-hidden': 'seller sent it' } }
    const { views } = inspect({ ...FACTS, listing: covered }, book, packs)
    expect(views.find(({ view }) => view === 'label')?.status).toBe('shown')
  })
})

describe('of two concerns that say the same', () => {
  it('the one that says more stands alone, and the trace keeps the other', () => {
    const description = 'A card of the Tidal League of 1958. Light wear. This is a modern reprint.'
    const { concerns, trace } = inspect({ ...FACTS, listing: { ...LISTING, description } }, BOOK, packs)
    expect(concerns.map(({ rule }) => rule)).toEqual(['buried-reprint'])
    const line = trace.find(({ rule }) => rule === 'reprint-wording')
    expect(line).toMatchObject({ raised: true, reason: expect.stringContaining('superseded by buried-reprint') })
  })

  it('a weaker one hides no stronger one', () => {
    const weaker = packs.rules.map((rule) =>
      rule.id === 'buried-reprint'
        ? { ...rule, cases: rule.cases.map((one) => ({ ...one, strength: 'weak' as const })) }
        : rule,
    )
    const description = 'A card of the Tidal League of 1958. Light wear. This is a modern reprint.'
    const { concerns } = inspect({ ...FACTS, listing: { ...LISTING, description } }, BOOK, { ...packs, rules: weaker })
    expect(concerns.map(({ rule }) => rule)).toEqual(['reprint-wording', 'buried-reprint'])
  })
})
